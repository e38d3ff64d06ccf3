import type { CaseStanding, LesionStanding, StandingEvidence } from '../healing/standing.js';
import type { Animal } from '../record/animal.js';
import { addDays } from '../record/calendar-day.js';
import type { LesionCode } from '../record/words.js';
import { fixedDays } from '../reference/intervals.js';
import { dayInWords } from './day-in-words.js';
import { lesionInWords, placeInWords } from './lesion-in-words.js';
import { mm, paragraph } from './number-in-words.js';
import { standingVariant } from './standing-variant.js';
import type { Values, Words } from './words.js';

/** A standing in two or three words. @example standingChip(wordsOf('en-GB'), { standing: 'held', evidence: {} }) // → 'Held' */
export function standingChip(
  words: Words,
  { standing, evidence }: Pick<LesionStanding, 'standing' | 'evidence'>,
): string {
  return words.say(`standing.chip.${evidence.mayBeHeld ? 'may-be-held' : standing}`);
}

/** How an animal stands, in two or three words: her leading lesion, or how the case ended. */
export function caseChip(words: Words, { closed, leading }: CaseStanding): string {
  if (closed) {
    const key = `vocabulary.result.${closed.result}`;
    return words.has(key)
      ? words.say('standing.chip.closed', { result: words.say(key) })
      : words.say('standing.chip.closed-no-result');
  }
  return leading ? standingChip(words, leading) : words.say('standing.chip.none');
}

/**
 * How one lesion stands, in one to three plain sentences; the place is not repeated in them.
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
  const { date, since, thenMm, nowMm, expectedLowMm, expectedHighMm, start, tellsMm } = evidence;
  const day = date === undefined ? {} : { day: dayInWords(words, date) };
  const change = thenMm === undefined || nowMm === undefined ? undefined : Math.abs(nowMm - thenMm);
  return {
    ...day,
    ...(date === undefined ? {} : { by: dayInWords(words, addDays(date, fixedDays('measure-again'))) }),
    ...(since === undefined ? {} : { since: dayInWords(words, since) }),
    ...(thenMm === undefined ? {} : { was: mm(thenMm) }),
    ...(nowMm === undefined ? {} : { now: mm(nowMm) }),
    ...(change === undefined ? {} : { change: mm(change) }),
    ...(expectedLowMm === undefined || expectedHighMm === undefined
      ? {}
      : {
          low: Math.max(0, Math.round(expectedLowMm)),
          high: Math.round(expectedHighMm),
          lowChange: Math.max(0, Math.round(expectedLowMm - (thenMm ?? 0))),
          highChange: Math.max(0, Math.round(expectedHighMm - (thenMm ?? 0))),
        }),
    ...(start ? { start: dayInWords(words, start.date), total: mm(start.changeMm) } : {}),
    ...(tellsMm === undefined ? {} : { tells: tells(words, evidence, tellsMm) }),
    ...(evidence.ranUpMm === undefined
      ? {}
      : { up: Math.round(evidence.ranUpMm), lost: lost(words, evidence.lostMonths ?? 0) }),
    ...(evidence.asked === undefined ? {} : { asked: evidence.asked }),
    ...(evidence.stage ? { stage: words.say(`vocabulary.stage.${evidence.stage}`) } : {}),
    ...(evidence.joinedTo ? { other: nameOf(words, animal, evidence.joinedTo) } : {}),
  };
}

/** A lesion by name and place. @example nameOf(words, animal, 'a') // → 'white line disease (WL), left hind, outer claw' */
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

/** Whether a lesion still stands in the way: not healed and not followed under another name. */
export function isOpenStanding({ standing }: LesionStanding): boolean {
  return standing !== 'healed' && standing !== 'joined';
}
