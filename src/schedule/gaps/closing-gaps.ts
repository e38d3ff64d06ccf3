import { episodesOf } from '../../healing/episode.js';
import { soundNotShown, stillOnAtClose } from '../../healing/missing-at-close.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Farm } from '../../record/farm.js';
import { fixedDays } from '../../reference/intervals.js';
import type { Gap } from '../gap.js';

const shared = { grade: 'serious', closable: 'by-asking' } as const;

/**
 * What the end of a case leaves open: a block or wrap still on as far as is recorded, and a result `sound` that no
 * score shows, of every episode.
 *
 * Checked: tests/schedule/gaps-of-case.test.ts, tests/cli/close.test.ts
 */
export function closingGaps(animal: Animal, farm: Farm, today: CalendarDay): Gap[] {
  const episodes = episodesOf(animal, today);
  const last = episodes.at(-1);
  const fixtures = last?.ended === undefined ? [] : stillOnAtClose(animal, last.result, today);
  return [
    ...fixtures.map(({ kind, left, foot, claw, from, visit, at }): Gap => ({
      ...shared,
      id: `gap/closed-with-${kind}-on`,
      path: ['visits', visit, `${kind}s`, at],
      values: { foot, ...(claw ? { claw } : {}), day: from, ...(left ? { which: 'left' } : {}) },
      ...(last?.ended === undefined ? {} : { since: last.ended }),
    })),
    ...episodes.flatMap((episode): Gap[] => {
      const { written, ended, result } = episode;
      if (written === undefined || ended === undefined || result !== 'sound') return [];
      const missing = soundNotShown(animal, farm, episode, ended);
      if (!missing) return [];
      const needed = fixedDays('off-block-counts');
      const values = { ...missing.values, which: missing.why, since: ended, needed };
      const path = ['episodes', written, 'result'];
      return [{ ...shared, id: 'gap/sound-not-shown', path, values, since: ended }];
    }),
  ];
}
