import { blockTimeline } from '../../src/healing/block-timeline.js';
import type { Animal } from '../../src/record/animal.js';
import { addDays, daysBetween } from '../../src/record/calendar-day.js';
import type { Farm } from '../../src/record/farm.js';
import type { Visit } from '../../src/record/visit.js';
import { feet, type Foot } from '../../src/record/words.js';
import type { CaseWork } from '../../src/schedule/case-work.js';
import type { DueItem, DueWhat } from '../../src/schedule/due/due-item.js';

/**
 * What is on an animal, stated again from the rules as they are written and not as the program goes about it: the other
 * side of the laws. Which visits are of one run, her scores, the days a block was on and which jobs there are it takes
 * from the program; whether a sign is in force, what it calls for, whether work stops, and the status of each job it does not.
 */
export interface ToldSign {
  readonly sign: string;
  readonly foot?: Foot;
  readonly lesion?: string;
}

const deep = new Set(['toe turned up', 'bone', 'joint or tendon', 'swollen above foot']);
const stopping = new Set(['blisters', 'mouth sores']);

const lifts = ({ kind }: Visit) => kind !== 'report' && kind !== 'missed';

/** Hands were on that foot: it is said, it was trimmed, or a lesion on it was looked at. */
function isLifted(animal: Animal, visit: Visit, foot: Foot): boolean {
  const of = visit.feet?.[foot];
  const looked = Object.entries(visit.found ?? {}).some(
    ([name, { lifted }]) => animal.lesions[name]?.foot === foot && lifted !== false,
  );
  return lifts(visit) && of?.lifted !== false && (of?.lifted === true || visit.trimmed?.includes(foot) === true || looked); // prettier-ignore
}

function aboutOf(animal: Animal, answer: NonNullable<Visit['vet-answer']>): string[] {
  const asked = animal.visits.find(({ vet }) => vet?.asked === answer.to)?.vet?.about;
  return [...(answer.about ?? []), ...(asked ?? [])];
}

/** Scored below lame off the block, none on and no pain relief in the three days before. */
function walksWell({ record: { animal }, standing }: CaseWork, at: number): boolean {
  const score = standing.gait.scores.find(({ visit }) => visit === at);
  if (!score || score.lame || score.block !== 'off') return false;
  const before = animal.visits.slice(0, at);
  const relieved = before.some((one) => one['pain-relief'] === 'given' && daysBetween(one.date, score.date) <= 3); // prettier-ignore
  return !relieved && blockTimeline(animal, score.date).on.length === 0;
}

function written(animal: Animal, visit: Visit): ToldSign[] {
  return [
    ...(visit.signs ?? []).map((sign) => ({ sign })),
    ...feet.flatMap((foot) => (visit.feet?.[foot]?.signs ?? []).map((sign) => ({ sign, foot }))),
    ...Object.entries(visit.found ?? {}).flatMap(([lesion, found]) => {
      const foot = animal.lesions[lesion]?.foot;
      return foot && found.lifted !== false
        ? (found.signs ?? []).map((sign) => ({ sign, foot, lesion }))
        : [];
    }),
  ];
}

const keyOf = ({ sign, foot, lesion }: ToldSign) => [sign, foot, lesion].join(' ');

/** The signs in force: each from the last visit it was written at, unless something since has ended it. */
export function signsTold(work: CaseWork): ToldSign[] {
  const { animal } = work.record;
  const visits = work.standing.episode.visits.map((at) => ({ at, visit: animal.visits[at]! }));
  const last = new Map<string, { of: ToldSign; from: number }>();
  for (const [from, { visit }] of visits.entries())
    for (const of of written(animal, visit)) last.set(keyOf(of), { of, from });
  return [...last.values()]
    .filter(({ of, from }) => {
      const { sign, foot, lesion } = of;
      const isClosed = visits.some(({ visit: { 'vet-answer': answer } }, at) => {
        return at > from && answer?.closes === true && aboutOf(animal, answer).some((one) => one === sign || one === foot || one === lesion); // prettier-ignore
      });
      const overOn = visits.slice(from + 1).filter(({ at, visit }) => {
        if (!foot) return lifts(visit) && walksWell(work, at);
        if (!isLifted(animal, visit, foot)) return false;
        const gone = [
          ...(visit.feet?.[foot]?.gone ?? []),
          ...Object.entries(visit.found ?? {}).flatMap(([name, found]) =>
            (lesion ? name === lesion : animal.lesions[name]?.foot === foot) ? (found.gone ?? []) : [],
          ),
        ];
        const found = lesion ? visit.found?.[lesion] : undefined;
        const isWhole = found?.state === 'healed' || found?.stage === 'M0';
        const isCovered = found?.state === 'covered' && (sign === 'exposed corium' || sign === 'proud flesh');
        return gone.some((one) => one === sign) || isWhole || isCovered || walksWell(work, at);
      });
      if (stopping.has(sign)) return !(isClosed && overOn.length > 0);
      if (isClosed) return false;
      const [first, final] = [overOn[0], overOn.at(-1)];
      if (!deep.has(sign)) return first === undefined;
      return !first || daysBetween(first.visit.date, final!.visit.date) < 7;
    })
    .map(({ of }) => of);
}

/** The notices that signs alone raise, `RULE PLACE`; over a wrap or not is one rule here. Of a closed case only what stops work is in force. */
export function noticesTold(work: CaseWork, language?: string): string[] {
  if (work.standing.closed) return stillStopping(work, language);
  const { animal } = work.record;
  const signs = signsTold(work);
  const ofFoot = feet.flatMap((foot) => {
    const has = (...any: string[]) => signs.some((one) => one.foot === foot && any.includes(one.sign));
    return [
      has('bone') && `bone ${foot}`,
      has('toe turned up') && `toe-turned-up ${foot}`,
      has('not bearing') && `not-bearing ${foot}`,
      has('swollen above foot') && `swollen-above-foot ${foot}`,
      has('heat') && has('swollen coronet', 'swollen heel') && `swollen-and-hot ${foot}`,
      has('pus') && has('swollen coronet', 'swollen heel', 'swollen above foot') && `pus-with-swelling ${foot}`, // prettier-ignore
    ];
  });
  const seen = (...any: string[]) => signs.some(({ sign, foot }) => !foot && any.includes(sign));
  const ofAnimal = [
    seen('joint or tendon') && 'tendon-or-joint ',
    seen('bleeding not stopped') && 'bleeding-not-stopping ',
    seen('down', 'off feed', 'feverish', 'slobbering') && 'off-feed-hot-or-down ',
    seen('maggots') && 'maggots ',
    signs.some(({ sign }) => stopping.has(sign)) && 'blisters ',
  ];
  const ofLesion = signs.flatMap(({ sign, lesion }) => {
    const measured = animal.visits.flatMap((visit) => {
      const found = lesion && lifts(visit) ? visit.found?.[lesion] : undefined;
      return found && found.lifted !== false && visit.feet?.[animal.lesions[lesion!]!.foot]?.lifted !== false
        ? [found]
        : [];
    });
    if (sign !== 'pus' || !lesion) return [];
    const top = measured.findLast((found) => found.top !== undefined)?.top;
    const tried = measured.findLast((found) => found.top !== undefined || found['top-found'] !== undefined);
    return [
      top !== undefined && top <= 10 && `pus-near-coronet ${lesion}`,
      tried?.['top-found'] === 'higher' && `pus-top-not-reached ${lesion}`,
    ];
  });
  return [...ofFoot, ...ofAnimal, ...ofLesion].filter((one) => one !== false);
}

/** What stops work and no answer has closed since it was last seen: the end of a case closes nothing. */
function stillStopping(work: CaseWork, language: string | undefined): string[] {
  const { animal } = work.record;
  const rules = { blisters: [...stopping], ...(language === 'en-US' ? { maggots: ['maggots'] } : {}) };
  return Object.entries(rules).flatMap(([rule, names]) => {
    const of = (visit: Animal['visits'][number]) =>
      written(animal, visit).filter(({ sign }) => names.includes(sign));
    if (!signsTold(work).some(({ sign }) => names.includes(sign))) return [];
    const places = animal.visits.flatMap(of).flatMap(({ foot, lesion }) => lesion ?? foot ?? []);
    const since = work.standing.episode.visits.map((at) => animal.visits[at]!).findLast((visit) => of(visit).length > 0); // prettier-ignore
    const isClosed = animal.visits.some(
      ({ date, 'vet-answer': answer }) =>
      answer?.closes === true && date >= since!.date && aboutOf(animal, answer).some((one) => names.includes(one) || places.some((place) => place === one)), // prettier-ignore
    );
    return isClosed ? [] : [`${rule} `];
  });
}

/** Nothing that calls for the vet was seen since a case was closed: else another lameness episode has begun. */
export function isQuietSince(animal: Animal, ended: string): boolean {
  const grave = ['bone', 'toe turned up', 'not bearing', 'swollen above foot', 'heat', 'pus', ...stopping];
  return animal.visits.every(
    (visit) =>
      visit.date <= ended ||
      written(animal, visit).every(({ sign, foot }) => foot !== undefined && !grave.includes(sign)),
  );
}

/** The rules that `noticesTold` covers. */
export const rulesTold: ReadonlySet<string> = new Set([
  'bone', 'toe-turned-up', 'not-bearing', 'swollen-above-foot', 'swollen-and-hot', 'pus-with-swelling', 'tendon-or-joint',
  'bleeding-not-stopping', 'off-feed-hot-or-down', 'maggots', 'blisters', 'pus-near-coronet', 'pus-top-not-reached',
]); // prettier-ignore

/** Lesions of which no date may be reported: all these rules are of the same day, or stop work. */
export function noDateTold(work: CaseWork, language?: string): string[] {
  const { lesions } = work.record.animal;
  const places = noticesTold(work, language).map((one) => one.slice(one.indexOf(' ') + 1));
  return Object.entries(lesions)
    .filter(([name, { foot }]) => places.some((place) => place === '' || place === foot || place === name))
    .map(([name]) => name);
}

/** Whether work stops on a farm by one animal's signs; of several ill, whether it must. */
export function stopTold(cases: readonly CaseWork[], farm: Farm): 'one' | 'several' | 'no' {
  const rules = cases.flatMap((work) => noticesTold(work, farm.language));
  if (rules.includes('blisters ') || (farm.language === 'en-US' && rules.includes('maggots '))) return 'one';
  const days = cases.flatMap((work) =>
    work.standing.episode.visits
      .map((at) => work.record.animal.visits[at]!)
      .filter(({ signs }) => signs?.some((sign) => sign === 'slobbering' || sign === 'feverish'))
      .map(({ date }) => ({ work, date })),
  );
  const isClosedOn = ({ record: { animal } }: CaseWork, since: string) =>
    animal.visits.some(
      ({ date, 'vet-answer': answer }) =>
      date >= since && answer?.closes && aboutOf(animal, answer).some((one) => ['slobbering', 'feverish', 'lame'].includes(one)), // prettier-ignore
    );
  return days.some(({ work, date }) => {
    const before = days.filter((other) => other.work !== work && other.date <= date && daysBetween(other.date, date) <= 14); // prettier-ignore
    return (
      before.length > 0 && ![work, ...before.map((other) => other.work)].some((one) => isClosedOn(one, date))
    );
  })
    ? 'several'
    : 'no';
}

/** Days after its own day from which a job is late, by what it is; none where nobody can be late with it. */
function graceOf({ what, why: { key }, basis, task }: DueItem): number | undefined {
  if (key.includes('-at-once-')) return 1;
  const byReason: Record<string, number> = {
    'due.why.recheck-wall-second': 15, 'due.why.recheck-wall-third': 15, 'due.why.recheck-wall-later': 15,
    'due.why.recheck-ulcer': 15, 'due.why.recheck-ulcer-raw': 15, 'due.why.recheck-dermatitis-second': 8,
    'due.why.recheck-dermatitis-later': 8, 'due.why.recheck-foul': 8, 'due.why.recheck-other': 29,
    'due.why.severe-rescore': 5,
  }; // prettier-ignore
  if (what === 'recheck') return basis === 'written' ? 1 : byReason[key];
  if (what === 'farm-task') return ['wrap off', 'score her walk'].includes(task!) ? 1 : undefined;
  const grace: Partial<Record<DueWhat, number>> = {
    'block-look': 5, 'block-off': 15, 'wrap-off': 5, 'gait-rescore': byReason[key] ?? 15, 'severe-look': 1, 'foul-look': 1,
    'measure-again': 1, 'vet-ask': 1, 'vet-ring-again': 1, 'pain-relief-ask': 1, 'footbath-ask-vet': 1, 'vet-work': 1,
  }; // prettier-ignore
  return grace[what];
}

/** The status of a job: what the trimmer should do is suspended while work has stopped. */
export function standingTold(item: DueItem, isStopped: boolean, today: string): DueItem['standing'] {
  if (item.doneOn !== undefined) return 'done';
  if (isStopped && item.who === 'trimmer') return 'suspended';
  const grace = graceOf(item);
  return grace !== undefined && addDays(item.by, grace) <= today ? 'overdue' : 'open';
}

const needsLift: ReadonlySet<DueWhat> = new Set(['recheck', 'measure-again', 'block-look', 'block-off', 'look-other-foot']); // prettier-ignore

/** The farm's planned visit, if its day has not passed. */
export function visitTold({ 'next-visit': next }: Farm, today: string): string | undefined {
  return next !== undefined && next >= today ? next : undefined;
}

export function isBeforeVisit({ what, by, doneOn }: DueItem, visit: string | undefined): boolean {
  return doneOn === undefined && needsLift.has(what) && visit !== undefined && by < visit;
}

/** The first day on which a foot of hers is due to the trimmer; what is late waits for the visit. */
export function nextLiftTold(
  work: CaseWork,
  { farm, isStopped, today }: { farm: Farm; isStopped: boolean; today: string },
): string | undefined {
  if (isStopped) return undefined;
  return work.due
    .filter((item) => item.who === 'trimmer' && needsLift.has(item.what) && item.doneOn === undefined)
    .flatMap(({ by }) => (by >= today ? [by] : (visitTold(farm, today) ?? [])))
    .toSorted()[0];
}
