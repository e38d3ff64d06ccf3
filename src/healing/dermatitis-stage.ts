import type { DdStage } from '../record/words.js';

const active: ReadonlySet<DdStage> = new Set(['M1', 'M2', 'M4.1']);

/** M1, M2 and M4.1 are active; M3 and M4 quiet; M0 healed. @example isActive('M4') // → false */
export function isActive(stage: DdStage): boolean {
  return active.has(stage);
}
