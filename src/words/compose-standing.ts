import type { CaseStanding, LesionStanding, StandingEvidence } from '../healing/standing.js';
import type { Animal } from '../record/animal.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { type LesionCode, claws, feet } from '../record/words.js';
import { fixedDays } from '../reference/intervals.js';
import { dayInWords, lesionInWords, placeInWords, mm, paragraph } from './day-and-place.js';
import { type Values, type Words, told } from '../reference/words.js';
import { familyOf } from '../reference/lesions.js';
import { given } from '../record/given.js';

/**
 * Which sentence a standing takes, under `standing.sentence`: the same word reads differently of a wall, an ulcer
 * and the skin, and with or without a length.
 */
function standingVariant({ code, standing, evidence }: LesionStanding): string {
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
      return `covered.${wall ? 'wall' : hole ? 'ulcer' : 'other'}`;
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

/** A standing in two or three words. @example standingChip(wordsOf('en-GB'), { standing: 'held', evidence: {} }) // → 'Not growing down' */
export function standingChip(
  words: Words,
  { standing, evidence }: Pick<LesionStanding, 'standing' | 'evidence'>,
): string {
  return words.say(`standing.chip.${evidence.mayBeHeld ? 'may-be-held' : standing}`);
}

/** The status of an animal, in two or three words: her leading lesion, or how the case ended. */
export function caseChip(words: Words, { closed, leading }: CaseStanding): string {
  if (!closed) return leading ? standingChip(words, leading) : words.say('standing.chip.none');
  const key = `vocabulary.result.${closed.result}`;
  return words.has(key)
    ? words.say('standing.chip.closed', { result: words.say(key) })
    : words.say('standing.chip.closed-no-result');
}

/**
 * The status of one lesion, in one to three plain sentences; the place is not repeated in them.
 *
 * Each says what was read, on which day, and what it can and cannot tell; none says more. Whether there is a date
 * is said apart, by the forecast.
 *
 * Checked: tests/words/situations.test.ts
 */
export function lesionSentence(words: Words, animal: Animal, lesion: LesionStanding): string {
  const values = valuesOf(words, animal, lesion);
  const { standing, evidence } = lesion;
  return paragraph(
    words.say(`standing.sentence.${standingVariant(lesion)}`, values),
    evidence.start && words.say(`standing.since-start.${evidence.start.after}`, values),
    evidence.covered && standing !== 'covered' ? words.say('standing.covered-too') : undefined,
    ...dermatitisHistory(words, lesion),
  );
}

/** What fills a lesion's sentences, long and short. */
export function valuesOf(words: Words, animal: Animal, { evidence }: LesionStanding): Values {
  const { date, since, thenMm, nowMm, expectedLowMm, expectedHighMm, start, tellsMm, ranUpMm } = evidence;
  const day = (of: CalendarDay | undefined) => of && dayInWords(words, of);
  const length = (of: number | undefined) => (of === undefined ? undefined : mm(of));
  const isCompared = thenMm !== undefined && nowMm !== undefined;
  const atLeast0 = (of: number) => Math.max(0, Math.round(of));
  return given({
    day: day(date),
    by: day(date && addDays(date, fixedDays('measure-again'))),
    since: day(since),
    was: length(thenMm),
    now: length(nowMm),
    change: isCompared ? mm(Math.abs(nowMm - thenMm)) : undefined,
    ...(expectedLowMm !== undefined &&
      expectedHighMm !== undefined && {
        low: atLeast0(expectedLowMm),
        high: Math.round(expectedHighMm),
        lowChange: atLeast0(expectedLowMm - (thenMm ?? 0)),
        highChange: atLeast0(expectedHighMm - (thenMm ?? 0)),
      }),
    start: day(start?.date),
    total: length(start?.changeMm),
    tells: tellsMm === undefined ? undefined : tells(words, evidence, tellsMm),
    ...(ranUpMm !== undefined && {
      up: Math.round(ranUpMm),
      lost: lost(words, evidence.lostMonths ?? 0),
    }),
    asked: evidence.asked,
    stage: evidence.stage && words.say(`vocabulary.stage.${evidence.stage}`),
    other: evidence.joinedTo && nameOf(words, animal, evidence.joinedTo),
  }) as Values;
}

/** A lesion by name and place. @example nameOf(words, { lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer' } } }, 'a') // → 'white line disease (WL), left hind, outer claw' */
export function nameOf(words: Words, animal: Animal, lesion: string, code?: LesionCode): string {
  const declared = animal.lesions[lesion];
  if (!declared) return lesion;
  return words.say('vocabulary.lesion-at', {
    lesion: lesionInWords(words, code ?? declared.code),
    place: placeInWords(words, declared.foot, declared.claw),
  });
}

function tells(words: Words, { tool, mixedTools }: StandingEvidence, tellsMm: number): string {
  const key = mixedTools ? 'mixed' : (tool ?? 'any');
  return words.say(`standing.tells.${key}`, { tells: Math.ceil(tellsMm) });
}

function lost(words: Words, months: number): string {
  const whole = Math.round(months);
  return whole < 1 ? words.say('standing.lost.weeks') : words.say('standing.lost', { count: whole });
}

function dermatitisHistory(words: Words, { standing, evidence }: LesionStanding): string[] {
  const { activeLooks, returns = 0 } = evidence;
  const said = standing === 'came-back' ? 1 : 0;
  const days = fixedDays('dermatitis-look');
  return [
    ...(activeLooks && activeLooks.looks > 1 ? [words.say('standing.looks', { ...activeLooks, days })] : []),
    ...(returns > said ? [words.say('standing.returns', { count: returns })] : []),
  ];
}

/** Whether a lesion still is in the way: not healed and not followed under another name. */
export function isOpenStanding({ standing }: LesionStanding): boolean {
  return standing !== 'healed' && standing !== 'joined';
}

/** Values that are always days. */
const days = new Set(['day', 'since', 'raised', 'last', 'clear', 'from', 'asked', 'seen']);

/** Values printed as somebody wrote them. */
const asWritten = new Set(['product', 'reason']);

/**
 * Turns what the schedule worked out into the values of a sentence: days with the month in letters, and the place
 * it is about (`place`) from lesion, foot and claw.
 */
export function valuesInWords(words: Words, animal: Animal, values: Values): Values {
  const { lesion, foot: footWritten, claw: clawWritten } = values;
  const foot = feet.find((name) => name === footWritten);
  const claw = claws.find((name) => name === clawWritten);
  const place =
    typeof lesion === 'string' && animal.lesions[lesion]
      ? nameOf(words, animal, lesion)
      : foot && placeInWords(words, foot, claw);
  const worded = Object.entries(values).map(([key, value]): [string, string | number] => {
    if (typeof value === 'number') return [key, mm(value)];
    if (days.has(key) && value !== '') return [key, dayInWords(words, value)];
    return [key, asWritten.has(key) ? told(value) : value];
  });
  return { ...Object.fromEntries(worded), ...(place ? { place } : {}) };
}
