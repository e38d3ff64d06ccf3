import type { Look } from './looks-at-lesion.js';
import { readingError } from '../reference/reading-error.js';
import { smallestDetectableChangeMm } from './smallest-detectable-change.js';
import type { StandingEvidence } from './standing.js';
import type { Told } from './wall-standing.js';

interface Width {
  readonly look: Look;
  readonly mm: number;
  readonly sigmaMm: number;
}

/**
 * How a hole in the horn stands by its widths and what reading error can tell of them; no date. Of a double sole, for
 * which no speed of closing is known, and of an ulcer without a width to follow.
 *
 * Why this way: the widths of the present open run only, since a hole that was covered and is open again is
 * another one. A last width beyond reading error above the one before, or above the first, is opening up, and
 * said before any closing; a last width below the first by as much is closing.
 *
 * Shape:   looks, oldest first, the last with a state being open or covered → standing
 * Unit:    mm
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function holeStanding(looks: readonly Look[]): Told {
  const states = looks.filter(({ found }) => found.state);
  const last = states.at(-1);
  const date = last ? { date: last.date } : {};
  if (last?.found.state === 'covered') return { standing: 'covered', evidence: { ...date, covered: true } };
  const runFrom = states.findLastIndex(({ found }) => found.state !== 'open') + 1;
  const opened = states[runFrom];
  const closedBefore = states[runFrom - 1];
  const widths = widthsOf(looks.filter((look) => !opened || look.visit >= opened.visit));
  const now = widths.at(-1);
  const measured = now
    ? { nowMm: now.mm, ...(now.look.found.tool ? { tool: now.look.found.tool } : {}) }
    : {};
  if (closedBefore && widths.length < 2)
    return { standing: 'came-back', evidence: { ...date, since: closedBefore.date, ...measured } };
  const first = widths[0];
  const before = widths.at(-2);
  if (!now || !first || !before)
    return { standing: now ? 'open' : 'not-measured', evidence: { ...date, ...measured } };
  if (isWider(now, before)) return { standing: 'opening-up', evidence: between(before, now) };
  if (isWider(now, first)) return { standing: 'opening-up', evidence: between(first, now) };
  return { standing: isWider(first, now) ? 'closing' : 'no-change-shown', evidence: between(first, now) };
}

function widthsOf(looks: readonly Look[]): readonly Width[] {
  const measured = looks.filter(({ found }) => found.width !== undefined);
  const firstReader = measured[0]?.by;
  return measured.map((look) => {
    const mm = look.found.width ?? 0;
    return { look, mm, sigmaMm: readingError(look.found.tool, mm, look.by === firstReader) };
  });
}

function isWider(wide: Width, narrow: Width): boolean {
  return wide.mm - narrow.mm >= smallestDetectableChangeMm(wide.sigmaMm, narrow.sigmaMm);
}

function between(then: Width, now: Width): StandingEvidence {
  const { tool } = now.look.found;
  return {
    date: now.look.date,
    since: then.look.date,
    thenMm: then.mm,
    nowMm: now.mm,
    tellsMm: smallestDetectableChangeMm(then.sigmaMm, now.sigmaMm),
    ...(tool ? { tool } : {}),
    ...(tool === then.look.found.tool ? {} : { mixedTools: true }),
  };
}
