import type { JudgedReading, LesionGrowth, ReadingKind } from '../growth/animal-growth.js';
import { healingNumbers } from '../reference/healing-numbers.js';
import type { Look } from './looks-at-lesion.js';
import { smallestDetectableChangeMm } from './smallest-detectable-change.js';
import type { StandingEvidence, StandingWord } from './standing.js';
import { given } from '../record/given.js';

/** A standing as one lesion's family works it out. */
export interface Told {
  readonly standing: StandingWord;
  readonly evidence: StandingEvidence;
}

const byKind: Partial<Record<ReadingKind, StandingWord>> = {
  'ran-up': 'ran-up',
  held: 'held',
  doubtful: 'doubtful',
  'opened-further': 'opened-further',
  'not-reached': 'not-reached',
  'lower-than-growth': 'lower-than-growth',
};

/**
 * How a gap in the wall stands: what its last reading was taken for, read in the order of precedence.
 *
 * Why this way: the last reading decides. A gap that ran up in March and has come down since is growing down;
 * what it cost stays in its readings. Where the last look took no length, the last reading still stands, and
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
  const besides = (other: JudgedReading | undefined): StandingEvidence => ({
    ...evidenceOf(reading, other),
    ...covered,
  });
  const evidence = besides(before);
  const { asked } = growth;
  if (asked !== undefined) return { standing: 'doubtful', evidence: { ...evidence, asked } };
  if (growth.stillAtCoronet) return { standing: 'still-at-coronet', evidence };
  const { forecast, heldNow, spreading } = growth;
  const sums = forecast.outcome === 'range' ? forecast : forecast.sums;
  const fromCoronet = sums?.ifSoundHornFollows === true;
  if (reading.topMm === 0 || fromCoronet) return { standing: 'at-coronet', evidence };
  if (reading.kind === 'ran-up') return { standing: 'ran-up', evidence };
  if (heldNow?.sure || reading.kind === 'held')
    return {
      standing: 'held',
      evidence: { ...evidence, since: heldNow?.since ?? evidence.since ?? reading.date },
    };
  if (heldNow)
    return { standing: 'doubtful', evidence: { ...evidence, since: heldNow.since, mayBeHeld: true } };
  if (reading.kind === 'doubtful') return { standing: 'doubtful', evidence };
  if (spreading)
    return {
      standing: 'spreading',
      evidence: {
        date: reading.date,
        since: spreading.since,
        thenMm: spreading.fromMm,
        nowMm: spreading.toMm,
      },
    };
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
  return {
    date: reading.date,
    ...given({ nowMm: reading.topMm }),
    ...(reading.tool ? { tool: reading.tool } : {}),
    ...(before?.topMm === undefined
      ? {}
      : {
          since: before.date,
          thenMm: before.topMm,
          ...(before.tool === reading.tool ? {} : { mixedTools: true }),
        }),
    ...(reading.expectedMm === undefined
      ? {}
      : { expectedLowMm: reading.expectedMm - half, expectedHighMm: reading.expectedMm + half }),
    ...given({ ranUpMm: reading.ranUpMm, lostMonths: reading.lostMonths }),
  };
}

/**
 * Grew: told as growing down only where two readings can tell the change apart.
 *
 * Why this way: the change is that since the present clock began, since several small steps may show together what
 * none shows alone. Where the last step shows too, it is told first and the whole way beside it.
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
    changeMm: (reading.topMm ?? 0) - (other.topMm ?? 0),
    tellsMm: smallestDetectableChangeMm(reading.sigmaMm ?? 0, other.sigmaMm ?? 0),
  });
  const [whole, step] = [since(start), since(before)];
  const isChanged = whole.changeMm >= whole.tellsMm;
  if (isChanged && start.date < before.date && step.changeMm >= step.tellsMm) {
    const { changeMm } = whole;
    const told = { date: start.date, changeMm, after: clockAfter(start) };
    return {
      standing: 'growing-down',
      evidence: { ...evidence(before), tellsMm: step.tellsMm, start: told },
    };
  }
  return {
    standing: isChanged ? 'growing-down' : 'no-change-shown',
    evidence: { ...evidence(start), tellsMm: whole.tellsMm },
  };
}

/** What made the present clock begin, as far as it is worth telling. */
function clockAfter({ kind, topMm }: JudgedReading): NonNullable<StandingEvidence['start']>['after'] {
  if (kind === 'ran-up' || kind === 'opened-further') return kind;
  if (topMm === 0) return 'at-coronet';
  return kind === 'first' ? 'first' : 'another';
}
