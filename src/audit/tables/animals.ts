import type { CaseRecord } from '../../record/practice.js';
import {
  beneath,
  blank,
  columnsOf,
  sealed,
  type SealedTable,
  whole,
  type AuditColumn,
} from '../table/column.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { GaitScale } from '../../record/words.js';
import { dayInWords } from '../../words/day-and-place.js';
import { type Words, told } from '../../reference/words.js';
import { codeOn } from '../../record/code-of-lesion.js';
import type { Animal } from '../../record/animal.js';
import { nameOf } from '../../words/compose-standing.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import { waitingOf, type RunInPeriod, liftsAFoot, type LoggedVisit } from '../facts/run-in-period.js';
import { fellDue } from '../facts/recheck.js';
import { someOf } from './summary.js';
import type { Visit, Found } from '../../record/visit.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';
import { visitFacts } from '../../book/visit-log.js';
import { daysToSeal, firstSealed, type RecordSeal } from '../../ledger/record-seal.js';
import type { Side } from '../../schedule/withheld.js';
import { periodInWords } from '../../words/compose-withheld.js';
import type { MedicineUse } from '../facts/medicine-use.js';

const ofAnimal = columnsOf<{ readonly record: CaseRecord }>();
/** Whose row it is: her number on the farm, and her official tag where it is written. */
export const animalColumns = [
  ofAnimal.text('animal', ({ record }) => record.animal.animal),
  ofAnimal.text('tag', ({ record }) => record.animal.tag, { ...beneath, ...whole, unlabelled: true }),
];

/** A gait score with its scale in short, never without; with its day where one is given. The scale's full name and lame mark are given once above the table. */
function scoreInWords(words: Words, score: number, scale: GaitScale | undefined, day?: CalendarDay): string {
  const named = words.say('book.log.on-scale', {
    value: score,
    scale: scale ? words.say(`audit.scale.${scale}`) : words.say('book.log.no-scale'),
  });
  return day === undefined ? named : words.say('audit.on-day', { what: named, day: dayInWords(words, day) });
}

/**
 * A lesion by its full name and code, foot, claw and site, as it was called at a visit.
 * Such as: white line disease (WL), left hind, outer claw: white line, rear part.
 */
function lesionWithSite(words: Words, animal: Animal, name: string, at: number): string {
  const lesion = animal.lesions[name];
  if (!lesion) return name;
  const named = nameOf(words, animal, name, codeOn(name, lesion, animal.visits, at));
  return lesion.site
    ? words.say('audit.lesion-site', { lesion: named, site: words.say(`vocabulary.site.${lesion.site}`) })
    : named;
}

/** Each lameness episode of the period: seen, lifted, how long between, what was found and done, and how it ended. */
export function lameAnimalsTable(facts: AuditFacts): SealedTable {
  const { text, day, number, word, lines, share } = columnsOf<ReturnType<typeof rowOf>>();
  const rows = facts.runs.map((run) => rowOf(facts, run));
  const outcome = ({ ended, result }: RunInPeriod['episode']) =>
    ended === undefined ? 'open' : (result ?? 'not-said');
  return sealed('lame-animals', rows, [
    ...animalColumns,
    day('first_seen_lame', ({ waiting }) => waiting.seen?.day),
    text('first_seen_time', ({ waiting }) => waiting.seen?.at, beneath),
    text('first_seen_by', ({ waiting }) => told(waiting.seen?.by), beneath),
    word(
      'first_seen_from',
      'audit.seen-from',
      ({ run, waiting }) =>
        run.lame === 'not-recorded' ? 'not-lame' : (waiting.seen?.from ?? 'not-written'),
      beneath,
    ),
    day('first_scored_lame', ({ firstLame }) => firstLame?.date),
    text(
      'first_lame_score',
      ({ firstLame }, words) => firstLame && scoreInWords(words, firstLame.score, firstLame.scale),
      beneath,
    ),
    day('first_lifted', ({ waiting }) => waiting.lifted?.day),
    text('first_lifted_time', ({ waiting }) => waiting.lifted?.at, beneath),
    text('first_lifted_by', ({ waiting }) => told(waiting.lifted?.by), beneath),
    number('days_between', ({ waiting }) => waiting.days),
    number('hours_between', ({ waiting }) => waiting.hours, beneath),
    lines('lesions', ({ run }, words) => lesionsOfRun(words, run)),
    lines('done', ({ run }, words) => doneInRun(words, run), blank),
    lines('pain_relief', ({ run }, words) => painReliefOfRun(words, run), blank),
    word('outcome', 'audit.outcome', ({ run }) => outcome(run.episode)),
    day('ended', ({ run }) => run.episode.ended, beneath),
    text(
      'last_score',
      ({ run }, words) => {
        const last = run.scores.at(-1);
        return last && scoreInWords(words, last.score, last.scale, last.date);
      },
      beneath,
    ),
    share('rechecks_kept', ({ rechecks }) => rechecks, beneath),
  ]);
}

/** A run with, of its rechecks, those that fell due in the period. */
function rowOf({ rechecks }: AuditFacts, run: RunInPeriod) {
  const { record } = run.work;
  const due = rechecks.filter(
    (one) => one.record === record && run.episode.visits.includes(one.visit) && fellDue(one),
  );
  const kept = due.filter(({ standing }) => standing === 'kept').length;
  return {
    record,
    run,
    waiting: waitingOf(run),
    firstLame: run.scores.find(({ lame }) => lame),
    rechecks: due.length === 0 ? undefined : { count: kept, of: due.length, animals: 1 },
  };
}

/** Every lesion found in a run, in the order declared. */
function lesionsOfRun(words: Words, { work, visits }: RunInPeriod): string[] {
  const { animal } = work.record;
  const last = visits.at(-1)?.[0] ?? -1;
  const found = new Set(visits.flatMap(([, visit]) => Object.keys(visit.found ?? {})));
  return Object.keys(animal.lesions)
    .filter((name) => found.has(name))
    .map((name) => lesionWithSite(words, animal, name, last));
}

/** What was done in a run, each with how often: every visit is in the table of visits. */
function doneInRun(words: Words, { work, visits }: RunInPeriod): string[] {
  const { animal } = work.record;
  return someOf(words, 'audit.done', [
    ['lifted', visits.filter(([, visit]) => liftsAFoot(animal, visit)).length],
    ['trimmed', visits.filter(([, { trimmed }]) => trimmed?.length).length],
    ['cut-back', visits.filter(([, visit]) => visit['cut-back']?.length).length],
    ['block', fitted(visits, 'blocks')],
    ['wrap', fitted(visits, 'wraps')],
    ['product', visits.reduce((sum, [, { products = [] }]) => sum + products.length, 0)],
  ]);
}

function fitted(visits: RunInPeriod['visits'], of: 'blocks' | 'wraps'): number {
  return visits
    .flatMap(([, { [of]: events = [] }]): readonly { readonly event: string }[] => events)
    .filter(({ event }) => event === 'fitted' || event === 'replaced').length;
}

/** Day by day what was said of pain relief: wherever it was said, and wherever she was lifted lame and it was not. */
function painReliefOfRun(words: Words, run: RunInPeriod): string[] {
  const { animal } = run.work.record;
  const lame = new Set(run.scores.filter((score) => score.lame).map(({ visit }) => visit));
  const said = (at: number, visit: Visit): string | undefined => {
    const word = visit['pain-relief'];
    if (word === undefined)
      return lame.has(at) && liftsAFoot(animal, visit) ? words.say('audit.relief-not-said') : undefined;
    return word === 'not lame' && !lame.has(at) ? undefined : words.say(`vocabulary.pain-relief.${word}`);
  };
  return run.visits.flatMap(([at, visit]) => {
    const what = said(at, visit);
    return what === undefined
      ? []
      : words.say('audit.day-what', { day: dayInWords(words, visit.date), what });
  });
}

/** The scales the pack's scores are of, each with its lame and severe mark; undefined where nothing was scored. */
export function scalesInWords(words: Words, { farm, runs, rounds, visits }: AuditFacts): string | undefined {
  const used = new Set([
    ...runs.flatMap(({ scores }) => scores.map(({ scale }) => scale)),
    ...rounds.flatMap(({ scored }) => scored?.scale ?? []),
    ...visits.flatMap(({ visit }) =>
      visit.gait === undefined ? [] : (gaitScaleOn(farm.farm, visit.date) ?? []),
    ),
  ]);
  if (used.size === 0) return undefined;
  const scales = words.semicolons(
    [...used].sort().map((scale) =>
      words.say('audit.scale-used', {
        scale: words.say(`vocabulary.gait-scale.${scale}`),
        lame: gaitScale[scale].lameFrom,
        severe: gaitScale[scale].severeFrom,
      }),
    ),
  );
  return words.say('audit.scales-used', { scales });
}

/** Every visit of the period: when, by whom, how she walked, what was found and done, pain relief, tools. Lengths are in the case book. */
export function visitsTable({ visits, seals }: Pick<AuditFacts, 'visits' | 'seals'>): SealedTable {
  const { text, day, number, word, lines } = columnsOf<LoggedVisit>();
  const ofSeal =
    <T>(of: (seal: RecordSeal) => T) =>
    ({ record, at }: LoggedVisit): T | undefined => {
      const seal = seals.animals.get(record.slug)?.visits[at];
      return seal && of(seal);
    };
  const tools = ({ visit: { 'tools-disinfected': said }, lifted }: LoggedVisit) =>
    said === undefined ? (lifted ? 'not-said' : undefined) : yesNo(said);
  return sealed('visits', visits, [
    ...animalColumns,
    day('date', ({ visit }) => visit.date),
    text('time', ({ visit }) => visit.at, beneath),
    text('by', ({ visit }) => told(visit.by), whole),
    word('kind', 'vocabulary.visit-kind', ({ visit }) => visit.kind, beneath),
    word('foot_lifted', 'audit.yes-no', ({ lifted }) => yesNo(lifted), beneath),
    text('why_missed', ({ visit }) => told(visit.why), beneath),
    text(
      'gait_score',
      ({ visit: { gait }, scale }, words) =>
        gait === undefined ? undefined : scoreInWords(words, gait, scale),
      whole,
    ),
    word(
      'lame',
      'audit.yes-no',
      ({ visit: { gait }, lame, scale }) =>
        gait === undefined || scale === undefined ? undefined : yesNo(lame),
      beneath,
    ),
    lines('found', (row, words) => foundLines(words, row), blank),
    lines('done', (row, words) => doneLines(words, row), blank),
    word('pain_relief', 'vocabulary.pain-relief', ({ visit }) => visit['pain-relief'], blank),
    day('recheck_set', ({ visit }) => visit.recheck, blank),
    word('tools_disinfected', 'audit.yes-no', tools, blank),
    day('first_sealed', ofSeal(firstSealed), beneath),
    number('days_to_seal', ofSeal(daysToSeal), beneath),
  ]);
}

function yesNo(is: boolean): string {
  return is ? 'yes' : 'no';
}

function foundLines(words: Words, { record: { animal }, at, visit }: LoggedVisit): string[] {
  return Object.entries(visit.found ?? {})
    .filter(([name]) => animal.lesions[name])
    .map(([name, found]) => {
      const lesion = lesionWithSite(words, animal, name, at);
      const state = stateOf(words, found);
      return state === undefined ? lesion : words.say('audit.found', { lesion, state });
    });
}

function stateOf(words: Words, { lifted, state, stage }: Found): string | undefined {
  if (lifted === false) return words.say('key.found.lifted.log.false');
  if (stage !== undefined) return words.say(`vocabulary.stage.${stage}`);
  return state && words.say(`vocabulary.state.${state}`);
}

/** Pain relief has a column of its own, products a table of their own. */
function doneLines(words: Words, { record: { animal }, at, visit }: LoggedVisit): string[] {
  const telling = {
    words,
    animal,
    visit,
    at,
    setting: { gaitScaleOn: () => undefined, conditionScale: undefined, currency: undefined },
  };
  return visitFacts(telling, ['trimmed', 'cut-back', 'blocks', 'wraps']).map(({ label, value }) =>
    words.say('audit.label-value', { label, value }),
  );
}

/** Every product used in the period, with what a medicine's record must hold and what is missing of it. */
export function medicinesTable(uses: readonly MedicineUse[]): SealedTable {
  const { text, day, word, lines } = columnsOf<MedicineUse>();
  return sealed('medicines', uses, [
    ...animalColumns,
    day('first_day', ({ first }) => first),
    day('last_day', ({ last }) => last),
    text('product', ({ use }) => told(use.product)),
    text('active', ({ use }) => told(use.active), beneath),
    word('class', 'vocabulary.product-class', ({ use }) => use.class, beneath),
    text('batch', ({ use }) => told(use.batch), beneath),
    text(
      'used_for',
      ({ use, record, visit }, words) =>
        use.lesion && lesionWithSite(words, record.animal, use.lesion, visit),
      blank,
    ),
    text('amount', ({ use }) => told(use.amount)),
    text('route', ({ use }) => told(use.route), beneath),
    text('given_by', ({ use }) => told(use['given-by']), whole),
    text('prescribed_by', ({ use }) => told(use['prescribed-by']), beneath),
    ...withdrawalColumns('milk'),
    ...withdrawalColumns('meat'),
    lines('missing', ({ missing }, words) => missing.map((part) => words.say(`audit.part.${part}`)), blank),
  ]);
}

/** The period as written of the product; the days of all she was given, or that they are not known. */
function withdrawalColumns(side: Side): AuditColumn<MedicineUse>[] {
  const { text, day } = columnsOf<MedicineUse>();
  const heldOf = ({ periods, withheld }: MedicineUse) => {
    const held = withheld[side];
    return periods[side].outcome === 'days' && held.outcome === 'withheld' ? held : undefined;
  };
  return [
    text(`${side}_withdrawal`, ({ periods, withheld }, words) => {
      const isUnknown = periods[side].outcome === 'days' && withheld[side].outcome === 'not-known';
      return words.semicolons([
        periodInWords(words, periods[side]),
        isUnknown && words.say('jobs.withheld.not-known'),
      ]);
    }),
    day(`${side}_withheld_through`, (row) => heldOf(row)?.lastWithheld, beneath),
    day(`${side}_clear_from`, (row) => heldOf(row)?.firstClear, beneath),
  ];
}
