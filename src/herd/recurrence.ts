import { isHealed } from '../record/visit.js';
import { familyOf } from '../reference/lesions.js';
import { isActive } from '../healing/looks-at-lesion.js';
import { footSeen } from '../healing/foot-seen.js';
import { z } from 'zod';
import { compareDays, daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { FollowedLesion } from './lesion-rates.js';

/** How many came back, of how many that could be seen to. */
export const recurrence = z.strictObject({
  /** Seen healed (dermatitis: healed or quiet). */
  settled: z.number(),
  /** Of these, seen again at a later lift of the same foot: only they could be found come back. */
  seenAgain: z.number(),
  cameBack: z.number(),
  /** Days from seen settled to seen come back, one for each time, from short to long; the true ones are no longer. */
  daysBetween: z.array(z.number()),
});
export type Recurrence = Readonly<z.infer<typeof recurrence>>;

/** Counts of several files together. */
export function recurrences(counts: readonly Recurrence[]): Recurrence {
  const sum = (key: 'settled' | 'seenAgain' | 'cameBack') => counts.reduce((all, one) => all + one[key], 0);
  const [settled, seenAgain, cameBack] = [sum('settled'), sum('seenAgain'), sum('cameBack')];
  return { settled, seenAgain, cameBack, daysBetween: sorted(counts.flatMap((one) => one.daysBetween)) };
}

/** What came of each place that settled: whether it could be seen to, and the days to each time it came back. */
function recurrenceOf(places: readonly { seenAgain: boolean; returned: readonly number[] }[]): Recurrence {
  return {
    settled: places.length,
    seenAgain: places.filter(({ seenAgain }) => seenAgain).length,
    cameBack: places.filter(({ returned }) => returned.length > 0).length,
    daysBetween: sorted(places.flatMap(({ returned }) => returned)),
  };
}

function sorted(days: readonly number[]): number[] {
  return days.toSorted((a, b) => a - b);
}

/**
 * How many healed lesions broke down again in the same place (`again-of`), dermatitis apart.
 *
 * Shape:   the lesions followed, day → counts; a lesion that came back twice counts once among `cameBack`, with two times between
 * Unit:    days
 * Checked: tests/herd/recurrence.test.ts
 */
export function recurrenceOfLesions(all: readonly FollowedLesion[], today: CalendarDay): Recurrence {
  const followed = all.filter(({ code }) => familyOf(code) !== 'dermatitis');
  const again = againOf(followed);
  const places = followed.flatMap((one) => {
    const on = one.looks.find(({ found }) => isHealed(found))?.date;
    if (on === undefined) return [];
    const { animal } = one.record;
    const seenAgain = animal.visits.some(
      (visit) => visit.date > on && visit.date <= today && footSeen(animal, visit, one.lesion.foot),
    );
    const returned = again(one).flatMap(({ firstSeen }) =>
      firstSeen > on ? daysBetween(on, firstSeen) : [],
    );
    return [{ seenAgain, returned }];
  });
  return recurrenceOf(places);
}

/**
 * How often digital dermatitis was active again at a look after one that found it healed or quiet.
 *
 * Why apart: it may return under its own name as well as under a new one with `again-of`; the two are one place here. A place seen quiet counts once among `settled`, and once among
 * `cameBack` however often it flared; `daysBetween` has every flare.
 *
 * Checked: tests/herd/recurrence.test.ts
 */
export function returnsOfDermatitis(followed: readonly FollowedLesion[]): Recurrence {
  const dermatitis = followed.filter(({ code }) => familyOf(code) === 'dermatitis');
  const again = againOf(dermatitis);
  const later = new Set(dermatitis.flatMap(again));
  /** The staged looks of a place, those under a later name with them, oldest first. */
  const looksOf = (one: FollowedLesion): { date: CalendarDay; active: boolean }[] =>
    [
      ...one.looks.flatMap(({ date, found }) => (found.stage ? { date, active: isActive(found.stage) } : [])),
      ...again(one).flatMap(looksOf),
    ].sort((a, b) => compareDays(a.date, b.date));
  const places = dermatitis
    .filter((one) => !later.has(one))
    .flatMap((one) => {
      const staged = looksOf(one);
      const quiet = staged.findIndex(({ active }) => !active);
      if (quiet < 0) return [];
      const returned = staged.flatMap((look, at) => {
        const before = staged[at - 1];
        return before && look.active && !before.active ? daysBetween(before.date, look.date) : [];
      });
      return [{ seenAgain: staged.length > quiet + 1, returned }];
    });
  return recurrenceOf(places);
}

/** The lesions of the same animal that say they are the one again. */
function againOf(followed: readonly FollowedLesion[]): (one: FollowedLesion) => readonly FollowedLesion[] {
  const saying = followed.filter(({ lesion }) => lesion['again-of']);
  return ({ record, name }) =>
    saying.filter((other) => other.record === record && other.lesion['again-of'] === name);
}
