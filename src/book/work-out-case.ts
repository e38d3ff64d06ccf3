import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord, Practice } from '../record/practice.js';
import type { CaseWork } from './case-work.js';

/** TEMPORARY until growth, healing and schedule stand. */
export function workOutCase(
  practice: Practice,
  farm: FarmRecord,
  record: CaseRecord,
  today: CalendarDay,
): CaseWork {
  void practice;
  void farm;
  const ended = record.animal.episodes?.at(-1)?.ended;
  return {
    record,
    growth: {
      factor: { mean: 1, variance: 0.04 },
      prior: { mean: 1, variance: 0.04 },
      lesions: [],
      marks: [],
      unplaced: [],
      case: { outcome: 'none', because: [] },
    },
    standing: {
      lesions: [],
      gait: { standing: 'not-scored', scores: [], blockNow: 'off' },
      episode: { visits: [] },
      ...(ended && ended <= today ? { closed: { on: ended, result: 'sound' } } : {}),
    },
    due: [],
    notices: [],
  };
}
