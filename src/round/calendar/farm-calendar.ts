import type { CalendarDay } from '../../record/calendar-day.js';
import { type FarmCalendar, calendarOf } from './calendar-of.js';
import type { FarmWork } from '../round-of.js';
import { folderOf, refusalOf, WrongUse } from '../../run/exit-code.js';
import type { Effects } from '../../run/effects.js';
import { terminal } from '../../problem/message.js';
import { type CalendarMemory, readMemory, writeMemory } from './calendar-memory.js';

type FarmCalendarMade =
  | (FarmCalendar & {
      readonly outcome: 'made';
      /** Writes what is to be remembered; a memory that is the same is not touched. To be called once the calendar is written. */
      readonly remember: () => void;
    })
  | { readonly outcome: 'damaged'; readonly message: string };

/**
 * A farm's calendar on from what was last written, which is remembered in its `.growdown/calendar.json`.
 *
 * Error: a memory that cannot be read is left as it is, and no calendar is made: its numbers would begin anew
 */
export function farmCalendar(
  work: FarmWork,
  casesFolder: string,
  today: CalendarDay,
  effects: Effects,
): FarmCalendarMade {
  const { slug } = work.record;
  const path = `${casesFolder}/${slug}/.growdown/calendar.json`;
  const before = textAt(effects, path);
  const read = typeof before === 'string' ? readMemory(before) : before;
  if (read?.outcome === 'damaged')
    return {
      outcome: 'damaged',
      message: terminal('calendar.damaged', { path, why: read.why, farm: slug }),
    };
  const remembered: CalendarMemory | undefined = read?.memory;
  const made = calendarOf(work, remembered, today);
  const after = writeMemory(made.remembered);
  return {
    outcome: 'made',
    ...made,
    remember: () => {
      if (after !== before) remember(path, after, effects);
    },
  };
}

/** Undefined where nothing is there; why, where what is there cannot be read at all. */
function textAt({ files }: Effects, path: string): string | undefined | { outcome: 'damaged'; why: string } {
  try {
    if (files.look(path) === undefined) return undefined;
    return new TextDecoder().decode(files.read(path));
  } catch (error) {
    const { code } = refusalOf(error);
    return { outcome: 'damaged', why: code === 'EISDIR' ? terminal('calendar.folder') : code };
  }
}

/** The calendar is written by then: a number it was written with is found again by the next run, since nothing else has changed. */
function remember(path: string, text: string, effects: Effects): void {
  try {
    effects.writeFile(folderOf(effects, path), text);
  } catch (error) {
    const { code } = refusalOf(error);
    throw new WrongUse(terminal('calendar.not-remembered', { path, code }));
  }
}
