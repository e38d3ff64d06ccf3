import { footSeen, soreFeet } from '../healing/foot-seen.js';
import type { CaseStanding } from '../healing/standing.js';
import { wrapTimeline } from '../healing/fixture-span.js';
import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { Animal } from '../record/animal.js';
import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { fixedDays } from '../reference/intervals.js';
import { noticeRank, ruleEnds, urgencies, urgencyOf } from '../reference/notices.js';
import { checks, longOnBlocks, signsNamedBy } from './notices/notice-checks.js';
import type { Notice, JudgedCase, NoticeContext, VisitLook } from './notices/notice-rule.js';
import { aboutOf, isBelowLame, isRelieved, standingSigns } from './notices/standing-signs.js';

/**
 * The prompts to bring in the veterinary surgeon that the record of the open episode raises, most urgent first;
 * never a diagnosis.
 *
 * Why this way: every visit of the episode is gone through as it stood then, so that a notice has the day it was first
 * raised. How it ends is a property of its rule (`ends` in shared/notices.json): with its signs, which only hands on the foot
 * clear; by a later look at the lesion; by a score below lame off the block; by two lifts a week apart. A report or a missed
 * visit may raise one and ends none. The vet's answer stops the ringing, and ends a notice only where it says so. Of a closed
 * case the notices stay as history and none is in force but what stops work: closing a case reports nothing to anybody.
 *
 * Shape:   case file, farm, growth, standing of the same day → notices
 * Source:  shared/notices.json
 * Checked: tests/schedule/notices-of-case.test.ts
 */
export function noticesOfCase(
  { animal }: CaseRecord,
  { farm }: FarmRecord,
  growth: AnimalGrowth,
  standing: CaseStanding,
  today: CalendarDay,
): readonly Notice[] {
  const context: NoticeContext = { animal, growth, standing, wraps: wrapTimeline(animal, today), today };
  return [...raisedByVisits(context), ...raisedByBlocks(context)]
    .map((raised) => {
      // In the United States maggots may be screwworm, which is to be reported: work stops.
      const stops = raised.rule === 'maggots' && farm.language === 'en-US';
      const notice: Notice = stops ? { ...raised, urgency: 'stop-work' } : raised;
      const stands = standing.closed ? stillStops(animal, notice, today) : notice.standing;
      return { ...notice, standing: stands, ...vetOf(animal, { ...notice, standing: stands }, today) };
    })
    .sort(
      (a, b) =>
        urgencies.indexOf(a.urgency) - urgencies.indexOf(b.urgency) ||
        noticeRank(a.rule) - noticeRank(b.rule) ||
        (a.raised < b.raised ? -1 : 1),
    );
}

/** What stops work outlives the end of the case until an answer closes it; no foot of hers may ever be lifted again. */
function stillStops(animal: Animal, notice: Notice, today: CalendarDay): boolean {
  if (!notice.standing || notice.urgency !== 'stop-work') return false;
  const signs = signsNamedBy(notice.rule);
  const seen = (written: readonly string[] = []) => written.some((sign) => signs.has(sign));
  const places = animal.visits.flatMap(({ feet = {}, found = {} }) => [
    ...Object.entries(feet).flatMap(([foot, of]) => (seen(of.signs) ? foot : [])),
    ...Object.entries(found).flatMap(([lesion, of]) => (seen(of.signs) ? lesion : [])),
  ]);
  return !animal.visits.some(
    ({ date, 'vet-answer': answer }) =>
      answer?.closes === true &&
      date >= notice.seen &&
      date <= today &&
      aboutOf(animal, answer).some((one) => signs.has(one) || places.includes(one)),
  );
}

interface Running {
  readonly notice: Notice;
  /** First of the two lifts that a rule needs to end. */
  readonly over?: CalendarDay;
}

function raisedByVisits(context: NoticeContext): Notice[] {
  const { animal, standing } = context;
  const running = new Map<string, Running>();
  const over: Notice[] = [];
  /** By key, the last day seen when the vet closed it: until it is seen again it is not raised again. */
  const closed = new Map<string, CalendarDay>();
  const signs = standingSigns(animal, standing.episode.visits, standing.gait.scores);
  for (const at of standing.episode.visits) {
    const visit = animal.visits[at];
    if (!visit) continue;
    const score = standing.gait.scores.find((scored) => scored.visit === at);
    const look: VisitLook = { at, visit, score, signs: signs.get(at) ?? [] };
    const judged = new Map(
      checks.flatMap((check) => check(context, look)).map((one) => [keyOf(one), one] as const),
    );
    for (const [key, one] of judged) {
      const seen = one.seen ?? visit.date;
      if (!one.holds || seen <= (closed.get(key) ?? '')) continue;
      const notice = noticeFrom(one, running.get(key)?.notice.raised ?? visit.date, seen);
      running.set(key, { notice: { ...notice, feet: feetOf(animal, notice, look) } });
    }
    for (const [key, one] of running) {
      const end = () => {
        over.push({ ...one.notice, standing: false });
        running.delete(key);
      };
      if (closes(animal, look, one.notice)) {
        closed.set(key, one.notice.seen);
        end();
      } else if (judged.get(key)?.holds !== true) {
        const next = afterLook(context, look, one, judged.get(key));
        if (next) running.set(key, next);
        else end();
      }
    }
  }
  return [...over, ...[...running.values()].map(({ notice }) => notice)];
}

function keyOf({ rule, lesion, foot }: Pick<JudgedCase, 'rule' | 'lesion' | 'foot'>): string {
  return `${rule} ${lesion ?? foot ?? ''}`;
}

/** A notice that was not borne out at a visit: as it stands after it; undefined where it is over. */
function afterLook(
  { animal }: NoticeContext,
  { visit, score }: VisitLook,
  running: Running,
  judged: JudgedCase | undefined,
): Running | undefined {
  const { notice, over } = running;
  const lifts = isLiftingVisit(visit);
  switch (ruleEnds(notice.rule)) {
    case 'signs':
      return undefined;
    case 'look': {
      const looked = lifts && judged !== undefined;
      const walks = notice.foot !== undefined && score !== undefined && isBelowLame(animal, score);
      return looked || (walks && footSeen(animal, visit, notice.foot)) ? undefined : running;
    }
    case 'score': {
      if (!score || score.block !== 'off' || isRelieved(animal, score)) return running;
      if (isBelowLame(animal, score, fixedDays('off-block-counts'))) return undefined;
      const better = score.score < Number(notice.evidence.values['score'] ?? 0);
      return better ? { ...running, notice: { ...notice, urgency: 'notice' } } : running;
    }
    case 'two-lifts': {
      if (!lifts || !score || !isBelowLame(animal, score)) return running;
      const apart = over !== undefined && daysBetween(over, visit.date) >= fixedDays('two-lifts-apart');
      return apart ? undefined : { ...running, over: over ?? visit.date };
    }
  }
}

/**
 * The vet's answer at this visit ends it: it closes what it was about, or, about nothing named, what is no matter of the day.
 * What ends with its signs is left to them: of several only those that were asked about are over.
 */
function closes(animal: Animal, { visit }: VisitLook, notice: Notice): boolean {
  const answer = visit['vet-answer'];
  const isLeftToSigns = ruleEnds(notice.rule) === 'signs' && notice.urgency !== 'notice';
  if (answer?.closes !== true || isLeftToSigns || notice.raised > visit.date) return false;
  return isNamed(notice, aboutOf(animal, answer));
}

/** Whether a question or an answer is about a notice. */
function isNamed(notice: Notice, about: readonly string[]): boolean {
  if (about.length === 0) return notice.urgency === 'notice';
  const signs = signsNamedBy(notice.rule);
  return about.some(
    (one) =>
      signs.has(one) ||
      one === notice.lesion ||
      notice.feet.some((foot) => foot === one) ||
      (one === 'lame' && ofWalk.has(notice.rule)),
  );
}

const ofWalk: ReadonlySet<string> = new Set([
  'severest-score',
  'worse-after-work',
  'lame-nothing-found',
  'lame-off-block',
]);

/** The foot it is of; of a walk the feet that are sore or have a sign. */
function feetOf(
  animal: Animal,
  { rule, foot }: Pick<Notice, 'rule' | 'foot'>,
  { visit, signs }: VisitLook,
): Notice['feet'] {
  if (foot) return [foot];
  if (!ofWalk.has(rule)) return [];
  return [...soreFeet(animal, visit.date), ...signs.flatMap((sign) => sign.foot ?? [])];
}

function noticeFrom(
  { rule, foot, lesion, variant, values }: JudgedCase,
  raised: CalendarDay,
  seen: CalendarDay,
): Notice {
  const key = `notice.evidence.${rule}${variant ? `.${variant}` : ''}`;
  return {
    rule,
    urgency: urgencyOf(rule),
    raised,
    seen,
    feet: foot ? [foot] : [],
    ...given({ foot, lesion }),
    evidence: { key, values: { raised, ...values } },
    standing: true,
  };
}

/** Stands while a block is on that foot, or until she has been scored not lame off it. */
function raisedByBlocks(context: NoticeContext): Notice[] {
  return longOnBlocks(context).map(({ foot, raised, days, stillOn }) => ({
    ...noticeFrom({ rule: 'long-on-blocks', holds: true, foot, values: { foot, days } }, raised, raised),
    standing: stillOn || context.standing.gait.standing !== 'sound',
  }));
}

/**
 * The question to the vet that is about a notice, and its answer.
 *
 * A same-day notice counts as asked only by a question that names it, its lesion or its foot; one about nothing named is
 * about what can wait. Where the sign was seen again after the last answer, that day is reported too: it is to be asked again.
 */
function vetOf(
  animal: Animal,
  notice: Notice,
  today: CalendarDay,
): Pick<Notice, 'asked' | 'answered' | 'seenAgain'> {
  const asks = animal.visits.flatMap(({ vet: ask }) => {
    if (!ask || ask.asked > today || ask.asked < notice.raised) return [];
    const answered = animal.visits.find(
      ({ date, 'vet-answer': answer }) => answer?.to === ask.asked && date <= today,
    );
    const answer = answered?.['vet-answer'];
    if (!isNamed(notice, [...(ask.about ?? []), ...(answer?.about ?? [])])) return [];
    const isStale = answered !== undefined && notice.standing && answered.date < notice.seen;
    return [{ ask, on: answered?.date, answer, isStale }];
  });
  const fresh = asks.filter(({ isStale }) => !isStale);
  const one = fresh.find(({ answer }) => answer) ?? fresh[0] ?? asks.at(-1);
  if (!one) return {};
  const { ask, on, answer } = one;
  return {
    asked: { on: ask.asked, why: ask.why },
    ...(one.isStale ? { seenAgain: notice.seen } : {}),
    ...(answer && on ? { answered: { on, by: answer.by, reply: answer.reply } } : {}),
  };
}
