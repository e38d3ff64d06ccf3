import type { Visit } from '../../record/visit.js';
import { dayInWords } from '../../words/day-in-words.js';
import type { Words } from '../../words/words.js';
import { liftsAFoot } from '../facts/lifts-a-foot.js';
import type { RunInPeriod } from '../facts/run-in-period.js';
import { lesionWithSite } from './lesion-with-site.js';

/** Every lesion found in a run, in the order declared. */
export function lesionsOfRun(words: Words, { work, visits }: RunInPeriod): string[] {
  const { animal } = work.record;
  const last = visits.at(-1)?.[0] ?? -1;
  const found = new Set(visits.flatMap(([, visit]) => Object.keys(visit.found ?? {})));
  return Object.keys(animal.lesions)
    .filter((name) => found.has(name))
    .map((name) => lesionWithSite(words, animal, name, last));
}

/** What was done in a run, each with how often: every visit stands in the table of visits. */
export function doneInRun(words: Words, { work, visits }: RunInPeriod): string[] {
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
export function painReliefOfRun(words: Words, run: RunInPeriod): string[] {
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
