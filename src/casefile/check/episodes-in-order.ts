import type { Animal } from '../../record/animal.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';

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
