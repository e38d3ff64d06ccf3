import { soreFeet } from '../healing/foot-seen.js';
import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import { noticeLimit } from '../reference/notices.js';
import type { CaseWork, StopWork } from './case-work.js';
import { type DueItem, episodeVisits } from './due/due-item.js';
import type { Notice } from './notices/notice-rule.js';
import { aboutOf } from './notices/standing-signs.js';
import { isOpen } from './next-lift.js';
import { given } from '../record/given.js';

/**
 * Whether work has stopped on a farm on a day, and why: one animal with blisters, mouth sores or, in the United States,
 * maggots; or two that slobber, are feverish or are suddenly lame within a fortnight.
 *
 * Suddenly lame: the severest score after one below lame, with no lesion open that explains it, of a case still open. What
 * several animals raise ends by an answer that closes it; what one animal raises ends with its notice. A case that is closed
 * meanwhile, since she died or walks well, reports nothing to anybody, so it ends neither.
 *
 * Source:  shared/notices.json
 * Checked: tests/schedule/stop-work.test.ts
 */
export function stopWorkOf(cases: readonly CaseWork[]): StopWork | undefined {
  const raised = cases.flatMap((work) =>
    work.notices.flatMap((notice) =>
      notice.standing && notice.urgency === 'stop-work' ? [{ work, notice }] : [],
    ),
  );
  const several = severalIll(cases);
  const [first] = raised.toSorted((a, b) => (a.notice.raised < b.notice.raised ? -1 : 1));
  if (!first && !several) return undefined;
  const animals = first ? raised.map(({ work }) => work) : several!.animals;
  const since = first?.notice.raised ?? several!.since;
  const about = first ? raised.map(({ notice }) => notice) : animals.flatMap(noticesOfIllness);
  const [asked] = about.flatMap((notice) => notice.asked?.on ?? []).toSorted();
  const answers = about.flatMap((notice) => notice.answered ?? []).toSorted((a, b) => (a.on < b.on ? -1 : 1));
  const lifts = cases.flatMap(({ record }) =>
    record.animal.visits.filter((visit) => isLiftingVisit(visit) && visit.date >= since),
  );
  return {
    rule: first?.notice.rule ?? 'several-animals-ill',
    since,
    animals: [...new Set(animals.map(({ record }) => record.animal.animal))],
    ...given({ asked, answered: answers.at(-1) }),
    suspended: cases.flatMap(({ due }) => due.filter(isTrimmers)).length,
    people: [...new Set(lifts.map(({ by }) => by))],
  };
}

/** The trimmer's jobs wait until the vet or the authority has closed it; the farm's own go on. */
export function isTrimmers(item: DueItem): boolean {
  return item.who === 'trimmer' && isOpen(item);
}

/** What is on one of several ill, and so what a question to the vet names. */
function noticesOfIllness({ notices }: CaseWork): readonly Notice[] {
  return notices.filter(
    ({ rule, standing }) => standing && (rule === 'off-feed-hot-or-down' || rule === 'severest-score'),
  );
}

function severalIll(cases: readonly CaseWork[]): { since: CalendarDay; animals: CaseWork[] } | undefined {
  const ill = cases.flatMap(illDays).toSorted((a, b) => (a.day < b.day ? -1 : 1));
  const within = noticeLimit('several-animals-ill', 'within');
  const second = ill.find(({ work, day }) => {
    const before = ill.filter(
      (other) => other.work !== work && other.day <= day && daysBetween(other.day, day) <= within,
    );
    return before.length > 0 && !isClosed([work, ...before.map((other) => other.work)], day);
  });
  if (!second) return undefined;
  const near = ill.filter(({ day }) => Math.abs(daysBetween(day, second.day)) <= within);
  return { since: second.day, animals: [...new Set(near.map(({ work }) => work))] };
}

/** Days on which an animal slobbered, was feverish, or was suddenly lame with nothing that explains it. */
function illDays(work: CaseWork) {
  const { standing } = work;
  const { animal } = work.record;
  const { scores } = standing.gait;
  return episodeVisits({ animal, standing }).flatMap(([at, visit]) => {
    const index = scores.findIndex((score) => score.visit === at);
    const [before, score] = [scores[index - 1], scores[index]];
    const sudden =
      !standing.closed &&
      score?.severe === true &&
      before?.lame === false &&
      before.scale === score.scale &&
      soreFeet(animal, visit.date).length === 0;
    const told = visit.signs?.some((sign) => sign === 'slobbering' || sign === 'feverish') === true;
    return told || sudden ? [{ work, day: visit.date }] : [];
  });
}

/** An answer, about one of those that are ill, from that day on that closes it: slobbering, fever, or how she walks. */
function isClosed(cases: readonly CaseWork[], since: CalendarDay): boolean {
  const named = new Set(['slobbering', 'feverish', 'lame']);
  return cases.some(({ record: { animal } }) =>
    animal.visits.some(
      ({ date, 'vet-answer': answer }) =>
        date >= since && answer?.closes === true && aboutOf(animal, answer).some((one) => named.has(one)),
    ),
  );
}
