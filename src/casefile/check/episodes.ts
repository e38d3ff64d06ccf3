import type { Animal, Episode } from '../../record/animal.js';
import { goneResults } from '../../record/visit.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { type AnimalCheckContext, refuse, warn, lesionLooks } from './check-context.js';
import { messageWords, type Values } from '../../reference/words.js';
import type { Finding } from '../../problem/problem.js';

const activeStages = new Set(['M1', 'M2', 'M4.1']);

/** Visits belong to episodes by date, and an episode's end agrees with what was last found. */
export function checkEpisodesAndVisits(animal: Animal, { today }: AnimalCheckContext): Finding[] {
  const episodes = animal.episodes ?? [];
  return [
    ...episodes.flatMap((episode, i) => soundWithTrouble(animal, episode, i)),
    ...(episodes.length > 0
      ? animal.visits.flatMap(({ date }, i) => (date > today ? [] : outside(animal, i)))
      : []),
    ...firstAgain(animal),
  ];
}

function soundWithTrouble(animal: Animal, { result, ended }: Episode, i: number): Finding[] {
  if (result !== 'sound' || !ended) return [];
  const looks = lesionLooks(animal).filter(({ visit }) => visit.date <= ended);
  const said = (how: string, values: Values): string => messageWords().say(`lesion-last.${how}`, values);
  const troubled = Object.keys(animal.lesions).flatMap((name) => {
    const own = looks.filter((look) => look.name === name);
    if (own.some(({ found }) => found.joined)) return [];
    const { state, stage } = own.findLast(({ found }) => found.state ?? found.stage)?.found ?? {};
    const infected = own.findLast(({ found }) => found.infected !== undefined)?.found.infected;
    if (stage && activeStages.has(stage)) return [said('active', { name, stage })];
    if (state === 'open' && !stage) return [said('open', { name })];
    return infected && state !== 'healed' ? [said('infected', { name })] : [];
  });
  if (troubled.length === 0) return [];
  return [
    refuse('sound-with-open-lesion', ['episodes', i, 'result'], { ended, lesions: troubled.join('; ') }),
  ];
}

/** A visit for lameness that no written episode holds, or one that lifts the feet of a cow that is gone. */
function outside(animal: Animal, i: number): Finding[] {
  const visit = animal.visits[i];
  if (!visit || !isLiftingVisit(visit)) return [];
  const episodes = animal.episodes ?? [];
  const path = ['visits', i, 'date'];
  const gone = episodes.find(
    ({ ended, result }) => ended && ended < visit.date && result && goneResults.has(result),
  );
  if (gone)
    return [refuse('visit-after-gone', path, { day: visit.date, ended: gone.ended!, result: gone.result! })];
  if (visit.kind === 'routine') return [];
  const holds = episodes.some(
    ({ 'lame-since': since, ended }) => (!since || since <= visit.date) && (!ended || visit.date <= ended),
  );
  if (holds) return [];
  const next = episodes.find(({ 'lame-since': since }) => since && since > visit.date);
  const values = { kind: visit.kind, day: visit.date };
  return [
    next
      ? warn('visit-outside-episodes', path, { ...values, begins: next['lame-since']! }, { way: 'next' })
      : warn('visit-outside-episodes', path, { ...values, ended: episodes.at(-1)!.ended! }),
  ];
}

function firstAgain(animal: Animal): Finding[] {
  const boundaries = (animal.episodes ?? []).flatMap(({ ended }) => ended ?? []);
  return animal.visits.flatMap((visit, i) => {
    if (visit.kind !== 'first') return [];
    const earlier = animal.visits
      .slice(0, i)
      .find(
        (other) =>
          (other.kind === 'first' || other.kind === 'recheck') &&
          !boundaries.some((ended) => other.date <= ended && ended <= visit.date),
      );
    if (!earlier) return [];
    return [warn('first-after-first', ['visits', i, 'kind'], { day: visit.date, earlier: earlier.date })];
  });
}

/** Episodes follow one another, each ended before the next, each end with what became of her. */
export function checkEpisodesInOrder({ episodes = [] }: Animal): Finding[] {
  return episodes.flatMap((episode, i) => {
    const { 'lame-since': since, ended, result } = episode;
    const before = episodes[i - 1];
    const found: Finding[] = [];
    if (since && ended && ended < since)
      found.push(refuse('ended-before-lame-since', ['episodes', i, 'ended'], { ended, since }));
    if (result && !ended)
      found.push(refuse('result-without-ended', ['episodes', i, 'result'], { result }, { at: 'key' }));
    if (ended && !result) found.push(warn('ended-without-result', ['episodes', i, 'ended'], { ended }));
    if (before && !before.ended) found.push(refuse('episode-not-ended', ['episodes', i - 1]));
    const earlierStart = before?.['lame-since'];
    if (since && earlierStart && since < earlierStart)
      found.push(
        refuse('episodes-out-of-order', ['episodes', i, 'lame-since'], { since, before: earlierStart }),
      );
    else if (before?.ended && before.ended > (since ?? ended ?? before.ended))
      found.push(
        since
          ? refuse('episodes-overlap', ['episodes', i, 'lame-since'], { since, before: before.ended })
          : refuse(
              'episodes-overlap',
              ['episodes', i, 'ended'],
              { ended: ended!, before: before.ended },
              { way: 'ended' },
            ),
      );
    return found;
  });
}

/**
 * Visits stand oldest first; on one day their times decide, and one person lifts her once.
 *
 * A visit dated after today is refused as such, and those after it are not measured by it.
 */
export function checkOrderOfVisits({ visits }: Animal, { today }: AnimalCheckContext): Finding[] {
  return visits.flatMap((visit, i) => {
    const found: Finding[] = [];
    const before = visits[i - 1];
    if (before && visit.date < before.date && before.date <= today)
      found.push(
        refuse('visits-out-of-order', ['visits', i, 'date'], { day: visit.date, before: before.date }),
      );
    if (before && visit.date === before.date && visit.at && before.at && visit.at < before.at)
      found.push(
        refuse('visit-times-out-of-order', ['visits', i, 'at'], {
          day: visit.date,
          time: visit.at,
          before: before.at,
        }),
      );
    const twin = visits.findIndex(
      (other) => other.date === visit.date && samePerson(other.by, visit.by) && isLiftingVisit(other),
    );
    if (isLiftingVisit(visit) && twin < i && twin >= 0)
      found.push(refuse('visited-twice', ['visits', i, 'date'], { person: visit.by, day: visit.date }));
    return found;
  });
}

function samePerson(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}
