import type { Tool } from '../../record/words.js';
import { growthNumbers } from '../../reference/growth-numbers.js';
import type { WallLength } from '../animal-growth.js';
import type { GrowingConditions } from '../growing-conditions.js';
import { toolError } from '../../reference/reading-error.js';
import { seasonFrom } from '../season.js';
import type { GapPlace } from '../wall-gaps.js';
import { type WhatIsKnown, expectedLength } from '../what-is-known.js';
import { wayDown, whenOut } from '../when-out.js';

/** A line by its place among the lines, and the day number on which its point stands. */
export interface LineOnDay {
  readonly index: number;
  readonly from: number;
}

/** A gap with a date. */
export interface DatedGap extends GapPlace, LineOnDay {
  readonly wall: Pick<WallLength, 'mm' | 'sdMm'>;
  readonly tool: Tool | undefined;
}

/**
 * What would be known after a reading on a day to come that shows just what is expected: the means stay,
 * only how sure they are changes.
 *
 * Checked: tests/hand-worked/worth-measuring.test.ts
 */
export class KnownOnDay {
  readonly #known: WhatIsKnown;
  readonly #conditions: GrowingConditions;
  readonly #day: number;
  /** The line read on that day, if any: its point stands there. */
  readonly #read: number | undefined;

  constructor(known: WhatIsKnown, conditions: GrowingConditions, day: number, read?: number) {
    this.#known = known;
    this.#conditions = conditions;
    this.#day = day;
    this.#read = read;
  }

  /** With one line read on the day. Valid: by the person who first read it. */
  afterReading({ index, from }: LineOnDay, tool: Tool): KnownOnDay {
    const known = this.#known.copy();
    this.#takeAsExpected(known, index, from, this.#day, tool);
    return new KnownOnDay(known, this.#conditions, this.#day, index);
  }

  /** With a notch filed on the day and read some days later. */
  afterNotch(index: number, days: number, tool: Tool): KnownOnDay {
    const known = this.#known.copy();
    const { notchMm } = growthNumbers.worthMeasuring;
    known.start(index, notchMm.value, toolError(tool, notchMm.value));
    this.#takeAsExpected(known, index, this.#day, this.#day + days, tool);
    return new KnownOnDay(known, this.#conditions, this.#day);
  }

  /** Half the 80 % range of a gap, weeks; undefined where it reaches beyond five years. */
  weeksEitherWay({ index, from, wall }: DatedGap): number | undefined {
    const since = index === this.#read ? this.#day : from;
    const { early, late } = whenOut([
      wayDown(since, this.#known.departure(index), wall, this.#conditions),
    ]).days;
    if (early === null || late === null) return undefined;
    return (late - early) / 2 / growthNumbers.week.value;
  }

  #takeAsExpected(known: WhatIsKnown, index: number, from: number, on: number, tool: Tool): void {
    const days = on - from;
    const stretch = { days, months: seasonFrom(from, this.#conditions).monthsAfter(days) };
    const { mean } = expectedLength(known.departure(index), stretch);
    known.take(index, stretch, mean, toolError(tool, mean));
  }
}
