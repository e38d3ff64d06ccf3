import type { Found } from '../record/found.js';

/** Keys of a finding that only mean something on a gap in the wall. */
export const wallGapKeys: ReadonlySet<string> = new Set([
  'top-found',
  'wall-at',
  'wall-lowered',
  'wall-tool',
  'ran-up',
  'opened-further',
  'joined',
] satisfies (keyof Found)[]);
