import type { LesionStanding, StandingEvidence } from '../healing/standing.js';
import { familyOf } from '../reference/lesions.js';

/**
 * Which sentence a standing takes, under `standing.sentence`: the same word reads differently of a wall, an ulcer
 * and the skin, and with or without a length.
 */
export function standingVariant({ code, standing, evidence }: LesionStanding): string {
  const family = familyOf(code);
  const wall = family === 'wall';
  const hole = family === 'ulcer' || family === 'double sole';
  const { nowMm, thenMm, date } = evidence;
  switch (standing) {
    case 'at-coronet':
      return (nowMm ?? 0) > 0 ? 'at-coronet-near' : 'at-coronet';
    case 'ran-up':
      if (nowMm === undefined) return 'ran-up.unmeasured';
      if (evidence.since === undefined) return 'ran-up.not-compared';
      return evidence.ranUpMm === undefined ? 'ran-up.not-sized' : 'ran-up.sized';
    case 'doubtful':
      if (evidence.asked !== undefined) return 'asked';
      if (evidence.mayBeHeld) return 'may-be-held';
      return wall ? standing : `${standing}-ulcer`;
    case 'held':
    case 'lower-than-growth':
      return wall ? standing : `${standing}-ulcer`;
    case 'opened-further':
      if (!wall) return 'opened-further.ulcer';
      return thenMm !== undefined && (nowMm ?? 0) < thenMm ? 'opened-further.higher' : 'opened-further.plain';
    case 'came-back':
      if (family === 'dermatitis') return 'came-back.dermatitis';
      if (hole && evidence.since !== undefined) return 'came-back.ulcer';
      if (!wall) return 'came-back.other';
      return nowMm === undefined ? 'came-back.wall-unmeasured' : 'came-back.wall';
    case 'no-change-shown': {
      const change = (nowMm ?? 0) - (thenMm ?? 0);
      const way = change === 0 ? 'same' : change > 0 ? 'more' : 'less';
      return `no-change-shown.${wall ? wallWays[way] : holeWays[way]}`;
    }
    case 'growing-down':
      return `growing-down.${besideExpected(evidence)}`;
    case 'open':
      if (nowMm === undefined) return 'open.other';
      return wall ? 'open.wall' : 'open.ulcer';
    case 'covered':
      return wall ? 'covered.wall' : hole ? 'covered.ulcer' : 'covered.other';
    case 'healed':
      return `healed.${wall ? 'wall' : family === 'ulcer' ? 'ulcer' : family === 'dermatitis' ? 'dermatitis' : 'other'}`;
    case 'not-measured':
      if (date === undefined) return 'not-measured.never';
      return `not-measured.${wall ? 'wall' : family === 'dermatitis' ? 'dermatitis' : 'ulcer'}`;
    default:
      return standing;
  }
}

const wallWays = { same: 'same', more: 'lower', less: 'higher' } as const;
const holeWays = { same: 'same-width', more: 'wider', less: 'narrower' } as const;

/** Whether the change lay within its 80 % range, to the millimetre as printed; a reading farther off is another kind. */
function besideExpected({ nowMm, thenMm = 0, expectedLowMm, expectedHighMm }: StandingEvidence): string {
  if (nowMm === undefined || expectedLowMm === undefined || expectedHighMm === undefined) return 'plain';
  const change = nowMm - thenMm;
  if (change < Math.round(expectedLowMm - thenMm)) return 'less';
  return change > Math.round(expectedHighMm - thenMm) ? 'more' : 'as-expected';
}
