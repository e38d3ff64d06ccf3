import { isHealed, lastFound } from '../../record/visit.js';
import type { Animal } from '../../record/animal.js';
import { type CalendarDay, addDays, dayNumber } from '../../record/calendar-day.js';
import { type Claw, type Foot, type WallLine, claws, feet, type Tool } from '../../record/words.js';
import { growthNumbers, toolError } from '../../reference/growth-numbers.js';
import {
  type GrowthLine,
  lactationOn,
  referenceRate,
  type GrowingConditions,
  seasonFrom,
} from '../growth-line.js';
import { type GrowthOptions, followAnimal } from '../follow-animal.js';
import { gapGrowth } from '../gap-growth.js';
import type { WallLength } from '../animal-growth.js';
import type { GapPlace } from '../wall-gaps.js';
import { type WhatIsKnown, expectedLength } from '../what-is-known.js';
import { wayDown, whenOut } from '../when-out.js';
import { given } from '../../record/given.js';

/** A notch that could be filed, and its line, not yet read. */
interface NotchToFile {
  readonly foot: Foot;
  readonly claw: Claw;
  readonly line: WallLine;
  readonly growth: GrowthLine;
}

/** The line whose growth is best known. */
const bestKnown: WallLine = 'dorsal';

/**
 * Where a growth mark could be filed: the front wall of the first claw with no trouble on record, hind feet first.
 *
 * Valid:   undefined where every foot has a lesion that is not healed on both claws; whether the wall is thick enough is for who files it
 * Checked: tests/growth/worth-measuring.test.ts
 */
export function notchOnSoundClaw(animal: Animal, on: CalendarDay): NotchToFile | undefined {
  const visits = animal.visits.filter(({ date }) => date <= on);
  const sore = Object.entries(animal.lesions).filter(([name]) => !isHealed(lastFound(visits, name)));
  const places = feet.toReversed().flatMap((foot) => claws.toReversed().map((claw) => ({ foot, claw })));
  const place = places.find(
    ({ foot, claw }) => !sore.some(([, lesion]) => lesion.foot === foot && (lesion.claw ?? claw) === claw),
  );
  if (place === undefined) return undefined;
  const rate = referenceRate({ ...place, line: bestKnown, lactation: lactationOn(animal, on) });
  const { deviation } = growthNumbers.lines[bestKnown];
  return {
    ...place,
    line: bestKnown,
    growth: { name: '', of: 'mark', rate, deviation: deviation.value, readings: [] },
  };
}

/**
 * The one reading that would narrow a date most: a gap's top, its wall, a growth mark there is, or a notch filed now
 * and read at the visit after.
 */
export interface ReadingWorthTaking {
  /** The gap whose date it narrows. */
  readonly lesion: string;
  readonly what: 'top' | 'wall' | 'mark' | 'new-mark';
  /** The lesion or mark to be read; absent for a new mark. */
  readonly of?: string;
  readonly foot: Foot;
  readonly claw: Claw;
  readonly line: WallLine;
  readonly tool: Tool;
  /** The day it is taken; of a new mark, the day it is filed. */
  readonly on: CalendarDay;
  /** A new mark teaches only once it is read again. */
  readonly readAgainOn?: CalendarDay;
  /** Half the 80 % range, weeks: without it, and with it if it reads as expected. */
  readonly nowWeeks: number;
  readonly thenWeeks: number;
}

/** A line by its place among the lines, and the day number on which its point stands. */
interface LineOnDay {
  readonly index: number;
  readonly from: number;
}

/** A gap with a date. */
interface DatedGap extends GapPlace, LineOnDay {
  readonly wall: Pick<WallLength, 'mm' | 'sdMm'>;
  readonly tool: Tool | undefined;
}

/**
 * What would be known after a reading on a day to come that shows just what is expected: the means stay,
 * only how sure they are changes.
 *
 * Checked: tests/hand-worked/worth-measuring.test.ts
 */
class KnownOnDay {
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

/** The day of the next visit, and days from it to the one after. */
interface NextVisits {
  readonly next: CalendarDay;
  readonly daysToSecond?: number;
}

/** A reading that could be taken, and what it asks beyond a usual visit. */
interface ReadingToTry {
  readonly reading: ReadingWorthTaking;
  readonly trouble: 'usual' | 'finer tool' | 'visit after' | 'both';
}

/**
 * Every reading that could be taken of an animal at the next visit, with what each would make of each date.
 *
 * Valid:   from `today` on; a gap gives a reading, and has a date to narrow, where it has a forecast that does not wait for sound horn
 * Checked: tests/growth/worth-measuring.test.ts
 */
export function readingsToTry(
  animal: Animal,
  conditions: GrowingConditions,
  options: GrowthOptions,
  { next, daysToSecond = growthNumbers.worthMeasuring.secondLook.value }: NextVisits,
): ReadingToTry[] {
  if (next < options.today) return [];
  const notch = notchOnSoundClaw(animal, next);
  const { gaps, marks, followed } = followAnimal(animal, conditions, options, notch ? [notch.growth] : []);
  const dated = gaps.flatMap((place, index): DatedGap[] => {
    const course = followed.lines[index]!;
    const { forecast, wall } = gapGrowth(animal, place, course, conditions, options).growth;
    if (forecast.outcome === 'none' || forecast.ifSoundHornFollows || course.lastUsed === undefined)
      return [];
    if (forecast.out.early === null || forecast.out.early <= next) return [];
    return [{ ...place, index, from: course.lastUsed.day, wall, tool: course.lastUsed.tool }];
  });
  const known = new KnownOnDay(followed.known, conditions, dayNumber(next));
  return dated.flatMap((gap) => {
    const nowWeeks = known.weeksEitherWay(gap);
    if (nowWeeks === undefined) return [];
    const tried: ReadingToTry[] = [];
    for (const top of dated) {
      for (const { tool, trouble } of toolsFor(top.tool))
        add('top', top, tool, trouble, known.afterReading(top, tool).weeksEitherWay(gap), top.lesion);
    }
    for (const { tool, trouble } of toolsFor(gap.tool)) {
      const wall = { mm: gap.wall.mm, sdMm: toolError(tool, gap.wall.mm) };
      add('wall', gap, tool, trouble, known.weeksEitherWay({ ...gap, wall }), gap.lesion);
    }
    for (const [at, [name, mark]] of marks.entries()) {
      const index = gaps.length + at;
      const { lastUsed } = followed.lines[index]!;
      if (lastUsed === undefined) continue;
      for (const { tool, trouble } of toolsFor(lastUsed.tool)) {
        const read = known.afterReading({ index, from: lastUsed.day }, tool);
        add('mark', mark, tool, trouble, read.weeksEitherWay(gap), name);
      }
    }
    if (notch !== undefined) {
      const index = gaps.length + marks.length;
      for (const { tool, trouble } of toolsFor(undefined)) {
        const read = known.afterNotch(index, daysToSecond, tool);
        const then = trouble === 'usual' ? 'visit after' : 'both';
        add('new-mark', notch, tool, then, read.weeksEitherWay(gap), undefined);
      }
    }
    return tried;

    function add(
      what: ReadingWorthTaking['what'],
      {
        foot,
        claw,
        line,
      }: Pick<ReadingWorthTaking, 'foot' | 'claw'> & { readonly line: ReadingWorthTaking['line'] },
      tool: Tool,
      trouble: ReadingToTry['trouble'],
      thenWeeks: number | undefined,
      of: string | undefined,
    ): void {
      if (thenWeeks === undefined || nowWeeks === undefined) return;
      const reading = {
        lesion: gap.lesion,
        what,
        ...given({ of }),
        foot,
        claw,
        line,
        tool,
        on: next,
        ...(what === 'new-mark' ? { readAgainOn: addDays(next, daysToSecond) } : {}),
        nowWeeks,
        thenWeeks,
      };
      tried.push({ reading, trouble });
    }
  });
}

/** The tool in use, where it is a rule of any kind; and the finest. A line is best followed with one tool. */
function toolsFor(inUse: Tool | undefined): { tool: Tool; trouble: 'usual' | 'finer tool' }[] {
  if (inUse === 'calliper') return [{ tool: 'calliper', trouble: 'usual' }];
  return [
    { tool: inUse === 'tape' ? 'tape' : 'ruler', trouble: 'usual' },
    { tool: 'calliper', trouble: 'finer tool' },
  ];
}

const { atLeast } = growthNumbers.worthMeasuring;

/**
 * Finds the one reading at the next visit that would narrow a date most: which line, which tool, or a notch
 * filed on a sound claw.
 *
 * How sure a reading makes us does not hang on what it shows, so it is worked out beforehand, as if it showed
 * what is expected. A finer tool than the one in use is named only where it narrows by another week, and so is a
 * notch, which pays only at the visit after.
 *
 * Shape:   an animal, the day of the next visit → one reading, or undefined where none narrows enough
 * Unit:    weeks either way
 * Valid:   of gaps that have a date and are not likely out by then; not of those at the coronet, where sound horn must come first
 * Source:  shared/growth.json `worthMeasuring`
 * Checked: tests/hand-worked/worth-measuring.test.ts, tests/growth/worth-measuring.test.ts
 */
export function worthMeasuring(
  animal: Animal,
  conditions: GrowingConditions,
  options: GrowthOptions,
  visits: NextVisits,
): ReadingWorthTaking | undefined {
  const tried = readingsToTry(animal, conditions, options, visits).filter(
    ({ reading }) => narrowed(reading) >= atLeast.value,
  );
  let best: ReadingWorthTaking | undefined;
  for (const trouble of ['usual', 'finer tool', 'visit after', 'both'] as const) {
    const most = mostNarrowing(tried.filter((one) => one.trouble === trouble).map(({ reading }) => reading));
    if (most === undefined) continue;
    if (best === undefined || narrowed(most) - narrowed(best) >= atLeast.value) best = most;
  }
  return best;
}

function mostNarrowing(readings: readonly ReadingWorthTaking[]): ReadingWorthTaking | undefined {
  let most = readings[0];
  for (const reading of readings) if (narrowed(reading) > narrowed(most!)) most = reading;
  return most;
}

function narrowed({ nowWeeks, thenWeeks }: ReadingWorthTaking): number {
  return nowWeeks - thenWeeks;
}
