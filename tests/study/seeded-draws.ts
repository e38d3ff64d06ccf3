import { normalQuantile } from '../../src/statistics/normal.js';

const m1 = 4294967087;
const m2 = 4294944443;

/**
 * Chance that can be repeated: L'Ecuyer's combined generator MRG32k3a, the same numbers on any machine.
 *
 * Source:  P. L'Ecuyer, Good parameters and implementations for combined multiple recursive random number
 *          generators, Operations Research 47 (1999) 159-164
 * Checked: tests/study/seeded-draws.test.ts, against the published first numbers
 */
export class SeededDraws {
  #x: [number, number, number];
  #y: [number, number, number];

  constructor(seed: number) {
    this.#x = [seed, seed, seed];
    this.#y = [seed, seed, seed];
  }

  /** Between 0 and 1, neither included. */
  uniform(): number {
    const [x3, x2, x1] = this.#x;
    const x = positive((1403580 * x2 - 810728 * x3) % m1, m1);
    this.#x = [x2, x1, x];
    const [y3, y2, y1] = this.#y;
    const y = positive((527612 * y1 - 1370589 * y3) % m2, m2);
    this.#y = [y2, y1, y];
    return (x > y ? x - y : x - y + m1) / (m1 + 1);
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }

  normal(mean: number, sd: number): number {
    return mean + sd * normalQuantile(this.uniform());
  }

  oneOf<T>(things: readonly T[]): T {
    return things[Math.floor(things.length * this.uniform())]!;
  }
}

function positive(rest: number, modulus: number): number {
  return rest < 0 ? rest + modulus : rest;
}
