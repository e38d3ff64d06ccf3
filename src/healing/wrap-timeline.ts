import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { feet } from '../record/words.js';
import type { FixtureMoment, FixtureSpan } from './fixture-span.js';
import { followFixture } from './follow-fixture.js';
import { onceForAnimal } from './once-for-animal.js';

/**
 * The wraps of an animal up to a day, per foot, oldest first.
 *
 * A farm's report that the wrap is off (`farm-did: wrap off`) ends the wraps on her, since the task names no foot.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export const wrapTimeline = onceForAnimal((animal: Animal, today: CalendarDay): readonly FixtureSpan[] => {
  const wrapped = new Set(animal.visits.flatMap(({ wraps }) => wraps?.map(({ foot }) => foot) ?? []));
  return feet
    .filter((foot) => wrapped.has(foot))
    .flatMap((foot) => {
      const moments = [...animal.visits.entries()].flatMap(([visit, { date, wraps, 'farm-did': did }]) => [
        ...[...(wraps ?? []).entries()]
          .filter(([, wrap]) => wrap.foot === foot)
          .map(([at, wrap]): FixtureMoment => {
            const on = wrap.on === undefined || wrap.on === 'unknown' ? date : wrap.on;
            return { event: wrap.event, on, dayUnknown: wrap.on === 'unknown', visit, at };
          }),
        ...(did ?? [])
          .filter(({ what }) => what === 'wrap off')
          .map(({ on }): FixtureMoment => ({ event: 'removed', on, dayUnknown: false, visit, at: -1 })),
      ]);
      const known = moments
        .filter(({ on }) => on <= today)
        .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
      return followFixture({ foot }, withoutStrayReports(known), today);
    });
});

/** A farm's word that the wrap is off says nothing of a foot that had none. */
function withoutStrayReports(moments: readonly FixtureMoment[]): readonly FixtureMoment[] {
  let on = false;
  return moments.filter((moment) => {
    if (moment.at < 0 && !on) return false;
    on = !['lost', 'removed'].includes(moment.event);
    return true;
  });
}
