import { type LesionRates, lesionRates } from '../../../src/herd/lesion-rates.js';
import { type RoundShare, lameAtRounds } from '../../../src/herd/cow-years.js';
import type { Farm } from '../../../src/record/farm.js';
import type { LesionCode } from '../../../src/record/words.js';
import { cow, herd, looks } from '../../herd/invented-herd.js';

export const today = '2026-06-01';

/** Seven kinds, more than are distinguished, over three seasons of a herd of 120. */
const seen: readonly [LesionCode, string][] = [
  ['WL', '2026-01-05'], ['WL', '2026-01-09'], ['WL', '2026-02-01'], ['WL', '2026-04-01'], ['SU', '2026-01-20'], ['SU', '2026-03-05'],
  ['SU', '2026-03-07'], ['TU', '2025-10-01'], ['TU', '2025-10-09'], ['TU', '2026-03-09'], ['HFV', '2026-01-07'], ['HFV', '2026-04-07'], ['BU', '2026-04-09'],
  ['CD', '2026-05-01'], ['HHE', '2026-05-02'],
]; // prettier-ignore

export function ratesOf(farm: Partial<Farm> = { herd: { cows: 120 }, hemisphere: 'north' }): LesionRates {
  const cows = seen.map(([code, day], at) =>
    cow(`${at + 1}`, looks([day, 'open']), { lesions: { a: { code, foot: 'LH', claw: 'outer' } } }),
  );
  return lesionRates(herd('quernholt', cows, farm), today)!;
}

const rounds = [
  { date: '2025-09-30', scored: 118, counts: { 0: 70, 1: 30, 2: 14, 3: 4 } },
  { date: '2025-10-12', scored: 0, counts: {} },
  { date: '2025-10-14', scored: 120, counts: { 0: 90, 1: 27, 2: 3, 3: 0 } },
  { date: '2025-10-26', scored: 117, counts: { 0: 90, 1: 27, 2: 0, 3: 0 } },
  { date: '2026-03-29', scored: 119, counts: { 1: 60, 2: 40, 3: 12, 4: 5, 5: 2 } },
];

/** Rounds two days apart and half a year, one at which nobody was scored, the last on another scale. */
export function roundsOf(): RoundShare[] {
  const farm: Farm = {
    farm: 'Quernholt',
    'gait-scale': [{ scale: 'uk-0-3' }, { from: '2026-01-01', scale: 'sprecher-1-5' }],
    'gait-rounds': rounds,
  };
  return lameAtRounds(farm, today);
}
