import type { EpisodeResult } from './words.js';

/** Results after which no foot of hers is lifted again. */
export const goneResults: ReadonlySet<EpisodeResult> = new Set(['culled', 'died', 'put down']);

/** Results after which she has left the farm. */
export const leftFarm: ReadonlySet<EpisodeResult> = new Set([...goneResults, 'sold', 'moved']);
