import type { CalendarDay } from '../record/calendar-day.js';
import { type GrowthLine, unevenGrowth } from './growth-line.js';

/** What is held of her growth factor before anything is read: 1 is the reference rate. */
export interface Prior {
  readonly mean: number;
  readonly variance: number;
  /** How many other cows on file taught it, up to which day; absent where only published numbers are used. */
  readonly learnedFrom?: { readonly cows: number; readonly upTo: CalendarDay };
}

/** A stretch of growing: growth-months by season, and plain days. */
export type GrowingStretch = Readonly<{ months: number; days: number }>;

/** A length as expected: mean, mm, and variance, mm², without reading error. */
export type ExpectedLength = Readonly<{ mean: number; variance: number }>;

/** All that tells where a line's point goes from its last used reading on. Lengths mm, rates mm per growth-month. */
export interface Departure {
  readonly mm: number;
  readonly mmVariance: number;
  readonly rate: number;
  readonly rateVariance: number;
  readonly mmWithRate: number;
  /** Reference rate of the line, for what uneven growth adds. */
  readonly referenceRate: number;
}

/**
 * What is known of one animal at one moment: her growth factor, how far each line keeps its own
 * pace, and where each followed point stood when it was last read; with how sure each is, and how
 * they hang together. A reading of one line thereby teaches all her lines.
 *
 * A Kalman filter on a linear Gaussian state: g, then for each line its deviation h and its point x.
 *
 * Source:  J. Durbin and S. J. Koopman, Time Series Analysis by State Space Methods, 2012; shared/sources.json `durbin-koopman-2012`
 * Checked: tests/hand-worked/, tests/growth/all-readings-at-once.test.ts (one sum over all readings, no filter)
 */
export class WhatIsKnown {
  readonly #lines: readonly GrowthLine[];
  readonly #size: number;
  readonly #mean: Float64Array;
  readonly #spread: Float64Array;

  constructor(lines: readonly GrowthLine[], prior: Prior) {
    this.#lines = lines;
    this.#size = 1 + 2 * lines.length;
    this.#mean = new Float64Array(this.#size);
    this.#spread = new Float64Array(this.#size * this.#size);
    this.#mean[0] = prior.mean;
    this.#spread[0] = prior.variance;
    for (const [index, { deviation }] of lines.entries())
      this.#spread[(this.#size + 1) * paceOf(index)] = deviation ** 2;
  }

  /** The same knowledge apart: what is then taken into the one leaves the other as it was. */
  copy(): WhatIsKnown {
    const copy = new WhatIsKnown(this.#lines, this.factor());
    copy.#mean.set(this.#mean);
    copy.#spread.set(this.#spread);
    return copy;
  }

  /** Her growth factor. */
  factor(): Prior {
    return { mean: this.#mean[0]!, variance: this.#spread[0]! };
  }

  /** The point of a line is taken where it was read; what rate and factor have learned is kept. */
  start(line: number, mm: number, sigmaMm: number): void {
    const point = pointOf(line);
    for (let other = 0; other < this.#size; other++) this.#setBoth(point, other, 0);
    this.#mean[point] = mm;
    this.#setBoth(point, point, sigmaMm ** 2);
  }

  /** Where a line's point is and how it moves. */
  departure(line: number): Departure {
    const point = pointOf(line);
    const pace = paceOf(line);
    const rate = this.#lines[line]!.rate;
    return {
      mm: this.#mean[point]!,
      mmVariance: this.#at(point, point),
      rate: rate * (this.#mean[0]! + this.#mean[pace]!),
      rateVariance: rate ** 2 * (this.#at(0, 0) + 2 * this.#at(0, pace) + this.#at(pace, pace)),
      mmWithRate: rate * (this.#at(point, 0) + this.#at(point, pace)),
      referenceRate: rate,
    };
  }

  /** Lets a line's point grow down, then takes a reading of it into account. */
  take(line: number, stretch: GrowingStretch, mm: number, sigmaMm: number): void {
    this.#grow(line, stretch);
    const point = pointOf(line);
    const size = this.#size;
    const column = Float64Array.from({ length: size }, (_, row) => this.#at(row, point));
    const total = column[point]! + sigmaMm ** 2;
    const surprise = mm - this.#mean[point]!;
    for (let row = 0; row < size; row++) {
      const gain = column[row]! / total;
      this.#mean[row]! += gain * surprise;
      for (let other = 0; other < size; other++) this.#spread[row * size + other]! -= gain * column[other]!;
    }
  }

  #grow(line: number, { months, days }: GrowingStretch): void {
    const point = pointOf(line);
    const pace = paceOf(line);
    const rate = this.#lines[line]!.rate;
    const down = rate * months;
    const departure = this.departure(line);
    const variance = expectedLength(departure, { months, days }).variance;
    this.#mean[point]! += down * (this.#mean[0]! + this.#mean[pace]!);
    for (let other = 0; other < this.#size; other++) {
      if (other === point) continue;
      const withOther = this.#at(point, other) + down * (this.#at(0, other) + this.#at(pace, other));
      this.#setBoth(point, other, withOther);
    }
    this.#setBoth(point, point, variance);
  }

  #at(row: number, column: number): number {
    return this.#spread[row * this.#size + column]!;
  }

  #setBoth(row: number, column: number, value: number): void {
    this.#spread[row * this.#size + column] = value;
    this.#spread[column * this.#size + row] = value;
  }
}

const paceOf = (line: number): number => 1 + 2 * line;
const pointOf = (line: number): number => 2 + 2 * line;

/**
 * Where a line's point is expected after a stretch of growing.
 *
 * Unit:    mm, mm²
 * Checked: tests/hand-worked/
 */
export function expectedLength(from: Departure, { months, days }: GrowingStretch): ExpectedLength {
  return {
    mean: from.mm + from.rate * months,
    variance:
      from.mmVariance +
      2 * months * from.mmWithRate +
      months ** 2 * from.rateVariance +
      unevenGrowth(from.referenceRate, days),
  };
}
