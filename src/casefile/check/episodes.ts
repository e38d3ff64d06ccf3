import type { Animal, Episode } from '../../record/animal.js';
import { goneResults } from '../../record/visit.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { type AnimalCheckContext, refuse, warn, lesionLooks } from './check-context.js';
import type { Finding } from '../finding.js';

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
  const troubled = Object.keys(animal.lesions).flatMap((name) => {
    const own = looks.filter((look) => look.name === name);
    if (own.some(({ found }) => found.joined)) return [];
    const { state, stage } = own.findLast(({ found }) => found.state ?? found.stage)?.found ?? {};
    const infected = own.findLast(({ found }) => found.infected !== undefined)?.found.infected;
    if (stage && activeStages.has(stage)) return [`${name} was last ${stage}, active`];
    if (state === 'open' && !stage) return [`${name} was last open`];
    return infected && state !== 'healed' ? [`${name} was last infected`] : [];
  });
  if (troubled.length === 0) return [];
  return [
    refuse(
      'sound-with-open-lesion',
      ['episodes', i, 'result'],
      `the episode ended sound on ${ended}, and ${troubled.join('; ')}`,
      'add the visit at which it was found healed or covered, or correct the result',
    ),
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
    return [
      refuse(
        'visit-after-gone',
        path,
        `feet were lifted on ${visit.date}, and her episode ended ${gone.ended}: ${gone.result}`,
        'correct the date of the visit, or the end or result of the episode',
      ),
    ];
  if (visit.kind === 'routine') return [];
  const holds = episodes.some(
    ({ 'lame-since': since, ended }) => (!since || since <= visit.date) && (!ended || visit.date <= ended),
  );
  if (holds) return [];
  const next = episodes.find(({ 'lame-since': since }) => since && since > visit.date);
  return [
    warn(
      'visit-outside-episodes',
      path,
      `the ${visit.kind} visit of ${visit.date} lies outside the days of every episode; ${
        next ? `the next begins ${next['lame-since']}` : `the last ended ${episodes.at(-1)?.ended}`
      }`,
      'correct `lame-since` or `ended`, or add the episode it belongs to; a lift without trouble is `kind: routine`',
    ),
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
    return [
      warn(
        'first-after-first',
        ['visits', i, 'kind'],
        `the visit of ${visit.date} is called first, and she was seen on ${earlier.date} in the same episode`,
        'write `recheck`; if it is new trouble, end the earlier episode',
      ),
    ];
  });
}

/** Episodes follow one another, each ended before the next, each end with what became of her. */
export function checkEpisodesInOrder({ episodes = [] }: Animal): Finding[] {
  return episodes.flatMap((episode, i) => {
    const { 'lame-since': since, ended, result } = episode;
    const before = episodes[i - 1];
    const found: Finding[] = [];
    if (since && ended && ended < since)
      found.push(
        refuse(
          'ended-before-lame-since',
          ['episodes', i, 'ended'],
          `the episode ended ${ended}, expected no day before its lame-since, ${since}`,
          'correct `ended` or `lame-since`',
        ),
      );
    if (result && !ended)
      found.push(
        refuse(
          'result-without-ended',
          ['episodes', i, 'result'],
          `the episode has the result ${result} and no end, expected \`ended\` beside it`,
          'write the day it ended, or take `result` out',
          'key',
        ),
      );
    if (ended && !result)
      found.push(
        warn(
          'ended-without-result',
          ['episodes', i, 'ended'],
          `the episode ended ${ended} and no result is given`,
          'write `result`: sound, "recovered, not lame", culled, sold, moved, died, put down or lost to follow-up',
        ),
      );
    if (before && !before.ended)
      found.push(
        refuse(
          'episode-not-ended',
          ['episodes', i - 1],
          'an episode has no end, and another follows it; expected only the last one open',
          'write `ended` and `result` for the earlier episode',
        ),
      );
    const earlierStart = before?.['lame-since'];
    if (since && earlierStart && since < earlierStart)
      found.push(
        refuse(
          'episodes-out-of-order',
          ['episodes', i, 'lame-since'],
          `the episode of ${since} stands after the one of ${earlierStart}, expected oldest first`,
          'list the episodes oldest first',
        ),
      );
    else if (before?.ended && before.ended > (since ?? ended ?? before.ended))
      found.push(
        refuse(
          'episodes-overlap',
          ['episodes', i, since ? 'lame-since' : 'ended'],
          `the episode ${since ? `begins ${since}` : `ended ${ended}`}, and the one before it ended ${before.ended}`,
          'correct the days: one episode ends before the next begins',
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
        refuse(
          'visits-out-of-order',
          ['visits', i, 'date'],
          `the visit of ${visit.date} stands after the visit of ${before.date}, expected oldest first`,
          'move the visit to its place by date, or correct its date',
        ),
      );
    if (before && visit.date === before.date && visit.at && before.at && visit.at < before.at)
      found.push(
        refuse(
          'visit-times-out-of-order',
          ['visits', i, 'at'],
          `on ${visit.date} the visit at ${visit.at} stands after the one at ${before.at}, expected earliest first`,
          'put the earlier visit first, or correct its time',
        ),
      );
    const twin = visits.findIndex(
      (other) => other.date === visit.date && samePerson(other.by, visit.by) && isLiftingVisit(other),
    );
    if (isLiftingVisit(visit) && twin < i && twin >= 0)
      found.push(
        refuse(
          'visited-twice',
          ['visits', i, 'date'],
          `${visit.by} has two visits with feet lifted on ${visit.date}, expected one`,
          'put both into one visit; word from farm or vet on that day is `kind: report`',
        ),
      );
    return found;
  });
}

function samePerson(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}
