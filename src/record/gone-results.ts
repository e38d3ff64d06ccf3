import type { EpisodeResult } from './words.js';

/** Results after which no foot of hers is lifted again. */
export const goneResults: ReadonlySet<EpisodeResult> = new Set(['culled', 'died', 'put down']);

/** Results after which she is not on the farm any more. */
export const leavingResults: ReadonlySet<EpisodeResult> = new Set([...goneResults, 'sold', 'moved']);
