import { blockTimeline } from '../../healing/block-timeline.js';
import { soreFeet } from '../../healing/foot-seen.js';
import { looksAt, type Look, cannotCarryOn } from '../../healing/looks-at-lesion.js';
import { daysBetween, addDays, type CalendarDay, latestDay } from '../../record/calendar-day.js';
import { codeOn } from '../../record/code-of-lesion.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { isHealed, type Visit } from '../../record/visit.js';
import { claws, feet, type AnimalSign, type Foot, type Sign } from '../../record/words.js';
import { familyOf, hasTrait } from '../../reference/lesions.js';
import { noticeLimit, type NoticeRuleId } from '../../reference/notices.js';
import type { JudgedCase, NoticeCheck, NoticeContext, VisitLook } from './notice-rule.js';
import { stopSigns, type StandingSign } from './standing-signs.js';

type AnySign = Sign | AnimalSign;

const swellings: readonly AnySign[] = ['swollen coronet', 'swollen heel', 'swollen above foot'];
const raw: readonly AnySign[] = ['proud flesh', 'exposed corium'];

/** The signs a rule is about: what a question to the vet may name it by. */
const named: Partial<Record<NoticeRuleId, readonly AnySign[]>> = {
  blisters: [...stopSigns],
  'several-animals-ill': ['slobbering', 'feverish'],
  'swollen-above-foot': ['swollen above foot'],
  'swollen-above-wrap': ['swollen above foot'],
  'swollen-and-hot': ['heat', 'swollen coronet', 'swollen heel'],
  'pus-with-swelling': ['pus', ...swellings],
  'pus-near-coronet': ['pus'],
  'pus-top-not-reached': ['pus'],
  'pus-after-opening': ['pus'],
  'coronet-hot-or-lame': ['heat'],
  bone: ['bone'],
  'tendon-or-joint': ['joint or tendon'],
  'toe-turned-up': ['toe turned up'],
  'not-bearing': ['not bearing'],
  'bleeding-not-stopping': ['bleeding not stopped'],
  // A cow that is down comes before one that is off her feed.
  'off-feed-hot-or-down': ['down', 'off feed', 'feverish', 'slobbering'],
  maggots: ['maggots'],
  necrosis: ['necrosis'],
  'raw-two-visits': raw,
};

export function signsNamedBy(rule: NoticeRuleId): ReadonlySet<string> {
  return new Set<string>(named[rule]);
}

/** Whether one of these is in force. */
type Has = (...signs: readonly AnySign[]) => boolean;

function hasOf(standing: readonly StandingSign[]): Has {
  return (...signs) => standing.some(({ sign }) => signs.includes(sign));
}

function onFoot({ signs }: VisitLook, foot: Foot): readonly StandingSign[] {
  return signs.filter((one) => one.foot === foot);
}

/** The last day any of the signs of a rule was seen. */
function lastSeen(rule: NoticeRuleId, standing: readonly StandingSign[]): CalendarDay {
  const signs = signsNamedBy(rule);
  return latestDay(standing.flatMap(({ sign, seen }) => (signs.has(sign) ? seen : [])))!;
}

/** What the signs that are on a foot ask for; `isWrapped`: a wrap was on it that day. */
const ofOneFoot: readonly (readonly [NoticeRuleId, (has: Has, isWrapped: boolean) => boolean])[] = [
  ['bone', (has) => has('bone')],
  ['toe-turned-up', (has) => has('toe turned up')],
  ['not-bearing', (has) => has('not bearing')],
  ['swollen-and-hot', (has) => has('heat') && has('swollen coronet', 'swollen heel')],
  ['pus-with-swelling', (has) => has('pus') && has(...swellings)],
  ['swollen-above-wrap', (has, isWrapped) => isWrapped && has('swollen above foot')],
  ['swollen-above-foot', (has, isWrapped) => !isWrapped && has('swollen above foot')],
];

const footSigns: NoticeCheck = ({ wraps }, look) =>
  feet.flatMap((foot) => {
    const here = onFoot(look, foot);
    const { date } = look.visit;
    const isWrapped = wraps.some(
      (wrap) => wrap.foot === foot && wrap.from <= date && (!wrap.end || wrap.end.by >= date),
    );
    return ofOneFoot
      .filter(([, asks]) => asks(hasOf(here), isWrapped))
      .map(([rule]) => ({ rule, holds: true, foot, values: { foot }, seen: lastSeen(rule, here) }));
  });

const ofAnimal = [
  'tendon-or-joint',
  'bleeding-not-stopping',
  'off-feed-hot-or-down',
  'maggots',
  'blisters',
] as const satisfies readonly NoticeRuleId[];

/** What is seen of the animal, and blisters on any foot. */
const animalSigns: NoticeCheck = (_, { signs }) =>
  ofAnimal.flatMap((rule): JudgedCase[] => {
    const here = signs.filter((one) => !one.foot || rule === 'blisters');
    const worst = named[rule]!.find((sign) => hasOf(here)(sign));
    if (worst === undefined) return [];
    const variant = rule === 'off-feed-hot-or-down' ? { variant: worst.replace(' ', '-') } : {};
    return [{ rule, holds: true, seen: lastSeen(rule, here), ...variant }];
  });

/** What a lesion's own signs and findings ask for. */
const lesionChecks: NoticeCheck = ({ animal, today }, { at, visit, signs }) =>
  Object.entries(animal.lesions).flatMap(([name, lesion]): JudgedCase[] => {
    const looks = looksAt(animal, name, today).filter((look) => look.visit <= at);
    const now = looks.at(-1);
    if (!now) return [];
    const { found } = now;
    const own = signs.filter((one) => one.lesion === name);
    const code = codeOn(name, lesion, animal.visits, at);
    const judged: JudgedCase[] = [];
    const judge = (rule: NoticeRuleId, seen: CalendarDay, more: Partial<JudgedCase> = {}) =>
      judged.push({
        rule,
        holds: true,
        lesion: name,
        foot: lesion.foot,
        seen,
        values: { lesion: name },
        ...more,
      });
    const pus = own.find(({ sign }) => sign === 'pus');
    if (pus) {
      const read = looks.findLast(
        (one) => one.found.top !== undefined || one.found['top-found'] !== undefined,
      );
      const topMm = looks.findLast((one) => one.found.top !== undefined)?.found.top;
      const near = topMm !== undefined && topMm <= noticeLimit('pus-near-coronet', 'top');
      if (near || lesion.site === 'coronet')
        judge('pus-near-coronet', pus.seen, {
          values: { lesion: name, top: topMm ?? '' },
          variant: near ? 'tract' : 'coronet',
        });
      if (read?.found['top-found'] === 'higher') judge('pus-top-not-reached', pus.seen);
      const since = openedOn(animal, name, looks);
      const days = since ? daysBetween(since, pus.seen) : 0;
      if (since && days >= noticeLimit('pus-after-opening', 'after'))
        judge('pus-after-opening', pus.seen, { values: { lesion: name, since, days } });
    }
    if (hasOf(own)('necrosis')) judge('necrosis', lastSeen('necrosis', own));
    const isRaw = (look: Look) => look.found.signs?.some((sign) => raw.includes(sign)) === true;
    const [before, last] = looks.filter(isRaw).slice(-2);
    if (hasOf(own)(...raw) && before && last && looks[looks.indexOf(last) - 1] === before)
      judge('raw-two-visits', lastSeen('raw-two-visits', own), {
        values: { lesion: name, since: before.date, day: last.date },
      });
    // A dead toe is what its code says, until it is found healed: a visit that did not look at it ends nothing.
    if (familyOf(code) === 'toe necrosis' && !found.signs?.includes('necrosis'))
      judge('necrosis', now.date, { holds: found.state !== 'healed' });
    if (now.visit === at) {
      const infected = looks.findLast((one) => one.found.infected !== undefined)?.found.infected === true;
      judge('new-foul', visit.date, { holds: hasTrait(code, 'foul') && found.state === 'present' });
      judge('infected', visit.date, { holds: infected && !isHealed(found) });
    }
    return judged;
  });

/** The day it was opened: its loose horn first cut back, or else first found open. */
function openedOn({ visits }: NoticeContext['animal'], name: string, looks: readonly Look[]) {
  const cut = looks.find(({ visit }) => visits[visit]?.['cut-back']?.includes(name));
  return (cut ?? looks.find(({ found }) => found.state === 'open'))?.date;
}

/** Both claws of a foot open, thin or bruised: nothing to carry a block. Several feet sore at once. */
const clawChecks: NoticeCheck = ({ animal }, { visit, score }) => {
  if (!isLiftingVisit(visit)) return [];
  const open = cannotCarryOn(animal, visit.date, score?.lame);
  const both = (foot: Foot) =>
    claws.every((claw) => open.some((lesion) => lesion.foot === foot && lesion.claw === claw));
  const sore = soreFeet(animal, visit.date).length;
  return [
    ...feet.map((foot): JudgedCase => ({ rule: 'no-sound-claw', foot, holds: both(foot), values: { foot } })),
    { rule: 'several-feet', holds: sore >= noticeLimit('several-feet', 'feet'), values: { feet: sore } },
  ];
};

/** What the readings of a wall gap ask for: at the coronet, run up (once with pus or swelling, or twice running without), held. */
const growthChecks: NoticeCheck = ({ animal, growth, standing }, look) =>
  growth.lesions.flatMap(({ lesion, foot, readings, heldNow }): JudgedCase[] => {
    const { at, visit, score } = look;
    const judge = (rule: NoticeRuleId, holds: boolean, more: Partial<JudgedCase> = {}): JudgedCase => ({
      rule,
      holds,
      lesion,
      foot,
      values: { lesion },
      ...more,
    });
    const found = visit.found?.[lesion];
    // A lasting fault forms anew from the coronet by its nature; neither it nor a closed gap is followed by these.
    if (found?.state === 'healed' || found?.state === 'lasting' || found?.joined)
      return (['at-coronet', 'coronet-hot-or-lame', 'ran-up', 'held'] as const).map((rule) =>
        judge(rule, false),
      );
    const has = hasOf(onFoot(look, foot));
    const withSigns = has('pus', ...swellings);
    const ranUp = (twice: boolean) =>
      judge('ran-up', withSigns || twice, {
        variant: withSigns ? 'with-signs' : 'twice',
        values: { lesion, day: visit.date },
      });
    const index = readings.findIndex((one) => one.visit === at);
    const reading = readings[index];
    if (!reading) {
      if (found?.['ran-up'] !== true) return [];
      const before = animal.visits.slice(0, at).findLast((one) => one.found?.[lesion])?.found?.[lesion];
      const kind = readings.findLast((one) => one.visit < at)?.kind;
      return [ranUp(before?.['ran-up'] === true || kind === 'ran-up')];
    }
    const before = readings[index - 1];
    const isLast = index === readings.length - 1;
    const word = isLast ? standing.lesions.find((one) => one.lesion === lesion)?.standing : undefined;
    const still = (reading.topMm === 0 && before?.topMm === 0) || word === 'still-at-coronet';
    const atCoronet = reading.topMm === 0 || still || word === 'at-coronet';
    const held = isLast && heldNow?.sure ? heldNow : undefined;
    return [
      judge('at-coronet', atCoronet, { variant: still ? 'still' : 'once' }),
      judge('coronet-hot-or-lame', atCoronet && (has('heat') || score?.lame === true)),
      reading.kind === 'ran-up' ? ranUp(before?.kind === 'ran-up') : judge('ran-up', false),
      judge('held', reading.kind === 'held' || held !== undefined, {
        values: { lesion, since: held?.since ?? before?.date ?? reading.date },
      }),
    ];
  });

/** The severest score, with the block on or off. */
const severestScore: NoticeCheck = (_, { score }) =>
  score
    ? [{ rule: 'severest-score', holds: score.severe, values: { score: score.score }, variant: score.block }]
    : [];

/**
 * A higher score within 7 days of trimming, cutting back or putting on a block.
 *
 * Scores on and off the block are compared here and only here: a cow that walks worse in spite of a
 * block is worse, and a needless call costs less than a missed one.
 */
const worseAfterWork: NoticeCheck = ({ animal, standing }, { at, visit, score }) => {
  if (!score) return [];
  const within = noticeLimit('worse-after-work', 'within');
  const work = standing.episode.visits.findLast((other) => {
    const worked = animal.visits[other];
    return other < at && worked && didWork(worked) && daysBetween(worked.date, visit.date) <= within;
  });
  const before =
    work === undefined ? undefined : standing.gait.scores.findLast((earlier) => earlier.visit <= work);
  const holds = before !== undefined && before.scale === score.scale && score.score > before.score;
  const day = animal.visits[work ?? -1]?.date ?? '';
  return [
    { rule: 'worse-after-work', holds, values: { score: score.score, before: before?.score ?? '', day } },
  ];
};

function didWork({ trimmed = [], 'cut-back': cutBack = [], blocks = [] }: Visit): boolean {
  const isPutOn = blocks.some(({ event }) => event === 'fitted' || event === 'replaced');
  return trimmed.length > 0 || cutBack.length > 0 || isPutOn;
}

/** Lame at a lifted visit, with no lesion that is not healed and no sign on any foot. */
const lameNothingFound: NoticeCheck = ({ animal }, { visit, score, signs }) => {
  if (!score || !isLiftingVisit(visit)) return [];
  const nothing =
    soreFeet(animal, visit.date).length === 0 &&
    Object.values(visit.found ?? {}).every(
      ({ state, stage, lifted }) => lifted === false || state === 'healed' || (!state && stage === 'M0'),
    ) &&
    signs.every(({ foot }) => foot === undefined);
  return [{ rule: 'lame-nothing-found', holds: score.lame && nothing, values: { score: score.score } }];
};

/** Lame off the block at two scorings at least 14 days apart, with no better score off the block between them. */
const lameOffBlock: NoticeCheck = ({ animal, standing }, { at, score }) => {
  if (score?.block !== 'off') return [];
  const off = standing.gait.scores.filter(
    ({ visit, block, scale }) => visit <= at && block === 'off' && scale === score.scale,
  );
  const since = off[off.findLastIndex(({ lame }) => !lame) + 1]?.date;
  const apart = since ? daysBetween(since, score.date) : 0;
  const holds = score.lame && apart >= noticeLimit('lame-off-block', 'apart');
  const hadBlock = holds && blockTimeline(animal, score.date).spans.length > 0;
  const variant = hadBlock ? 'off-block' : 'no-block';
  return [{ rule: 'lame-off-block', holds, variant, values: { since: since ?? '', day: score.date } }];
};

export const checks: readonly NoticeCheck[] = [
  footSigns,
  animalSigns,
  lesionChecks,
  growthChecks,
  severestScore,
  worseAfterWork,
  lameNothingFound,
  lameOffBlock,
  clawChecks,
];

/**
 * Feet with more than 84 days on blocks in all, in the open episode, refits added up; the day the sum passed the limit, and
 * whether one is on still.
 *
 * Why this way: one foot's claws are added up, since tendons and heel strain with the foot; the fewest days that
 * can have been are counted, so that an unknown day never raises it.
 */
export function longOnBlocks({ animal, standing, today }: NoticeContext) {
  const limit = noticeLimit('long-on-blocks', 'days');
  const first = animal.visits[standing.episode.visits[0] ?? 0]?.date ?? today;
  const now = blockTimeline(animal, today);
  return feet.flatMap((foot) => {
    const sumTo = (day: CalendarDay) =>
      blockTimeline(animal, day).daysByFoot.find((sum) => sum.foot === foot)?.atLeast ?? 0;
    const before = sumTo(first);
    const days = sumTo(today) - before;
    if (days <= limit) return [];
    let early = 0;
    let late = daysBetween(first, today);
    while (early < late) {
      const middle = Math.floor((early + late) / 2);
      if (sumTo(addDays(first, middle)) - before > limit) late = middle;
      else early = middle + 1;
    }
    return [{ foot, days, raised: addDays(first, late), stillOn: now.on.some((span) => span.foot === foot) }];
  });
}
