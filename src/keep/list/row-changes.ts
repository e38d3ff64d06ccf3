import { bareMark } from '../../record/bare-mark.js';
import type { Animal } from '../../record/animal.js';
import { type CalendarDay, daysBetween } from '../../record/calendar-day.js';
import type { Step } from '../../record/record-step.js';
import { listNumbers } from './read-list.js';
import type { ListRow } from './read-rows.js';

/** What a row would change in a file. */
export interface RowChanges {
  readonly fills: readonly { readonly key: string; readonly value: unknown }[];
  /** Days a list on file does not hold yet. */
  readonly adds: readonly { readonly key: string; readonly day: CalendarDay }[];
  readonly differs: readonly {
    readonly key: string;
    readonly has: string | number;
    readonly says: string | number;
    /** Of a list on file, which entry. */
    readonly index?: number;
  }[];
  /** A tag, electronic number or birth that differs: she may be another animal that bore the number. */
  readonly mayBeAnother: boolean;
}

const ownMarks: readonly string[] = ['tag', 'electronic', 'born'];

/**
 * What a row says that her file does not. A day near one on file is held for the same day written otherwise, and so differs.
 *
 * Checked: tests/cli/import.test.ts
 */
export function rowChanges({ values }: ListRow, record: Animal): RowChanges {
  const fills: { key: string; value: unknown }[] = [];
  const adds: { key: string; day: CalendarDay }[] = [];
  const differs: RowChanges['differs'][number][] = [];
  for (const [key, says] of Object.entries(values)) {
    if (key === 'animal') continue;
    const has = record[key as keyof Animal] as string | number | CalendarDay[] | undefined;
    if (has === undefined) fills.push({ key, value: says });
    else if (typeof says === 'string' || typeof says === 'number') {
      if (!isSame(key, has, says)) differs.push({ key, has: String(has), says });
    } else if (Array.isArray(has))
      for (const day of says.filter((one) => !has.includes(one))) {
        const index = has.findIndex(
          (one) => Math.abs(daysBetween(one, day)) <= listNumbers.sameDays.value && !says.includes(one),
        );
        if (index < 0) adds.push({ key, day });
        else differs.push({ key, has: has[index]!, says: day, index });
      }
  }
  return { fills, adds, differs, mayBeAnother: differs.some(({ key }) => ownMarks.includes(key)) };
}

/** Marks are the same with and without spaces. */
function isSame(key: string, has: unknown, says: string | number): boolean {
  return key === 'tag' || key === 'electronic'
    ? bareMark(String(has)) === bareMark(String(says))
    : has === says;
}

/** The steps in her file: what fills, what is added and, where that is asked for, what differs. */
export function stepsOf(
  { fills, adds, differs, mayBeAnother }: RowChanges,
  record: Animal,
  replace: boolean,
): Step[] {
  if (mayBeAnother && !replace) return [];
  const steps: Step[] = fills.map(({ key, value }) => ({ put: 'key', path: [], key, value }));
  const lists = new Map<string, CalendarDay[]>();
  const listOf = (key: string): CalendarDay[] => {
    const list = lists.get(key) ?? [...((record[key as keyof Animal] ?? []) as CalendarDay[])];
    lists.set(key, list);
    return list;
  };
  for (const { key, says, index } of replace ? differs : []) {
    steps.push({ put: 'value', path: index === undefined ? [key] : [key, index], value: says });
    if (index !== undefined) listOf(key)[index] = String(says);
  }
  for (const { key, day } of adds) {
    const list = listOf(key);
    const later = list.findIndex((one) => one > day);
    const index = later < 0 ? list.length : later;
    list.splice(index, 0, day);
    steps.push({ put: 'entry', path: [key], index, value: day });
  }
  return steps;
}
