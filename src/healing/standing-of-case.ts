import type { AnimalGrowth } from '../growth/animal-growth.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { episodesOf } from './episode.js';
import { gaitStanding } from './gait-standing.js';
import {
  standingOrder,
  type CaseStanding,
  type LesionStanding,
  type StandingEvidence,
  type StandingWord,
} from './standing.js';
import type { Animal } from '../record/animal.js';
import { codeOn } from '../record/code-of-lesion.js';
import type { Lesion } from '../record/lesion.js';
import { familyOf } from '../reference/lesions.js';
import { closingsOf } from './closing/closing-of-ulcer.js';
import type { UlcerClosing, ClosingKind, ClosingReading } from './closing/ulcer-closing.js';
import { looksAt, type Look, isActive, smallestDetectableChangeMm } from './looks-at-lesion.js';
import { wallStanding, type Told, holeStanding } from './wall-standing.js';
import { fixedDays } from '../reference/intervals.js';
import { healingNumbers } from '../reference/numbers.js';
import { given } from '../record/given.js';

const byKind: Partial<Record<ClosingKind, StandingWord>> = {
  'opening-up': 'opening-up',
  held: 'held',
  doubtful: 'doubtful',
  'opened-further': 'opened-further',
  'smaller-than-closing': 'lower-than-growth',
};

/**
 * The status of an ulcer: what its last width was taken for, read in the order of precedence.
 *
 * As with a gap in the wall the last reading decides, and closing is said only of a width that reading error can tell
 * from the first of the present clock. A double sole, and an ulcer that has no width to follow, go by
 * reading error alone.
 *
 * Shape:   looks, oldest first, the last with a state being open or covered; its widths as they were judged → standing
 * Unit:    mm
 * Checked: tests/healing/standing-of-case.test.ts
 */
function ulcerStanding(looks: readonly Look[], closing: UlcerClosing | undefined): Told {
  const state = looks.findLast(({ found }) => found.state)?.found.state;
  const now = closing?.readings.at(-1);
  const cameBack = closing?.cameBack.at(-1);
  if (state === 'covered' || now === undefined || (cameBack !== undefined && now.date < cameBack))
    return holeStanding(looks);
  const before = closing?.readings.at(-2);
  if (now.kind === 'came-back') {
    const since = closing?.closed.at(-1)?.by;
    return { standing: 'came-back', evidence: { ...alone(now), ...given({ since }) } };
  }
  if (now.kind === 'first' || before === undefined) return { standing: 'open', evidence: alone(now) };
  const word = byKind[now.kind];
  if (word) return { standing: word, evidence: between(before, now) };
  const start =
    closing?.readings.findLast(
      ({ kind, unused }) => kind !== 'as-expected' && kind !== 'doubtful' && !unused,
    ) ?? before;
  const tellsMm = smallestDetectableChangeMm(start.sigmaMm, now.sigmaMm);
  const change = start.widthMm - now.widthMm;
  const standing = change >= tellsMm ? 'closing' : change <= -tellsMm ? 'opening-up' : 'no-change-shown';
  return { standing, evidence: { ...between(start, now), tellsMm } };
}

function alone({ date, widthMm, tool, marginMmPerDay }: ClosingReading): StandingEvidence {
  return { date, nowMm: widthMm, ...given({ tool, marginMmPerDay }) };
}

function between(then: ClosingReading, now: ClosingReading): StandingEvidence {
  const half = healingNumbers.rangeSds.value * (now.sdMm ?? 0);
  const { expectedMm: mm } = now;
  return {
    ...alone(now),
    since: then.date,
    thenMm: then.widthMm,
    ...(then.tool === now.tool ? {} : { mixedTools: true }),
    ...(mm === undefined ? {} : { expectedLowMm: Math.max(0, mm - half), expectedHighMm: mm + half }),
  };
}

/**
 * The status of one lesion on a day: the first that holds in the order of precedence.
 *
 * What has ended is asked first, since a healed or joined lesion is nothing else any more. Then infection,
 * which holds from the visit that found it. Then each family by its own evidence.
 *
 * Checked: tests/healing/standing-of-case.test.ts
 */
function standingOfLesion(
  animal: Animal,
  name: string,
  lesion: Lesion,
  growth: AnimalGrowth,
  today: CalendarDay,
): LesionStanding {
  const upTo = animal.visits.findLastIndex(({ date }) => date <= today);
  const code = codeOn(name, lesion, animal.visits, upTo);
  const line = growth.lesions.find((one) => one.lesion === name);
  const closing = closingsOf(animal, today).find((one) => one.lesion === name);
  const { standing, evidence } = tell(looksAt(animal, name, today), code, lesion, line, closing);
  const againOf = lesion['again-of'];
  return { lesion: name, code, standing, evidence: { ...evidence, ...given({ againOf }) } };
}

function tell(
  looks: readonly Look[],
  code: LesionStanding['code'],
  lesion: Lesion,
  line: AnimalGrowth['lesions'][number] | undefined,
  closing: UlcerClosing | undefined,
): Told {
  const family = familyOf(code);
  const last = looks.findLast(({ found }) => found.state ?? found.stage ?? found.joined);
  const joined = looks.findLast(({ found }) => found.joined);
  const state = last?.found.state;
  const date = last ? { date: last.date } : {};
  const told = family === 'dermatitis' ? dermatitisStanding(looks) : undefined;
  if (!told && state === 'healed') return { standing: 'healed', evidence: date };
  if (told?.standing === 'healed') return told;
  if (joined?.found.joined)
    return { standing: 'joined', evidence: { date: joined.date, joinedTo: joined.found.joined } };
  // Infected from the visit that first said so; `infected: false` later takes it back.
  if (looks.findLast(({ found }) => found.infected !== undefined)?.found.infected) {
    const since = looks.find(({ found }) => found.infected)?.date;
    return { standing: 'infected', evidence: { ...date, infected: true, ...given({ since }) } };
  }
  if (told) return told;
  if (!last) return { standing: 'not-measured', evidence: {} };
  if (state === 'lasting') return { standing: 'lasting', evidence: date };
  const measured =
    family === 'wall'
      ? wallStanding(looks, line)
      : family === 'ulcer' || family === 'double sole'
        ? ulcerStanding(looks, closing)
        : {
            standing: state === 'open' || state === 'covered' ? state : ('present' as const),
            evidence: date,
          };
  const nothingToCompare = measured.standing === 'open' || measured.standing === 'not-measured';
  return lesion['again-of'] && nothingToCompare ? { ...measured, standing: 'came-back' } : measured;
}

/**
 * The status of digital dermatitis: by its last stage, with how often it was active at looks at least 28 days apart.
 *
 * Why this way: looks of one week are one flare seen twice; each look counts only when 28 days have passed since
 * the last one counted, and the last look is not counted twice. `came-back` is active at the first look after
 * one that found normal skin; a flare after M3 or M4 is a return too, and counted, but the place had not healed.
 *
 * Shape:   looks, oldest first → standing
 * Checked: tests/healing/standing-of-case.test.ts
 */
function dermatitisStanding(looks: readonly Look[]): Told {
  const staged = looks.flatMap(({ date, found }) => (found.stage ? [{ date, stage: found.stage }] : []));
  const last = staged.at(-1);
  if (!last) return { standing: 'not-measured', evidence: given({ date: looks.at(-1)?.date }) };
  const counted: typeof staged = [];
  for (const look of staged) {
    const before = counted.at(-1);
    if (!before || daysBetween(before.date, look.date) >= fixedDays('dermatitis-look')) counted.push(look);
  }
  const returns = staged.filter(({ stage }, at) => {
    const before = staged[at - 1];
    return before && isActive(stage) && !isActive(before.stage);
  }).length;
  const evidence = {
    date: last.date,
    stage: last.stage,
    activeLooks: { active: counted.filter(({ stage }) => isActive(stage)).length, looks: counted.length },
    returns,
  };
  if (last.stage === 'M0') return { standing: 'healed', evidence };
  if (!isActive(last.stage)) return { standing: 'quiet', evidence };
  const before = staged.at(-2);
  if (before?.stage === 'M0') return { standing: 'came-back', evidence: { ...evidence, since: before.date } };
  return { standing: 'active', evidence };
}

/**
 * The status of an animal on a day: every lesion by the order of precedence, how she walks, and whether the case
 * is closed.
 *
 * Shape:   case file, its farm, its growth solved for the same day → standing
 * Valid:   visits after the day are not looked at
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function standingOfCase(
  { animal }: CaseRecord,
  { farm }: FarmRecord,
  growth: AnimalGrowth,
  today: CalendarDay,
): CaseStanding {
  const lesions = Object.entries(animal.lesions).map(([name, lesion]) =>
    standingOfLesion(animal, name, lesion, growth, today),
  );
  // The first in the order of precedence; ended ones only where there is no other.
  const going = lesions.filter(({ standing }) => standing !== 'healed' && standing !== 'joined');
  const [leading] = (going.length > 0 ? going : lesions).toSorted(
    (a, b) => standingOrder.indexOf(a.standing) - standingOrder.indexOf(b.standing),
  );
  const episodes = episodesOf(animal, today);
  const episode = episodes.find(({ ended }) => ended === undefined) ?? episodes.at(-1) ?? { visits: [] };
  const { ended, result = 'not said' } = episode;
  return {
    lesions,
    ...given({ leading }),
    gait: gaitStanding(animal, farm, episode, today),
    episode,
    ...(ended ? { closed: { on: ended, result } } : {}),
  };
}
