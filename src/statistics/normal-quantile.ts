import { type Rational, ratioOf } from './normal.js';

/**
 * The normal quantile: the point that a standard normal value stays below with the given chance.
 *
 * Wichura's rational approximations: one for the middle, two for the tails.
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
  if (Math.abs(fromHalf) <= 0.425) return fromHalf * ratioOf(0.180625 - fromHalf * fromHalf, middle);
  const tail = Math.sqrt(-Math.log(fromHalf < 0 ? chance : 1 - chance));
  const size = tail <= 5 ? ratioOf(tail - 1.6, shoulder) : ratioOf(tail - 5, farTail);
  return fromHalf < 0 ? -size : size;
}

const middle: Rational = {
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
