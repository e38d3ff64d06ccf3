/** Chance that can be dealt again: each draw is a whole number from 0 up to, not with, `below`. */
type SeededRandom = Readonly<{ below: (below: number) => number }>;

/**
 * A stream of random numbers settled by its seed: the same on every machine, in every year.
 *
 * The generator is xoshiro128**, in whole 32-bit arithmetic, which no machine rounds. Its four words come out of the seed
 * by splitmix, so that seeds 1 and 2 have nothing in common. It is for drawing samples, not for secrets.
 * Draws that would favour low numbers are drawn again.
 *
 * Valid:   a whole seed from 0 to 4294967295; `below` whole, from 1 to 4294967296
 * Error:   RangeError
 * Source:  D. Blackman and S. Vigna (2021), xoshiro; G. L. Steele, D. Lea and C. H. Flood (2014), splitmix, with the 32-bit finaliser of MurmurHash3
 * Checked: tests/statistics/seeded-random.test.ts, against the published code in C
 * @example seededRandom(7).below(1) // → 0
 */
export function seededRandom(seed: number): SeededRandom {
  if (!Number.isInteger(seed) || seed < 0 || seed >= words) {
    throw new RangeError(`a seed of ${seed}: expected a whole number from 0 to 4294967295`);
  }
  const next = xoshiro([1, 2, 3, 4].map((k) => scattered(seed + k * goldenStep)));
  return {
    below(below) {
      if (!Number.isInteger(below) || below < 1 || below > words) {
        throw new RangeError(`a draw below ${below}: expected a whole number from 1 to 4294967296`);
      }
      const fair = words - (words % below);
      for (;;) {
        const word = next();
        if (word < fair) return word % below;
      }
    },
  };
}

const words = 2 ** 32;

const goldenStep = 0x9e3779b9;

function scattered(value: number): number {
  let word = value >>> 0;
  word = Math.imul(word ^ (word >>> 16), 0x85ebca6b);
  word = Math.imul(word ^ (word >>> 13), 0xc2b2ae35);
  return (word ^ (word >>> 16)) >>> 0;
}

/** The generator itself, from its four words (not all 0) to the next word each time. */
export function xoshiro(start: readonly number[]): () => number {
  let [a = 0, b = 0, c = 0, d = 0] = start;
  return () => {
    const result = Math.imul(turned(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = turned(d, 11);
    return result;
  };
}

function turned(word: number, by: number): number {
  return (word << by) | (word >>> (32 - by));
}
