import { daysBetween } from '../record/calendar-day.js';
import { fixedDays } from '../reference/intervals.js';
import { isActive } from './dermatitis-stage.js';
import type { Look } from './looks-at-lesion.js';
import type { Told } from './wall-standing.js';

/**
 * How digital dermatitis stands: by its last stage, with how often it was active at looks at least 28 days apart.
 *
 * Why this way: looks of one week are one flare seen twice; each look counts only when 28 days have passed since
 * the last one counted, and the last look is not counted twice. `came-back` is active at the first look after
 * one that found normal skin; a flare after M3 or M4 is a return too, and counted, but the place had not healed.
 *
 * Shape:   looks, oldest first → standing
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function dermatitisStanding(looks: readonly Look[]): Told {
  const staged = looks.flatMap(({ date, found }) => (found.stage ? [{ date, stage: found.stage }] : []));
  const last = staged.at(-1);
  if (!last) {
    const date = looks.at(-1)?.date;
    return { standing: 'not-measured', evidence: date ? { date } : {} };
  }
  const counted: typeof staged = [];
  for (const look of staged) {
    const before = counted.at(-1);
    if (!before || daysBetween(before.date, look.date) >= fixedDays('dermatitis-look')) counted.push(look);
  }
  const returns = staged.filter(({ stage }, at) => {
    const before = staged[at - 1];
    return before && isActive(stage) && !isActive(before.stage);
  }).length;
  const evidence = {
    date: last.date,
    stage: last.stage,
    activeLooks: { active: counted.filter(({ stage }) => isActive(stage)).length, looks: counted.length },
    returns,
  };
  if (last.stage === 'M0') return { standing: 'healed', evidence };
  if (!isActive(last.stage)) return { standing: 'quiet', evidence };
  const before = staged.at(-2);
  if (before?.stage === 'M0') return { standing: 'came-back', evidence: { ...evidence, since: before.date } };
  return { standing: 'active', evidence };
}
