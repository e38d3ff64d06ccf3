import { type Rational, ratioOf } from './rational.js';

/**
 * The complementary error function, 2/√π · ∫ from x to ∞ of exp(−t²) dt.
 *
 * Cody's rational approximations on three ranges. exp(−x²) is taken in two factors, with x split
 * at a sixteenth, so that the rounding of x² does not spoil the far tail.
 *
 * Valid:   any number; the result runs from 2 down to 0
 * Error:   relative, a few units in the last place down to 1e-300
 * Source:  W. J. Cody, Mathematics of Computation 23 (1969) 631-637; shared/sources.json `cody-1969`
 * Checked: tests/statistics/normal.test.ts, against table values of 30 digits
 * @example erfc(0) // → 1
 */
export function erfc(x: number): number {
  const size = Math.abs(x);
  if (Number.isNaN(x)) return Number.NaN;
  if (size <= 0.46875) return 1 - x * ratioOf(size * size, near);
  const tail = size > 27 ? 0 : bellAt(size) * (size <= 4 ? ratioOf(size, middle) : farRatio(size));
  return x < 0 ? 2 - tail : tail;
}

const near: Rational = {
  over: [
    1.8577770618460315e-1, 3.1611237438705656, 1.1386415415105016e2, 3.7748523768530202e2,
    3.2093775891384695e3,
  ],
  under: [1, 2.3601290952344121e1, 2.4402463793444417e2, 1.2826165260773723e3, 2.8442368334391706e3],
};

const middle: Rational = {
  over: [
    2.1531153547440385e-8, 5.6418849698867009e-1, 8.8831497943883759, 6.611919063714163e1,
    2.986351381974001e2, 8.8195222124176909e2, 1.7120476126340706e3, 2.0510783778260715e3,
    1.2303393547979972e3,
  ],
  under: [
    1, 1.5744926110709835e1, 1.176939508913125e2, 5.3718110186200986e2, 1.6213895745666902e3,
    3.29079923573346e3, 4.3626190901432472e3, 3.4393676741437216e3, 1.2303393548037494e3,
  ],
};

const far: Rational = {
  over: [
    1.6315387137302098e-2, 3.0532663496123234e-1, 3.6034489994980444e-1, 1.2578172611122925e-1,
    1.6083785148742277e-2, 6.587491615298378e-4,
  ],
  under: [
    1, 2.5685201922898224, 1.8729528499234673, 5.2790510295142841e-1, 6.0518341312441319e-2,
    2.3352049762686919e-3,
  ],
};

const oneOverRootPi = 5.6418958354775629e-1;

function farRatio(size: number): number {
  const inverse = 1 / (size * size);
  return (oneOverRootPi - inverse * ratioOf(inverse, far)) / size;
}

function bellAt(size: number): number {
  const coarse = Math.trunc(size * 16) / 16;
  return Math.exp(-coarse * coarse) * Math.exp(-(size - coarse) * (size + coarse));
}
