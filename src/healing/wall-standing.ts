import type { JudgedReading, LesionGrowth, ReadingKind } from '../growth/animal-growth.js';
import { healingNumbers } from '../reference/numbers.js';
import { type Look, smallestDetectableChangeMm } from './looks-at-lesion.js';
import type { StandingEvidence, StandingWord } from './standing.js';
import { given } from '../record/given.js';
import { readingError } from '../reference/growth-numbers.js';

/** A standing as one lesion's family works it out. */
export type Told = Readonly<{ standing: StandingWord; evidence: StandingEvidence }>;

const byKind: Partial<Record<ReadingKind, StandingWord>> = {
  'ran-up': 'ran-up',
  held: 'held',
  doubtful: 'doubtful',
  'opened-further': 'opened-further',
  'not-reached': 'not-reached',
  'lower-than-growth': 'lower-than-growth',
};

/**
 * The status of a gap in the wall: what its last reading was taken for, read in the order of precedence.
 *
 * Why this way: the last reading decides. A gap that ran up in March and has come down since is growing down;
 * what it cost stays in its readings. Where the last look took no length, the last reading still counts, and
 * its date says how old it is.
 *
 * Shape:   looks (oldest first, at least one) and the line's growth → standing
 * Unit:    mm below the coronet
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function wallStanding(looks: readonly Look[], growth: LesionGrowth | undefined): Told {
  const state = looks.findLast(({ found }) => found.state)?.found.state;
  const lastLook = looks.at(-1);
  const covered = state === 'covered' ? { covered: true } : {};
  const reading = growth?.readings.at(-1);
  const said = unmeasuredRunUp(looks, reading);
  if (said) return { standing: 'ran-up', evidence: { date: said.date, ...covered } };
  if (!growth || !reading) {
    const date = lastLook ? { date: lastLook.date } : {};
    return { standing: state === 'covered' ? 'covered' : 'not-measured', evidence: { ...date, ...covered } };
  }
  const before = growth.readings.slice(0, -1).findLast(({ topMm, kind }) => isLength(topMm, kind));
  const besides = (other?: JudgedReading) => ({ ...evidenceOf(reading, other), ...covered });
  const evidence = besides(before);
  const { asked } = growth;
  if (asked !== undefined) return { standing: 'doubtful', evidence: { ...evidence, asked } };
  if (growth.stillAtCoronet) return { standing: 'still-at-coronet', evidence };
  const { forecast, heldNow, spreading } = growth;
  const sums = forecast.outcome === 'range' ? forecast : forecast.sums;
  const fromCoronet = sums?.ifSoundHornFollows === true;
  if (reading.topMm === 0 || fromCoronet) return { standing: 'at-coronet', evidence };
  if (reading.kind === 'ran-up') return { standing: 'ran-up', evidence };
  const since = heldNow?.since ?? evidence.since ?? reading.date;
  if (heldNow?.sure || reading.kind === 'held') return { standing: 'held', evidence: { ...evidence, since } };
  if (heldNow) return { standing: 'doubtful', evidence: { ...evidence, since, mayBeHeld: true } };
  if (reading.kind === 'doubtful') return { standing: 'doubtful', evidence };
  if (spreading) {
    const { since: from, fromMm, toMm } = spreading;
    return {
      standing: 'spreading',
      evidence: { date: reading.date, since: from, thenMm: fromMm, nowMm: toMm },
    };
  }
  const word = byKind[reading.kind];
  if (word) return { standing: word, evidence };
  if (!before || reading.kind === 'first')
    return { standing: state === 'covered' ? 'covered' : 'open', evidence };
  return changed(growth, reading, before, besides);
}

/** She is said to have run up at a later look than the last reading: no length, and no date until there is one. */
function unmeasuredRunUp(looks: readonly Look[], reading: JudgedReading | undefined): Look | undefined {
  return looks.findLast(
    ({ found, date }) =>
      found['ran-up'] && found.top === undefined && (reading === undefined || date > reading.date),
  );
}

function isLength(topMm: number | undefined, kind: ReadingKind): topMm is number {
  return topMm !== undefined && kind !== 'not-reached';
}

function evidenceOf(reading: JudgedReading, before: JudgedReading | undefined): StandingEvidence {
  const half = healingNumbers.rangeSds.value * (reading.sdMm ?? 0);
  const { date, topMm: nowMm, tool, expectedMm: mm, ranUpMm, lostMonths } = reading;
  return {
    date,
    ...given({ nowMm, tool }),
    ...(before?.topMm === undefined ? {} : { since: before.date, thenMm: before.topMm }),
    ...(before?.topMm === undefined || before.tool === tool ? {} : { mixedTools: true }),
    ...(mm === undefined ? {} : { expectedLowMm: mm - half, expectedHighMm: mm + half }),
    ...given({ ranUpMm, lostMonths }),
  };
}

/**
 * Grew: told as growing down only where two readings can show the change.
 *
 * Why this way: the change is that since the present clock began, since several small steps may show together what
 * none shows alone. Where the last step shows too, it comes first, with the whole change beside it.
 */
function changed(
  growth: LesionGrowth,
  reading: JudgedReading,
  before: JudgedReading,
  evidence: (comparedWith: JudgedReading) => StandingEvidence,
): Told {
  const start =
    growth.readings.findLast(
      ({ kind, unused, topMm }) => kind !== 'grew' && kind !== 'doubtful' && !unused && isLength(topMm, kind),
    ) ?? before;
  const since = (other: JudgedReading) => ({
    changeMm: reading.topMm! - other.topMm!,
    tellsMm: smallestDetectableChangeMm(reading.sigmaMm!, other.sigmaMm!),
  });
  const [whole, step] = [since(start), since(before)];
  const isChanged = whole.changeMm >= whole.tellsMm;
  const standing = isChanged ? 'growing-down' : 'no-change-shown';
  if (!isChanged || start.date >= before.date || step.changeMm < step.tellsMm)
    return { standing, evidence: { ...evidence(start), tellsMm: whole.tellsMm } };
  const told = { date: start.date, changeMm: whole.changeMm, after: clockAfter(start) };
  return { standing, evidence: { ...evidence(before), tellsMm: step.tellsMm, start: told } };
}

/** What made the present clock begin, as far as it is worth telling. */
function clockAfter({ kind, topMm }: JudgedReading): NonNullable<StandingEvidence['start']>['after'] {
  if (kind === 'ran-up' || kind === 'opened-further') return kind;
  if (topMm === 0) return 'at-coronet';
  return kind === 'first' ? 'first' : 'another';
}

type Width = Readonly<{ look: Look; mm: number; sigmaMm: number }>;

/**
 * How a hole in the horn stands by its widths and what reading error can explain them; no date. Of a double sole, for
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
  const measured = now ? { nowMm: now.mm, ...given({ tool: now.look.found.tool }) } : {};
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
    ...given({ tool }),
    ...(tool === then.look.found.tool ? {} : { mixedTools: true }),
  };
}
