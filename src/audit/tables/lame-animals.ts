import type { CaseRecord } from '../../record/practice.js';
import { beneath, blank, columnsOf, sealed, type SealedTable, type Share, whole } from '../table/column.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { GaitScale } from '../../record/words.js';
import { dayInWords } from '../../words/day-and-place.js';
import { type Words, told } from '../../reference/words.js';
import { codeOn } from '../../record/code-of-lesion.js';
import type { Animal } from '../../record/animal.js';
import { nameOf } from '../../words/compose-standing.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import { type Waiting, waitingOf, type RunInPeriod, liftsAFoot } from '../facts/run-in-period.js';
import { fellDue } from '../facts/recheck.js';
import type { GaitScore } from '../../healing/standing.js';
import { someOf } from './summary.js';
import type { Visit } from '../../record/visit.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';

const ofAnimal = columnsOf<{ readonly record: CaseRecord }>();
/** Whose row it is: her number on the farm, and her official tag where it is written. */
export const animalColumns = [
  ofAnimal.text('animal', ({ record }) => record.animal.animal),
  ofAnimal.text('tag', ({ record }) => record.animal.tag, { ...beneath, ...whole, unlabelled: true }),
];

/** A gait score with its scale in short, never without; with its day where one is given. The scale's full name and lame mark stand once above the table. @example scoreInWords(wordsOf('en-GB'), 2, 'uk-0-3') // → '2 (UK 0–3)' */
export function scoreInWords(
  words: Words,
  score: number,
  scale: GaitScale | undefined,
  day?: CalendarDay,
): string {
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
export function lesionWithSite(words: Words, animal: Animal, name: string, at: number): string {
  const lesion = animal.lesions[name];
  if (!lesion) return name;
  const named = nameOf(words, animal, name, codeOn(name, lesion, animal.visits, at));
  return lesion.site
    ? words.say('audit.lesion-site', { lesion: named, site: words.say(`vocabulary.site.${lesion.site}`) })
    : named;
}

interface LameRow {
  readonly record: CaseRecord;
  readonly run: RunInPeriod;
  readonly waiting: Waiting;
  readonly firstLame: GaitScore | undefined;
  /** Of the rechecks of this run that fell due in the period. */
  readonly rechecks: Share | undefined;
}

/** Each lameness episode of the period: seen, lifted, how long between, what was found and done, and how it ended. */
export function lameAnimalsTable(facts: AuditFacts): SealedTable {
  const { text, day, number, word, lines, share } = columnsOf<LameRow>();
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

function rowOf({ rechecks }: AuditFacts, run: RunInPeriod): LameRow {
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

/** What was done in a run, each with how often: every visit stands in the table of visits. */
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
