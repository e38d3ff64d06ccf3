import type { Animal } from '../../record/animal.js';
import { type CalendarDay, addDays, dayNumber } from '../../record/calendar-day.js';
import type { Tool } from '../../record/words.js';
import { growthNumbers } from '../../reference/growth-numbers.js';
import { type GrowthOptions, followAnimal } from '../follow-animal.js';
import { gapGrowth } from '../gap-growth.js';
import type { GrowingConditions } from '../growing-conditions.js';
import { toolError } from '../../reference/reading-error.js';
import { type DatedGap, KnownOnDay } from './known-on-day.js';
import { notchOnSoundClaw } from './notch-on-sound-claw.js';
import type { ReadingWorthTaking } from './reading-worth-taking.js';

/** The day of the next visit, and days from it to the one after. */
export interface NextVisits {
  readonly next: CalendarDay;
  readonly daysToSecond?: number;
}

/** A reading that could be taken, and what it asks beyond a usual visit. */
export interface ReadingToTry {
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
        ...(of === undefined ? {} : { of }),
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
