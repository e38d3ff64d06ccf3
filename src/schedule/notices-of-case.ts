import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { CaseStanding } from '../healing/standing.js';
import { wrapTimeline } from '../healing/wrap-timeline.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { noticeRank, urgencyOf } from '../reference/notices.js';
import type { Notice } from './notice.js';
import { clawChecks, signChecks } from './notices/foot-checks.js';
import { lameNothingFound, lameOffBlock, severestScore, worseAfterWork } from './notices/gait-checks.js';
import { growthChecks } from './notices/growth-checks.js';
import { lesionChecks } from './notices/lesion-checks.js';
import { longOnBlocks } from './notices/long-on-blocks.js';
import type { Judged, NoticeCheck, NoticeContext } from './notices/notice-rule.js';

const checks: readonly NoticeCheck[] = [
  signChecks,
  lesionChecks,
  growthChecks,
  severestScore,
  worseAfterWork,
  lameNothingFound,
  lameOffBlock,
  clawChecks,
];

/**
 * The prompts to bring in the veterinary surgeon that the record of the open episode raises, most urgent first;
 * never a diagnosis.
 *
 * Why this way: every visit of the episode is gone through as it stood then, so that a notice has the day it was
 * first raised and falls when a later look no longer bears it out. What a visit did not look at stays as it was.
 * An answer does not end a notice: the sign is still there until somebody has looked. Of a closed case the
 * notices stay as history and none stands.
 *
 * Shape:   case file, farm, growth, standing of the same day → notices
 * Source:  shared/notices.json
 * Checked: tests/schedule/notices-of-case.test.ts
 */
export function noticesOfCase(
  caseRecord: CaseRecord,
  farmRecord: FarmRecord,
  growth: AnimalGrowth,
  standing: CaseStanding,
  today: CalendarDay,
): readonly Notice[] {
  void farmRecord;
  const { animal } = caseRecord;
  const context: NoticeContext = { animal, growth, standing, wraps: wrapTimeline(animal, today), today };
  const closed = standing.closed !== undefined;
  return [...raisedByVisits(context), ...raisedByBlocks(context, today)]
    .map((notice) => ({ ...notice, ...vetOf(animal, notice.raised, today) }))
    .map((notice) => (closed ? { ...notice, standing: false } : notice))
    .sort((a, b) => noticeRank(a.rule) - noticeRank(b.rule) || (a.raised < b.raised ? -1 : 1));
}

function raisedByVisits(context: NoticeContext): Notice[] {
  const running = new Map<string, Notice>();
  const over: Notice[] = [];
  for (const at of context.standing.episode.visits) {
    const visit = context.animal.visits[at];
    if (!visit) continue;
    const score = context.standing.gait.scores.find((scored) => scored.visit === at);
    for (const check of checks)
      for (const judged of check(context, { at, visit, score })) {
        if (!judged.holds && running.size === 0) continue;
        const key = `${judged.rule} ${judged.lesion ?? judged.foot ?? ''}`;
        const before = running.get(key);
        if (judged.holds) running.set(key, noticeFrom(judged, before?.raised ?? visit.date));
        else if (before) {
          over.push({ ...before, standing: false });
          running.delete(key);
        }
      }
  }
  return [...over, ...running.values()];
}

function noticeFrom({ rule, foot, lesion, variant, values = {} }: Judged, raised: CalendarDay): Notice {
  return {
    rule,
    urgency: urgencyOf(rule),
    raised,
    ...(foot ? { foot } : {}),
    ...(lesion ? { lesion } : {}),
    evidence: {
      key: `notice.evidence.${rule}${variant ? `.${variant}` : ''}`,
      values: { raised, ...values },
    },
    standing: true,
  };
}

/** Stands while a block is on that foot, or until she has been scored not lame off it. */
function raisedByBlocks(context: NoticeContext, today: CalendarDay): Notice[] {
  return longOnBlocks(context, today).map(({ foot, raised, days, stillOn }) => ({
    ...noticeFrom({ rule: 'long-on-blocks', holds: true, foot, values: { foot, days } }, raised),
    standing: stillOn || context.standing.gait.standing !== 'sound',
  }));
}

/** The first time the vet was asked from that day on, before one without an answer one that has it. */
function vetOf(animal: Animal, raised: CalendarDay, today: CalendarDay): Pick<Notice, 'asked' | 'answered'> {
  const asks = animal.visits.flatMap(({ vet }) =>
    vet && vet.asked >= raised && vet.asked <= today ? [vet] : [],
  );
  const answers = animal.visits.flatMap(({ date, 'vet-answer': answer }) =>
    answer && date <= today ? [{ date, answer }] : [],
  );
  const answerTo = (asked: CalendarDay) => answers.find(({ answer }) => answer.to === asked);
  const ask = asks.find(({ asked }) => answerTo(asked)) ?? asks[0];
  if (!ask) return {};
  const answered = answerTo(ask.asked);
  return {
    asked: { on: ask.asked, why: ask.why },
    ...(answered
      ? { answered: { on: answered.date, by: answered.answer.by, reply: answered.answer.reply } }
      : {}),
  };
}
