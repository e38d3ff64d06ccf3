import type { Animal, Episode } from '../../record/animal.js';
import { goneResults } from '../../record/visit.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { type AnimalCheckContext, type Findings, refuse, warn, lesionLooks } from './check-context.js';
import { messageWords } from '../../reference/words.js';

const activeStages = new Set(['M1', 'M2', 'M4.1']);

/** Visits belong to episodes by date, and an episode's end agrees with what was last found. */
export function* checkEpisodesAndVisits(animal: Animal, { today }: AnimalCheckContext): Findings {
  const { episodes = [], visits } = animal;
  for (const [i, episode] of episodes.entries()) yield* soundWithTrouble(animal, episode, i);
  if (episodes.length > 0)
    for (const [i, { date }] of visits.entries()) if (date <= today) yield* outside(animal, i);
  yield* firstAgain(animal);
}

function* soundWithTrouble(animal: Animal, { result, ended }: Episode, i: number): Findings {
  if (result !== 'sound' || !ended) return;
  const looks = lesionLooks(animal).filter(({ visit }) => visit.date <= ended);
  const troubled = Object.keys(animal.lesions).flatMap((name) => {
    const own = looks.filter((look) => look.name === name).map(({ found }) => found);
    if (own.some(({ joined }) => joined)) return [];
    const last = own.findLast(({ state, stage }) => state ?? stage);
    const { state, stage = '' } = last ?? {};
    const infected = own.findLast((found) => found.infected !== undefined)?.infected && state !== 'healed';
    const isOpen = state === 'open' && stage === '';
    const how = activeStages.has(stage) ? 'active' : isOpen ? 'open' : infected ? 'infected' : undefined;
    return how ? messageWords().say(`lesion-last.${how}`, { name, stage }) : [];
  });
  const lesions = troubled.join('; ');
  if (lesions !== '') yield refuse('sound-with-open-lesion', ['episodes', i, 'result'], { ended, lesions });
}

/** A visit for lameness that no written episode holds, or one that lifts the feet of a cow that is gone. */
function* outside({ episodes = [], visits }: Animal, i: number): Findings {
  const visit = visits[i]!;
  if (!isLiftingVisit(visit)) return;
  const { kind, date: day } = visit;
  const path = ['visits', i, 'date'];
  const gone = episodes.find(
    ({ ended, result }) => ended && ended < day && result && goneResults.has(result),
  );
  const holds = episodes.some(
    ({ 'lame-since': since, ended }) => (!since || since <= day) && (!ended || day <= ended),
  );
  const begins = episodes.map((one) => one['lame-since']).find((since) => since && since > day);
  if (gone) yield refuse('visit-after-gone', path, { day, ended: gone.ended!, result: gone.result! });
  else if (kind === 'routine' || holds) return;
  else if (begins) yield warn('visit-outside-episodes', path, { kind, day, begins }, { way: 'next' });
  else yield warn('visit-outside-episodes', path, { kind, day, ended: episodes.at(-1)!.ended! });
}

function* firstAgain({ episodes = [], visits }: Animal): Findings {
  const ends = episodes.flatMap(({ ended }) => ended ?? []);
  for (const [i, { kind, date: day }] of visits.entries()) {
    if (kind !== 'first') continue;
    const earlier = visits
      .slice(0, i)
      .filter((other) => other.kind === 'first' || other.kind === 'recheck')
      .find(({ date }) => !ends.some((ended) => date <= ended && ended <= day));
    if (earlier) yield warn('first-after-first', ['visits', i, 'kind'], { day, earlier: earlier.date });
  }
}

/** Episodes follow one another, each ended before the next, each end with what became of her. */
export function* checkEpisodesInOrder({ episodes = [] }: Animal): Findings {
  for (const [i, { 'lame-since': since, ended, result }] of episodes.entries()) {
    const path = ['episodes', i];
    if (since && ended && ended < since)
      yield refuse('ended-before-lame-since', [...path, 'ended'], { ended, since });
    if (result && !ended)
      yield refuse('result-without-ended', [...path, 'result'], { result }, { at: 'key' });
    if (ended && !result) yield warn('ended-without-result', [...path, 'ended'], { ended });
    const last = episodes[i - 1];
    if (!last) continue;
    const { 'lame-since': before, ended: end } = last;
    if (!end) yield refuse('episode-not-ended', ['episodes', i - 1]);
    if (since && before && since < before)
      yield refuse('episodes-out-of-order', [...path, 'lame-since'], { since, before });
    else if (end && since && end > since)
      yield refuse('episodes-overlap', [...path, 'lame-since'], { since, before: end });
    else if (end && !since && ended && end > ended)
      yield refuse('episodes-overlap', [...path, 'ended'], { ended, before: end }, { way: 'ended' });
  }
}

/**
 * Visits are oldest first; on one day their times decide, and one person lifts her once.
 *
 * A visit dated after today is refused as such, and those after it are not measured by it.
 */
export function* checkOrderOfVisits({ visits }: Animal, { today }: AnimalCheckContext): Findings {
  const lifted = new Set<string>();
  for (const [i, visit] of visits.entries()) {
    const before = visits[i - 1];
    const { date: day, at: time, by: person } = visit;
    if (before && day < before.date && before.date <= today)
      yield refuse('visits-out-of-order', ['visits', i, 'date'], { day, before: before.date });
    if (before && day === before.date && time && before.at && time < before.at)
      yield refuse('visit-times-out-of-order', ['visits', i, 'at'], { day, time, before: before.at });
    if (!isLiftingVisit(visit)) continue;
    const key = `${day} ${person.trim().toLowerCase()}`;
    if (lifted.has(key)) yield refuse('visited-twice', ['visits', i, 'date'], { person, day });
    lifted.add(key);
  }
}
