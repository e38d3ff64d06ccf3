import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Visit } from '../record/visit.js';
import type { EpisodeResult } from '../record/words.js';
import { isTroubled } from './troubled-visit.js';

/** A run of trouble with the visits that belong to it by date. */
export interface Episode {
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
 * The runs of trouble of an animal as they stand on a day, oldest first; the last may be open.
 *
 * Without the key there is one open episode. A visit belongs to the first episode that had not ended before
 * it. When the last has ended and a later visit finds trouble again, an open episode is made of the visits from
 * that one on: nothing due is lost because a line in the file was not written. An end after the day asked
 * about has not happened yet.
 *
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function episodesOf(animal: Animal, today: CalendarDay): readonly Episode[] {
  const visits = [...animal.visits.entries()].filter(([, visit]) => visit.date <= today);
  const written = (animal.episodes ?? [])
    .map((episode, at) => ({ episode, at }))
    .filter(({ episode }) => !episode['lame-since'] || episode['lame-since'] <= today)
    .map(({ episode, at }) => ({
      written: at,
      ...(episode['lame-since'] ? { lameSince: episode['lame-since'] } : {}),
      ...(episode['told-by'] ? { toldBy: episode['told-by'] } : {}),
      ...(episode.ended && episode.ended <= today ? { ended: episode.ended } : {}),
      ...(episode.ended && episode.ended <= today && episode.result ? { result: episode.result } : {}),
    }));
  if (written.length === 0) return [{ visits: visits.map(([at]) => at) }];
  const left = [...visits];
  const episodes: Episode[] = written.map((episode) => ({
    ...episode,
    visits: take(left, (visit) => !('ended' in episode) || visit.date <= (episode.ended ?? today)),
  }));
  const again = left.findIndex(([, visit]) => isTroubled(visit));
  if (again >= 0) episodes.push({ visits: left.slice(again).map(([at]) => at) });
  return episodes;
}

function take(left: [number, Visit][], belongs: (visit: Visit) => boolean): readonly number[] {
  const end = left.findIndex(([, visit]) => !belongs(visit));
  return left.splice(0, end < 0 ? left.length : end).map(([at]) => at);
}
