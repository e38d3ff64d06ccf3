import { largest, smallest } from '../statistics/extremes.js';
import type { StudyResults } from '../reference/study-results.js';
import { thousands } from './number-in-words.js';
import { percent } from './percent.js';
import type { Words } from './words.js';

/**
 * How far the dates can be trusted, from the study on cows drawn by chance: how often the range held, how often a run-up is
 * raised and a sound reading cried, and what spoils a date most. Every number is the study's own.
 *
 * Checked: tests/words/archive-sentences.test.ts
 */
export function studySentences(words: Words, study: StudyResults): string[] {
  const covered = study.sound
    .filter(({ tool }) => tool !== 'eye')
    .flatMap(({ byReadings }) => byReadings.map((one) => one.covered));
  const worst = study.unlike.toSorted((a, b) => lastCovered(a) - lastCovered(b))[0];
  const sound = study.sound.find(isUsual);
  return [
    words.say('study.covered', {
      cows: thousands(study.cows),
      low: percent(smallest(covered)),
      high: percent(largest(covered)),
    }),
    words.say('study.raised', {
      mm: raisedMm,
      ruler: percent(raisedAtOnce(study, 'ruler')),
      eye: percent(raisedAtOnce(study, 'eye')),
      cried: percent((sound?.cries.ranUpOrHeld ?? 0) + (sound?.cries.heldOverWeeks ?? 0)),
    }),
    ...(worst
      ? [
          words.say('study.worst', {
            what: words.say(`study.unlike.${worst.what}`),
            share: percent(lastCovered(worst)),
            count: worst.byReadings.length,
          }),
        ]
      : []),
  ];
}

/** What is said of the usual visit: by ruler, four weeks apart, a run-up of 12 mm. */
const raisedMm = 12;

function isUsual(row: { readonly tool: string; readonly weeks: number }): boolean {
  return row.tool === 'ruler' && row.weeks === 4;
}

function raisedAtOnce(study: StudyResults, tool: 'ruler' | 'eye'): number {
  const row = study.troubled.find(
    (one) => one.what === `ran up ${raisedMm} mm` && one.tool === tool && one.weeks === 4,
  );
  return row?.raisedBy[0] ?? 0;
}

function lastCovered({ byReadings }: StudyResults['unlike'][number]): number {
  return byReadings.at(-1)?.covered ?? 1;
}
