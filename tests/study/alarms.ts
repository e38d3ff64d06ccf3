import type { LesionGrowth } from '../../src/growth/animal-growth.js';
import { gapOn } from './coverage.js';
import { type Plan, soundReadings, troubledCow } from './made-cow.js';
import type { SeededDraws } from './seeded-draws.js';

/** How often trouble was raised (ran up, held or doubtful), and how soon. Shares 0 to 1. */
export interface Alarms {
  readonly cows: number;
  /** Share raised by the first reading after it, by the second, and so on. */
  readonly raisedBy: readonly number[];
  /** Readings it took, on average over those raised. */
  readonly readingsTaken: number;
}

/** Draws so many cows that come to trouble after three sound readings, and reads on until it is raised. */
export function alarmsOf(
  draws: SeededDraws,
  plan: Plan,
  cows: number,
  isTold: (gap: LesionGrowth) => boolean = isRaised,
): Alarms {
  const raisedAt = Array.from({ length: plan.readings - soundReadings }, () => 0);
  for (let made = 0; made < cows; made++) {
    const cow = troubledCow(draws, plan);
    const after = cow.read.slice(soundReadings);
    const at = after.findIndex((today) => isTold(gapOn(cow, today)));
    if (at >= 0) raisedAt[at]!++;
  }
  let sum = 0;
  const raisedBy = raisedAt.map((raised) => (sum += raised) / cows);
  const readings = raisedAt.reduce((total, raised, at) => total + raised * (at + 1), 0);
  return { cows, raisedBy, readingsTaken: sum === 0 ? 0 : readings / sum };
}

/** Held is said outright, not only that it may be. */
export function isCalledHeld({ readings, heldNow }: LesionGrowth): boolean {
  return heldNow?.sure === true || readings.at(-1)?.kind === 'held';
}

function isRaised({ readings, heldNow }: LesionGrowth): boolean {
  const kind = readings.at(-1)?.kind;
  return heldNow !== undefined || kind === 'ran-up' || kind === 'held' || kind === 'doubtful';
}
