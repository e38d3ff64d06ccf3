import type { CaseRecord } from '../../record/practice.js';
import { type AuditColumn, sealed, type SealedTable, type Share } from '../table/column.js';
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
import type { Visit } from '../../record/visit.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';

/** Whose row it is: her number on the farm, and her official tag where it is written. */
export function animalColumns<Row extends { readonly record: CaseRecord }>(): readonly AuditColumn<Row>[] {
  return [
    { name: 'animal', kind: 'text', of: ({ record }) => record.animal.animal },
    {
      name: 'tag',
      kind: 'text',
      beneath: true,
      unlabelled: true,
      whole: true,
      of: ({ record }) => record.animal.tag,
    },
  ];
}

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
  readonly firstLame?: GaitScore;
  /** Of the rechecks of this run that fell due in the period. */
  readonly rechecks?: Share;
}

/** Each lameness episode of the period: seen, lifted, how long between, what was found and done, and how it ended. */
export function lameAnimalsTable(facts: AuditFacts): SealedTable {
  return sealed<LameRow>({
    name: 'lame-animals',
    rows: facts.runs.map((run) => rowOf(facts, run)),
    columns: [
      ...animalColumns<LameRow>(),
      { name: 'first_seen_lame', kind: 'day', of: ({ waiting }) => waiting.seen?.day },
      { name: 'first_seen_time', kind: 'text', beneath: true, of: ({ waiting }) => waiting.seen?.at },
      { name: 'first_seen_by', kind: 'text', beneath: true, of: ({ waiting }) => told(waiting.seen?.by) },
      {
        name: 'first_seen_from',
        kind: 'word',
        words: 'audit.seen-from',
        beneath: true,
        of: ({ run, waiting }) =>
          run.lame === 'not-recorded' ? 'not-lame' : (waiting.seen?.from ?? 'not-written'),
      },
      { name: 'first_scored_lame', kind: 'day', of: ({ firstLame }) => firstLame?.date },
      {
        name: 'first_lame_score',
        kind: 'text',
        beneath: true,
        of: ({ firstLame }, words) => firstLame && scoreInWords(words, firstLame.score, firstLame.scale),
      },
      { name: 'first_lifted', kind: 'day', of: ({ waiting }) => waiting.lifted?.day },
      { name: 'first_lifted_time', kind: 'text', beneath: true, of: ({ waiting }) => waiting.lifted?.at },
      { name: 'first_lifted_by', kind: 'text', beneath: true, of: ({ waiting }) => told(waiting.lifted?.by) },
      { name: 'days_between', kind: 'number', of: ({ waiting }) => waiting.days },
      { name: 'hours_between', kind: 'number', beneath: true, of: ({ waiting }) => waiting.hours },
      { name: 'lesions', kind: 'lines', of: ({ run }, words) => lesionsOfRun(words, run) },
      { name: 'done', kind: 'lines', blank: true, of: ({ run }, words) => doneInRun(words, run) },
      {
        name: 'pain_relief',
        kind: 'lines',
        blank: true,
        of: ({ run }, words) => painReliefOfRun(words, run),
      },
      { name: 'outcome', kind: 'word', words: 'audit.outcome', of: ({ run }) => outcomeOf(run) },
      { name: 'ended', kind: 'day', beneath: true, of: ({ run }) => run.episode.ended },
      {
        name: 'last_score',
        kind: 'text',
        beneath: true,
        of: ({ run }, words) => {
          const last = run.scores.at(-1);
          return last && scoreInWords(words, last.score, last.scale, last.date);
        },
      },
      { name: 'rechecks_kept', kind: 'share', beneath: true, of: ({ rechecks }) => rechecks },
    ],
  });
}

function rowOf({ rechecks }: AuditFacts, run: RunInPeriod): LameRow {
  const { record } = run.work;
  const due = rechecks.filter(
    (one) => one.record === record && run.episode.visits.includes(one.visit) && fellDue(one),
  );
  const firstLame = run.scores.find(({ lame }) => lame);
  return {
    record,
    run,
    waiting: waitingOf(run),
    ...(firstLame ? { firstLame } : {}),
    ...(due.length === 0
      ? {}
      : {
          rechecks: {
            count: due.filter(({ standing }) => standing === 'kept').length,
            of: due.length,
            animals: 1,
          },
        }),
  };
}

function outcomeOf({ episode }: RunInPeriod): string {
  if (episode.ended === undefined) return 'open';
  return episode.result ?? 'not-said';
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
  const counts: readonly (readonly [string, number])[] = [
    ['lifted', visits.filter(([, visit]) => liftsAFoot(animal, visit)).length],
    ['trimmed', visits.filter(([, { trimmed }]) => trimmed?.length).length],
    ['cut-back', visits.filter(([, visit]) => visit['cut-back']?.length).length],
    ['block', fitted(visits, 'blocks')],
    ['wrap', fitted(visits, 'wraps')],
    ['product', visits.reduce((sum, [, { products = [] }]) => sum + products.length, 0)],
  ];
  return counts.flatMap(([key, count]) => (count === 0 ? [] : words.say(`audit.done.${key}`, { count })));
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
