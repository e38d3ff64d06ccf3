/** One polynomial over another, the coefficients of the highest power first. */
type Rational = Readonly<{ over: readonly number[]; under: readonly number[] }>;

/** The value of a rational function, by Horner's rule. */
function ratioOf(x: number, { over, under }: Rational): number {
  const polynomial = (coefficients: readonly number[]) => coefficients.reduce((sum, one) => sum * x + one, 0);
  return polynomial(over) / polynomial(under);
}

/**
 * The complementary error function, 2/√π · ∫ from x to ∞ of exp(−t²) dt.
 *
 * Cody's rational approximations on three ranges. exp(−x²) is taken in two factors, with x split
 * at a sixteenth, so that the rounding of x² does not spoil the far tail.
 *
 * Valid:   any number; the result runs from 2 down to 0
 * Error:   relative, a few units in the last place down to 1e-300
 * Source:  W. J. Cody (1969), rational Chebyshev approximations; shared/sources.json `cody-1969`
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
  over: [0.18577770618460315, 3.1611237438705655, 113.86415415105016, 377.485237685302, 3209.3775891384694],
  under: [1, 23.601290952344122, 244.02463793444417, 1282.6165260773723, 2844.236833439171],
};

const middle: Rational = {
  over: [
    2.1531153547440383e-8, 0.5641884969886701, 8.883149794388375, 66.11919063714163, 298.6351381974001,
    881.952221241769, 1712.0476126340707, 2051.0783778260716, 1230.3393547979972,
  ],
  under: [
    1, 15.744926110709835, 117.6939508913125, 537.1811018620099, 1621.3895745666903, 3290.79923573346,
    4362.619090143247, 3439.3676741437216, 1230.3393548037493,
  ],
};

const far: Rational = {
  over: [
    0.016315387137302097, 0.30532663496123236, 0.36034489994980445, 0.12578172611122926, 0.01608378514874228,
    0.0006587491615298378,
  ],
  under: [
    1, 2.568520192289822, 1.8729528499234673, 0.5279051029514285, 0.06051834131244132, 0.0023352049762686918,
  ],
};

const oneOverRootPi = 0.5641895835477563;

function farRatio(size: number): number {
  const inverse = 1 / (size * size);
  return (oneOverRootPi - inverse * ratioOf(inverse, far)) / size;
}

function bellAt(size: number): number {
  const coarse = Math.trunc(size * 16) / 16;
  return Math.exp(-coarse * coarse) * Math.exp(-(size - coarse) * (size + coarse));
}

/**
 * The chance that a standard normal value falls at or below z.
 *
 * Error:   relative, 2e-15 from −5 up; further down the rounding of z itself counts, z² times 1e-16 or so
 * Source:  ½ · erfc(−z/√2)
 * Checked: tests/statistics/normal.test.ts
 * @example normalCdf(0) // → 0.5
 */
export function normalCdf(z: number): number {
  return erfc(-z * Math.SQRT1_2) / 2;
}

/**
 * The normal quantile: the point that a standard normal value stays below with the given chance.
 *
 * Wichura's rational approximations: one for the centre, two for the tails.
 *
 * Valid:   0 to 1; 0 gives −∞, 1 gives +∞, anything outside NaN
 * Error:   relative, about 1e-16 as published; 1e-15 asked for in the test
 * Source:  M. J. Wichura (1988), algorithm AS 241; shared/sources.json `wichura-1988`
 * Checked: tests/statistics/normal.test.ts
 * @example normalQuantile(0.975) // → 1.959963984540054
 */
export function normalQuantile(chance: number): number {
  if (!(chance >= 0 && chance <= 1)) return Number.NaN;
  if (chance === 0 || chance === 1) return chance === 0 ? -Infinity : Infinity;
  const fromHalf = chance - 0.5;
  if (Math.abs(fromHalf) <= 0.425) return fromHalf * ratioOf(0.180625 - fromHalf * fromHalf, centre);
  const tail = Math.sqrt(-Math.log(fromHalf < 0 ? chance : 1 - chance));
  const size = tail <= 5 ? ratioOf(tail - 1.6, shoulder) : ratioOf(tail - 5, farTail);
  return fromHalf < 0 ? -size : size;
}

const centre: Rational = {
  over: [
    2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
    1971.5909503065513, 133.14166789178438, 3.3871328727963665,
  ],
  under: [
    5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
    687.1870074920579, 42.31333070160091, 1.0,
  ],
};

const shoulder: Rational = {
  over: [
    0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
    5.769497221460691, 4.630337846156546, 1.4234371107496835,
  ],
  under: [
    1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
    1.6763848301838038, 2.053191626637759, 1.0,
  ],
};

const farTail: Rational = {
  over: [
    2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124,
    0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
  ],
  under: [
    2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133,
    0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1.0,
  ],
};
