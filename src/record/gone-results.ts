import type { EpisodeResult } from './words.js';

/** Results after which no foot of hers is lifted again. */
export const goneResults: ReadonlySet<EpisodeResult> = new Set(['culled', 'died', 'put down']);
