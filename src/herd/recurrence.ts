import { isHealed } from '../record/visit.js';
import { familyOf } from '../reference/lesions.js';
import { isActive } from '../healing/looks-at-lesion.js';
import { footSeen } from '../healing/foot-seen.js';
import { z } from 'zod';
import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
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
  return {
    settled: sum('settled'),
    seenAgain: sum('seenAgain'),
    cameBack: sum('cameBack'),
    daysBetween: counts.flatMap((one) => one.daysBetween).sort((a, b) => a - b),
  };
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
  const settled = followed.flatMap((one) => {
    const on = one.looks.find(({ found }) => isHealed(found))?.date;
    return on ? [{ one, on }] : [];
  });
  const again = againOf(followed);
  const returned = settled.map(({ one, on }) =>
    again(one)
      .filter(({ firstSeen }) => firstSeen > on)
      .map(({ firstSeen }) => daysBetween(on, firstSeen)),
  );
  return {
    settled: settled.length,
    seenAgain: settled.filter(({ one, on }) => footLiftedAfter(one, on, today)).length,
    cameBack: returned.filter((days) => days.length > 0).length,
    daysBetween: returned.flat().sort((a, b) => a - b),
  };
}

/** So that it could have been found come back. */
function footLiftedAfter({ record, lesion }: FollowedLesion, day: CalendarDay, today: CalendarDay): boolean {
  const { animal } = record;
  return animal.visits.some(
    (visit) => visit.date > day && visit.date <= today && footSeen(animal, visit, lesion.foot),
  );
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
  const places = placesOfDermatitis(followed)
    .map((staged) => ({ staged, quiet: staged.findIndex(({ active }) => !active) }))
    .filter(({ quiet }) => quiet >= 0);
  const returned = places.map(({ staged }) =>
    staged.flatMap((look, at) => {
      const before = staged[at - 1];
      return before && look.active && !before.active ? [daysBetween(before.date, look.date)] : [];
    }),
  );
  return {
    settled: places.length,
    seenAgain: places.filter(({ staged, quiet }) => staged.length > quiet + 1).length,
    cameBack: returned.filter((days) => days.length > 0).length,
    daysBetween: returned.flat().sort((a, b) => a - b),
  };
}

interface StagedLook {
  readonly date: CalendarDay;
  readonly active: boolean;
}

/** The staged looks of each place, those under a later name with them, oldest first. */
function placesOfDermatitis(followed: readonly FollowedLesion[]): StagedLook[][] {
  const dermatitis = followed.filter(({ code }) => familyOf(code) === 'dermatitis');
  const again = againOf(dermatitis);
  const later = new Set(dermatitis.flatMap(again));
  const looksOf = (one: FollowedLesion): StagedLook[] => [
    ...one.looks.flatMap(({ date, found }) => (found.stage ? [{ date, active: isActive(found.stage) }] : [])),
    ...again(one).flatMap(looksOf),
  ];
  return dermatitis
    .filter((one) => !later.has(one))
    .map((one) => looksOf(one).sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0)));
}

/** The lesions of the same animal that say they are the one again. */
function againOf(followed: readonly FollowedLesion[]): (one: FollowedLesion) => readonly FollowedLesion[] {
  const saying = new Map<FollowedLesion['record'], FollowedLesion[]>();
  for (const one of followed) {
    if (!one.lesion['again-of']) continue;
    const others = saying.get(one.record);
    if (others) others.push(one);
    else saying.set(one.record, [one]);
  }
  return ({ record, name }) => (saying.get(record) ?? []).filter(({ lesion }) => lesion['again-of'] === name);
}
