import type { Animal, Episode } from '../../record/animal.js';
import { goneResults } from '../../record/gone-results.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { AnimalCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';
import { lesionLooks } from './look.js';

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
