import { healingNumbers } from '../reference/healing-numbers.js';
import type { ClosingKind, ClosingReading, UlcerClosing } from './closing/ulcer-closing.js';
import { holeStanding } from './hole-standing.js';
import type { Look } from './looks-at-lesion.js';
import type { StandingEvidence, StandingWord } from './standing.js';
import { tellsApartMm } from './tells-apart.js';
import type { Told } from './wall-standing.js';

const byKind: Partial<Record<ClosingKind, StandingWord>> = {
  'opening-up': 'opening-up',
  held: 'held',
  doubtful: 'doubtful',
  'opened-further': 'opened-further',
  'smaller-than-closing': 'lower-than-growth',
};

/**
 * How an ulcer stands: what its last width was taken for, read in the order of precedence.
 *
 * As with a gap in the wall the last reading decides, and closing is said only of a width that reading error can tell
 * from the first of the present clock. A double sole, and an ulcer that has no width to follow, go by
 * reading error alone.
 *
 * Shape:   looks, oldest first, the last with a state being open or covered; its widths as they were judged → standing
 * Unit:    mm
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function ulcerStanding(looks: readonly Look[], closing: UlcerClosing | undefined): Told {
  const state = looks.findLast(({ found }) => found.state)?.found.state;
  const now = closing?.readings.at(-1);
  const cameBack = closing?.cameBack.at(-1);
  if (state === 'covered' || now === undefined || (cameBack !== undefined && now.date < cameBack))
    return holeStanding(looks);
  const before = closing?.readings.at(-2);
  if (now.kind === 'came-back') {
    const since = closing?.closed.at(-1)?.by;
    return { standing: 'came-back', evidence: { ...alone(now), ...(since === undefined ? {} : { since }) } };
  }
  if (now.kind === 'first' || before === undefined) return { standing: 'open', evidence: alone(now) };
  const word = byKind[now.kind];
  if (word) return { standing: word, evidence: between(before, now) };
  const start =
    closing?.readings.findLast(
      ({ kind, unused }) => kind !== 'as-expected' && kind !== 'doubtful' && !unused,
    ) ?? before;
  const tellsMm = tellsApartMm(start.sigmaMm, now.sigmaMm);
  const change = start.widthMm - now.widthMm;
  const standing = change >= tellsMm ? 'closing' : change <= -tellsMm ? 'opening-up' : 'no-change-shown';
  return { standing, evidence: { ...between(start, now), tellsMm } };
}

function alone({ date, widthMm, tool, marginMmPerDay }: ClosingReading): StandingEvidence {
  return {
    date,
    nowMm: widthMm,
    ...(tool ? { tool } : {}),
    ...(marginMmPerDay === undefined ? {} : { marginMmPerDay }),
  };
}

function between(then: ClosingReading, now: ClosingReading): StandingEvidence {
  const half = healingNumbers.rangeSds.value * (now.sdMm ?? 0);
  return {
    ...alone(now),
    since: then.date,
    thenMm: then.widthMm,
    ...(then.tool === now.tool ? {} : { mixedTools: true }),
    ...(now.expectedMm === undefined
      ? {}
      : { expectedLowMm: Math.max(0, now.expectedMm - half), expectedHighMm: now.expectedMm + half }),
  };
}
