import type { Visit } from '../record/visit.js';
import type { Sign, EpisodeResult } from '../record/words.js';
import { gaitScale } from '../reference/scales.js';
import { isActive } from './looks-at-lesion.js';
import type { Animal } from '../record/animal.js';
import { given } from '../record/given.js';
import type { CalendarDay } from '../record/calendar-day.js';

/** Signs of horn that many a sound cow has. */
const slight: ReadonlySet<Sign> = new Set([
  'smell',
  'loose horn',
  'white line stretched',
  'soft horn',
  'crumbly horn',
]);

/** From here on she is lame on every scale, whichever the farm's is. */
const lameOnAll = Object.values(gaitScale).reduce((most, { lameFrom }) => Math.max(most, lameFrom), 0);

/**
 * A visit that found something not healed: an open, covered or present lesion, active dermatitis, infection; or at which
 * anybody saw a sign of illness on the animal, or of more than horn on a foot, or a walk that is lame on every scale.
 *
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function isTroubled(visit: Visit): boolean {
  const onFeet = Object.values(visit.feet ?? {}).flatMap(({ signs = [] }) => signs);
  const found = Object.values(visit.found ?? {});
  const seen = [...onFeet, ...found.flatMap(({ signs = [] }) => signs)];
  if ((visit.gait ?? 0) >= lameOnAll) return true;
  if ((visit.signs ?? []).length > 0 || seen.some((sign) => !slight.has(sign))) return true;
  return found.some(
    ({ infected, state = 'healed', stage }) =>
      infected === true || ['open', 'covered', 'present'].includes(state) || (stage && isActive(stage)),
  );
}

/** A lameness episode with the visits that belong to it by date. */
export interface FollowedEpisode {
  /** Position in `animal.episodes`; absent where none is written and the visits themselves make it. */
  readonly written?: number;
  readonly lameSince?: CalendarDay;
  readonly toldBy?: string;
  readonly ended?: CalendarDay;
  readonly result?: EpisodeResult;
  /** Positions in `animal.visits`, oldest first. */
  readonly visits: readonly number[];
}

/**
 * The lameness episodes of an animal as of a day, oldest first; the last may be open.
 *
 * Without the key there is one open episode. A visit belongs to the first episode that had not ended before
 * it. When the last has ended and a later visit finds trouble again, an open episode is made of the visits from
 * that one on: nothing due is lost because a line in the file was not written. An end after the day asked
 * about has not happened yet.
 *
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function episodesOf(animal: Animal, today: CalendarDay): readonly FollowedEpisode[] {
  const visits = [...animal.visits.entries()].filter(([, visit]) => visit.date <= today);
  const written = (animal.episodes ?? []).flatMap((episode, at) => {
    const { 'lame-since': lameSince, 'told-by': toldBy } = episode;
    if (lameSince && lameSince > today) return [];
    const { ended, result } = episode.ended && episode.ended <= today ? episode : {};
    return { written: at, ...given({ lameSince, toldBy, ended, result }) };
  });
  if (written.length === 0) return [{ visits: visits.map(([at]) => at) }];
  const left = [...visits];
  const episodes: FollowedEpisode[] = written.map((episode) => {
    const end = left.findIndex(([, { date }]) => date > (episode.ended ?? today));
    const own = left.splice(0, end < 0 ? left.length : end);
    return { ...episode, visits: own.map(([at]) => at) };
  });
  const again = left.findIndex(([, visit]) => isTroubled(visit));
  if (again >= 0) episodes.push({ visits: left.slice(again).map(([at]) => at) });
  return episodes;
}
