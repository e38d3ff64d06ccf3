import { isHealed } from '../../record/visit.js';
import { looksAt, type Look, cannotCarryOn } from '../../healing/looks-at-lesion.js';
import { soreFeet } from '../../healing/foot-seen.js';
import { codeOn } from '../../record/code-of-lesion.js';
import { daysBetween, type CalendarDay } from '../../record/calendar-day.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { feet, type AnimalSign, type Foot, type LesionCode, type Sign } from '../../record/words.js';
import { familyOf, hasTrait } from '../../reference/lesions.js';
import { noticeLimit, type NoticeRuleId } from '../../reference/notices.js';
import type { JudgedCase, NoticeCheck, NoticeContext, VisitLook } from './notice-rule.js';
import { stopSigns, type StandingSign } from './standing-signs.js';

type AnySign = Sign | AnimalSign;

export const swellings: readonly Sign[] = ['swollen coronet', 'swollen heel', 'swollen above foot'];

/** The signs that stand on a foot, its own and its lesions'. */
export function signsOf(look: VisitLook, foot: Foot): ReadonlySet<AnySign> {
  return new Set(look.signs.filter((one) => one.foot === foot).map(({ sign }) => sign));
}

/** The last day any of these was seen. */
function lastSeen(signs: readonly StandingSign[]): CalendarDay {
  return signs
    .map(({ seen }) => seen)
    .toSorted()
    .at(-1)!;
}

const ofOneFoot: readonly (readonly [NoticeRuleId, (signs: ReadonlySet<AnySign>) => boolean])[] = [
  ['bone', (signs) => signs.has('bone')],
  ['toe-turned-up', (signs) => signs.has('toe turned up')],
  ['not-bearing', (signs) => signs.has('not bearing')],
  [
    'swollen-and-hot',
    (signs) => signs.has('heat') && (signs.has('swollen coronet') || signs.has('swollen heel')),
  ],
  ['pus-with-swelling', (signs) => signs.has('pus') && swellings.some((sign) => signs.has(sign))],
];

/** What the signs that stand on a foot ask for. */
export const footSigns: NoticeCheck = (context, look) =>
  feet.flatMap((foot): JudgedCase[] => {
    const here = look.signs.filter((one) => one.foot === foot);
    if (here.length === 0) return [];
    const signs = signsOf(look, foot);
    const wrapped = context.wraps.some(
      (wrap) =>
        wrap.foot === foot && wrap.from <= look.visit.date && (!wrap.end || wrap.end.by >= look.visit.date),
    );
    const above = here.filter(({ sign }) => sign === 'swollen above foot');
    return [
      ...ofOneFoot
        .filter(([, asks]) => asks(signs))
        .map(([rule]) => ({ rule, holds: true, foot, values: { foot }, seen: seenOf(rule, here) })),
      ...(above.length > 0
        ? [
            {
              rule: wrapped ? ('swollen-above-wrap' as const) : ('swollen-above-foot' as const),
              holds: true,
              foot,
              values: { foot },
              seen: lastSeen(above),
            },
          ]
        : []),
    ];
  });

function seenOf(rule: NoticeRuleId, here: readonly StandingSign[]): CalendarDay {
  const named = signsNamedBy(rule);
  return lastSeen(here.filter(({ sign }) => named.has(sign)));
}

/** The signs a rule is about: what a question to the vet may name it by. */
export function signsNamedBy(rule: NoticeRuleId): ReadonlySet<string> {
  return new Set<string>(named[rule] ?? []);
}

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
  'off-feed-hot-or-down': ['down', 'off feed', 'feverish', 'slobbering'],
  maggots: ['maggots'],
  necrosis: ['necrosis'],
  'raw-two-visits': ['proud flesh', 'exposed corium'],
};

const ofAnimal = [
  'tendon-or-joint',
  'bleeding-not-stopping',
  'off-feed-hot-or-down',
  'maggots',
] as const satisfies readonly NoticeRuleId[];

/** What is seen of the animal, and blisters on any foot. */
export const animalSignNotices: NoticeCheck = (_, { signs }) =>
  [...ofAnimal, 'blisters' as const].flatMap((rule): JudgedCase[] => {
    const here = signs.filter(
      (one) => signsNamedBy(rule).has(one.sign) && (!one.foot || rule === 'blisters'),
    );
    const [first] = here;
    if (!first) return [];
    const variant = rule === 'off-feed-hot-or-down' ? { variant: worst(here).replace(' ', '-') } : {};
    return [{ rule, holds: true, seen: lastSeen(here), ...variant }];
  });

/** A cow that is down comes before one that is off her feed. */
function worst(signs: readonly StandingSign[]): string {
  return named['off-feed-hot-or-down']!.find((sign) => signs.some((one) => one.sign === sign))!;
}

/** What a lesion's own signs and findings ask for. */
export const lesionChecks: NoticeCheck = (context, look) =>
  Object.keys(context.animal.lesions).flatMap((name): JudgedCase[] => {
    const looks = looksAt(context.animal, name, context.today).filter(({ visit }) => visit <= look.at);
    const now = looks.at(-1);
    if (!now) return [];
    return [
      ...bySigns(context, look, name, looks),
      ...deadToe(context, look, name, looks),
      ...(now.visit === look.at ? byState(context, look, name, looks) : []),
    ];
  });

function bySigns(
  context: NoticeContext,
  { signs }: VisitLook,
  name: string,
  looks: readonly Look[],
): JudgedCase[] {
  const lesion = context.animal.lesions[name]!;
  const own = signs.filter((one) => one.lesion === name);
  const about = { holds: true, lesion: name, foot: lesion.foot };
  const pus = own.find(({ sign }) => sign === 'pus');
  const necrosis = own.find(({ sign }) => sign === 'necrosis');
  const raw = own.filter(({ sign }) => sign === 'proud flesh' || sign === 'exposed corium');
  const judged: JudgedCase[] = [];
  if (pus) {
    const last = looks.findLast(({ found }) => found.top !== undefined || found['top-found'] !== undefined);
    const topMm = looks.findLast(({ found }) => found.top !== undefined)?.found.top;
    const near = topMm !== undefined && topMm <= noticeLimit('pus-near-coronet', 'top');
    const opened = openedOn(context, name, looks);
    const days = opened ? daysBetween(opened, pus.seen) : 0;
    if (near || lesion.site === 'coronet')
      judged.push({
        ...about,
        rule: 'pus-near-coronet',
        seen: pus.seen,
        values: { lesion: name, top: topMm ?? '' },
        variant: near ? 'tract' : 'coronet',
      });
    if (last?.found['top-found'] === 'higher')
      judged.push({ ...about, rule: 'pus-top-not-reached', seen: pus.seen, values: { lesion: name } });
    if (opened && days >= noticeLimit('pus-after-opening', 'after'))
      judged.push({
        ...about,
        rule: 'pus-after-opening',
        seen: pus.seen,
        values: { lesion: name, since: opened, days },
      });
  }
  if (necrosis) judged.push({ ...about, rule: 'necrosis', seen: necrosis.seen, values: { lesion: name } });
  const [before, last] = looks.filter(isRaw).slice(-2);
  const running = last && looks[looks.indexOf(last) - 1] === before;
  if (raw.length > 0 && before && last && running)
    judged.push({
      ...about,
      rule: 'raw-two-visits',
      seen: lastSeen(raw),
      values: { lesion: name, since: before.date, day: last.date },
    });
  return judged;
}

/** A dead toe is what its code says, until it is found healed: a visit that did not look at it ends nothing. */
function deadToe(
  { animal }: NoticeContext,
  { at }: VisitLook,
  name: string,
  looks: readonly Look[],
): JudgedCase[] {
  const lesion = animal.lesions[name]!;
  const { found, date } = looks.at(-1)!;
  if (
    familyOf(codeOn(name, lesion, animal.visits, at)) !== 'toe necrosis' ||
    found.signs?.includes('necrosis')
  )
    return [];
  const holds = found.state !== 'healed';
  return [{ rule: 'necrosis', holds, lesion: name, foot: lesion.foot, values: { lesion: name }, seen: date }];
}

/** What stands by the lesion's state at its last look, said of each look. */
function byState(
  context: NoticeContext,
  look: VisitLook,
  name: string,
  looks: readonly Look[],
): JudgedCase[] {
  const lesion = context.animal.lesions[name]!;
  const code: LesionCode = codeOn(name, lesion, context.animal.visits, look.at);
  const found = looks.at(-1)!.found;
  const healed = isHealed(found);
  const infected = looks.findLast((one) => one.found.infected !== undefined)?.found.infected === true;
  const judge = (rule: NoticeRuleId, holds: boolean): JudgedCase => ({
    rule,
    holds,
    lesion: name,
    foot: lesion.foot,
    values: { lesion: name },
    seen: look.visit.date,
  });
  return [
    judge('new-foul', hasTrait(code, 'foul') && found.state === 'present'),
    judge('infected', infected && !healed),
  ];
}

function isRaw({ found: { signs = [] } }: Look): boolean {
  return signs.includes('proud flesh') || signs.includes('exposed corium');
}

/** The day it was opened: its loose horn first cut back, or else first found open. */
function openedOn(context: NoticeContext, name: string, looks: readonly Look[]): string | undefined {
  const cut = looks.find(({ visit }) => context.animal.visits[visit]?.['cut-back']?.includes(name));
  return (cut ?? looks.find(({ found }) => found.state === 'open'))?.date;
}

/** Both claws of a foot open, thin or bruised: nothing to carry a block. Several feet sore at once. */
export const clawChecks: NoticeCheck = ({ animal }, { visit, score }) => {
  if (!isLiftingVisit(visit)) return [];
  const open = cannotCarryOn(animal, visit.date, score?.lame);
  const both = (foot: Foot) =>
    ['inner', 'outer'].every((claw) => open.some((lesion) => lesion.foot === foot && lesion.claw === claw));
  const sore = soreFeet(animal, visit.date).length;
  return [
    ...feet.map((foot): JudgedCase => ({ rule: 'no-sound-claw', foot, holds: both(foot), values: { foot } })),
    { rule: 'several-feet', holds: sore >= noticeLimit('several-feet', 'feet'), values: { feet: sore } },
  ];
};
