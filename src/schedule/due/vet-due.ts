import { addDays } from '../../record/calendar-day.js';
import { fixedDays } from '../../reference/intervals.js';
import { urgencies, type Urgency } from '../../reference/notices.js';
import type { Notice } from '../notice.js';
import type { DueContext, DueDraft } from './due-context.js';
import { episodeVisits } from './due-context.js';
import { openUlcerOrCorium } from './open-ulcer-or-corium.js';
import { vetWork } from './vet-work-due.js';

/**
 * Answers of the vet that are awaited, and one item to ask for the most urgent notice nobody has asked about.
 *
 * A question of the day that has no answer by the next morning is asked again, one that could wait after a week; what the
 * vet said he comes to do, the morning after his day, where nothing is recorded of it; what was seen again after an answer, that
 * day.
 *
 * Checked: tests/schedule/notices-of-case.test.ts, tests/schedule/vet-work-due.test.ts
 */
export function vetDue(context: DueContext): DueDraft[] {
  const { notices, today } = context;
  const visits = episodeVisits(context).map(([, visit]) => visit);
  const answered = new Set(visits.map((visit) => visit['vet-answer']?.to));
  const awaited = visits.flatMap(({ vet }): DueDraft[] => {
    if (!vet || vet.asked > today || answered.has(vet.asked)) return [];
    const about = notices.filter(({ standing, asked }) => standing && asked?.on === vet.asked);
    const urgency = mostUrgent(about);
    const by = addDays(vet.asked, fixedDays(urgency === 'notice' ? 'ring-again-notice' : 'ring-again'));
    const again = by <= today;
    const key = again ? 'vet-ring-again' : 'vet-answer';
    return [
      {
        what: key,
        by: again ? by : vet.asked,
        ...(again ? { overdueFrom: addDays(by, 1) } : {}),
        who: again ? 'farm' : 'vet',
        basis: 'record',
        urgency,
        why: { key: `due.why.${key}`, values: { day: vet.asked, reason: vet.why } },
      },
    ];
  });
  const promised = vetWork(context)
    .filter(({ on, doneOn }) => doneOn === undefined && on < today)
    .filter(({ on }, at, all) => all.findIndex((one) => one.on === on) === at)
    .map(({ on, said, to, what }): DueDraft => ({
      what: 'vet-ring-again',
      by: addDays(on, 1),
      overdueFrom: addDays(on, 2),
      who: 'farm',
      basis: 'record',
      urgency: mostUrgent(notices.filter(({ standing, asked }) => standing && asked?.on === to)),
      why: { key: 'due.why.vet-ring-again-promised', values: { day: said, from: on } },
      task: what,
    }));
  const again = notices.flatMap(({ standing, seenAgain: by, answered: last, urgency }): DueDraft[] => {
    if (!standing || by === undefined || last === undefined) return [];
    return [
      {
        what: 'vet-ring-again',
        by,
        overdueFrom: addDays(by, 1),
        who: 'farm',
        basis: 'record',
        urgency,
        why: { key: 'due.why.vet-ring-again-seen', values: { day: last.on, seen: by } },
      },
    ];
  });
  const rung = [...awaited, ...promised, ...again.slice(0, 1)];
  const toAsk = notices.filter(({ standing, asked }) => standing && !asked);
  const [first] = toAsk;
  if (!first) return rung;
  const { rule, urgency, raised, foot, lesion, evidence } = first;
  return [
    ...rung,
    {
      what: 'vet-ask',
      by: raised,
      // Asked for on the day it is raised: from the next day on it is late.
      overdueFrom: addDays(raised, 1),
      who: 'farm',
      basis: 'record',
      urgency,
      why: { key: evidence.key, values: { ...evidence.values, rule, urgency, count: toAsk.length } },
      ...(foot ? { foot } : {}),
      ...(lesion ? { lesion } : {}),
    },
  ];
}

/** How soon the most urgent of them is; nothing named can wait. */
function mostUrgent(notices: readonly Notice[]): Urgency {
  return urgencies.find((urgency) => notices.some((notice) => notice.urgency === urgency)) ?? 'notice';
}

/**
 * Ask the vet before she walks through the bath: while live tissue lies bare and the farm bathes, or will.
 *
 * Due on the day it was found, or the day bathing begins if that is later.
 */
export function footbathDue(context: DueContext): DueDraft[] {
  const { farm, animal, today } = context;
  const bare = openUlcerOrCorium(animal, today);
  const bath = (farm.footbath ?? []).find(({ to }) => to === undefined || to >= today);
  if (!bare || !bath) return [];
  const by = bath.from !== undefined && bath.from > bare.since ? bath.from : bare.since;
  const { foot, lesion } = bare;
  return [
    {
      what: 'footbath-ask-vet',
      by,
      overdueFrom: addDays(by, 1),
      who: 'farm',
      basis: 'record',
      why: { key: `due.why.footbath-ask-vet-${bare.why}`, values: { day: bare.since } },
      foot,
      ...(lesion ? { lesion } : {}),
    },
  ];
}
