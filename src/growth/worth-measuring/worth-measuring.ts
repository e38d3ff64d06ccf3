import { isHealed, lastFound } from '../../record/visit.js';
import type { Animal } from '../../record/animal.js';
import { type CalendarDay, addDays, dayNumber } from '../../record/calendar-day.js';
import { type WallLine, claws, feet, type Tool } from '../../record/words.js';
import { growthNumbers, toolError } from '../../reference/growth-numbers.js';
import {
  type GrowthLine,
  type LinePlace,
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

/** The line whose growth is best known. */
const bestKnown: WallLine = 'dorsal';

/**
 * Where a growth mark could be filed, with its line, not yet read: the front wall of the first claw with no trouble on
 * record, hind feet first.
 *
 * Valid:   undefined where every foot has a lesion that is not healed on both claws; whether the wall is thick enough is for who files it
 * Checked: tests/growth/worth-measuring.test.ts
 */
export function notchOnSoundClaw(
  animal: Animal,
  on: CalendarDay,
): (LinePlace & { readonly growth: GrowthLine }) | undefined {
  const visits = animal.visits.filter(({ date }) => date <= on);
  const sore = Object.entries(animal.lesions).filter(([name]) => !isHealed(lastFound(visits, name)));
  const places = feet.toReversed().flatMap((foot) => claws.toReversed().map((claw) => ({ foot, claw })));
  const claw = places.find((place) =>
    sore.every(([, lesion]) => lesion.foot !== place.foot || (lesion.claw ?? place.claw) !== place.claw),
  );
  if (claw === undefined) return undefined;
  const place = { ...claw, line: bestKnown };
  const rate = referenceRate({ ...place, lactation: lactationOn(animal, on) });
  const deviation = growthNumbers.lines[bestKnown].deviation.value;
  return { ...place, growth: { name: '', of: 'mark', rate, deviation, readings: [] } };
}

/**
 * The one reading that would narrow a date most: a gap's top, its wall, a growth mark there is, or a notch filed now
 * and read at the visit after.
 */
export interface ReadingWorthTaking extends LinePlace {
  /** The gap whose date it narrows. */
  readonly lesion: string;
  readonly what: 'top' | 'wall' | 'mark' | 'new-mark';
  /** The lesion or mark to be read; absent for a new mark. */
  readonly of?: string;
  readonly tool: Tool;
  /** The day it is taken; of a new mark, the day it is filed. */
  readonly on: CalendarDay;
  /** A new mark teaches only once it is read again. */
  readonly readAgainOn?: CalendarDay;
  /** Half the 80 % range, weeks: without it, and with it if it is read as expected. */
  readonly nowWeeks: number;
  readonly thenWeeks: number;
}

/** A line by its place among the lines, and the day number on which its point is. */
type LineOnDay = Readonly<{ index: number; from: number }>;

/** A gap with a date. */
interface DatedGap extends GapPlace, LineOnDay {
  readonly wall: Pick<WallLength, 'mm' | 'sdMm'>;
  readonly tool: Tool | undefined;
}

interface KnownOnDay {
  /** Half the 80 % range of a gap, weeks; undefined where it reaches beyond five years. */
  readonly weeksEitherWay: (gap: DatedGap) => number | undefined;
  /** With one line read on the day. Valid: by the person who first read it. */
  readonly afterReading: (line: LineOnDay, tool: Tool) => KnownOnDay;
  /** With a notch filed on the day and read some days later. */
  readonly afterNotch: (index: number, days: number, tool: Tool) => KnownOnDay;
}

/**
 * What would be known after a reading on a day to come that shows just what is expected: the means stay,
 * only how sure they are changes. `read`: the line read on that day, if any, whose point is there.
 *
 * Checked: tests/hand-worked/worth-measuring.test.ts
 */
function knownOnDay(
  known: WhatIsKnown,
  conditions: GrowingConditions,
  day: number,
  read?: number,
): KnownOnDay {
  const takeAsExpected = (after: WhatIsKnown, index: number, from: number, on: number, tool: Tool) => {
    const days = on - from;
    const stretch = { days, months: seasonFrom(from, conditions).monthsAfter(days) };
    const { mean } = expectedLength(after.departure(index), stretch);
    after.take(index, stretch, mean, toolError(tool, mean));
  };
  return {
    weeksEitherWay: ({ index, from, wall }) => {
      const since = index === read ? day : from;
      const { early, late } = whenOut([wayDown(since, known.departure(index), wall, conditions)]).days;
      if (early === null || late === null) return undefined;
      return (late - early) / 2 / growthNumbers.week.value;
    },
    afterReading: ({ index, from }, tool) => {
      const after = known.copy();
      takeAsExpected(after, index, from, day, tool);
      return knownOnDay(after, conditions, day, index);
    },
    afterNotch: (index, days, tool) => {
      const after = known.copy();
      const { notchMm } = growthNumbers.worthMeasuring;
      after.start(index, notchMm.value, toolError(tool, notchMm.value));
      takeAsExpected(after, index, day, day + days, tool);
      return knownOnDay(after, conditions, day);
    },
  };
}

/** The day of the next visit, and days from it to the one after. */
type NextVisits = Readonly<{ next: CalendarDay; daysToSecond?: number }>;

/** A tool, and what a reading with it asks beyond a usual visit. */
type ToolToTry = Readonly<{ tool: Tool; trouble: 'usual' | 'finer tool' | 'visit after' | 'both' }>;

/** A reading that could be taken. */
interface ReadingToTry extends Pick<ToolToTry, 'trouble'> {
  readonly reading: ReadingWorthTaking;
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
  const known = knownOnDay(followed.known, conditions, dayNumber(next));
  return dated.flatMap((gap) => {
    const nowWeeks = known.weeksEitherWay(gap);
    if (nowWeeks === undefined) return [];
    const tried: ReadingToTry[] = [];
    const add = (
      what: ReadingWorthTaking['what'],
      { foot, claw, line }: LinePlace,
      { tool, trouble }: ToolToTry,
      thenWeeks: number | undefined,
      of?: string,
    ) => {
      if (thenWeeks === undefined) return;
      const readAgainOn = what === 'new-mark' ? addDays(next, daysToSecond) : undefined;
      const place = { ...given({ of }), foot, claw, line };
      const reading = { lesion: gap.lesion, what, ...place, tool, on: next, ...given({ readAgainOn }) };
      tried.push({ reading: { ...reading, nowWeeks, thenWeeks }, trouble });
    };
    for (const top of dated)
      for (const one of toolsFor(top.tool))
        add('top', top, one, known.afterReading(top, one.tool).weeksEitherWay(gap), top.lesion);
    for (const one of toolsFor(gap.tool)) {
      const wall = { mm: gap.wall.mm, sdMm: toolError(one.tool, gap.wall.mm) };
      add('wall', gap, one, known.weeksEitherWay({ ...gap, wall }), gap.lesion);
    }
    for (const [at, [name, mark]] of marks.entries()) {
      const index = gaps.length + at;
      const { lastUsed } = followed.lines[index]!;
      for (const one of lastUsed ? toolsFor(lastUsed.tool) : []) {
        const read = known.afterReading({ index, from: lastUsed!.day }, one.tool);
        add('mark', mark, one, read.weeksEitherWay(gap), name);
      }
    }
    for (const { tool, trouble: usual } of notch ? toolsFor(undefined) : []) {
      const read = known.afterNotch(gaps.length + marks.length, daysToSecond, tool);
      const trouble = usual === 'usual' ? 'visit after' : 'both';
      add('new-mark', notch!, { tool, trouble }, read.weeksEitherWay(gap));
    }
    return tried;
  });
}

/** The tool in use, where it is a rule of any kind; and the finest. A line is best followed with one tool. */
function toolsFor(inUse: Tool | undefined): ToolToTry[] {
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
    // Of equals the first.
    const [most] = tried
      .flatMap((one) => (one.trouble === trouble ? one.reading : []))
      .sort((a, b) => narrowed(b) - narrowed(a));
    if (most && (!best || narrowed(most) - narrowed(best) >= atLeast.value)) best = most;
  }
  return best;
}

function narrowed({ nowWeeks, thenWeeks }: ReadingWorthTaking): number {
  return nowWeeks - thenWeeks;
}
