import { z } from 'zod';
import type archive from '../../shared/archive.json';
import { readShared } from './read-shared.js';

const share = z.number().min(0).max(1);

/** How often the day a gap grew out fell inside the 80 % range given after a reading. Shares 0 to 1. */
const coverage = z.strictObject({
  /** Cows with the gap still in the wall at this reading, and ranges given. */
  cows: z.int(),
  ranges: z.int(),
  covered: share,
  /** The range had ended before the day; the range had not begun. */
  tooEarly: share,
  tooLate: share,
  /** No range given, and why: shares of the cows. */
  doubtful: share,
  held: share,
  /** Told that no change is shown: share of the cows. */
  noChange: share,
});

/** What sound readings, from the second on, were taken for. */
const cries = z.strictObject({
  readings: z.int(),
  ranUpOrHeld: share,
  heldOverWeeks: share,
  doubtful: share,
});

const tool = z.enum(['calliper', 'ruler', 'photo', 'eye']);
const byReadings = z.array(coverage).readonly();

export type StudyCoverage = Readonly<z.infer<typeof coverage>>;
export type StudyCries = Readonly<z.infer<typeof cries>>;

const studyTable = z.strictObject({
  about: z.string(),
  command: z.string(),
  generator: z.string(),
  /** Coverage of the first row's first cows, by which a test shows whether the results are still the code's. */
  proof: byReadings,
  seed: z.int(),
  cows: z.int(),
  /** Sound cows as the model takes them, by tool and weeks between readings; coverage after 1 to 5 readings. */
  sound: z.array(z.strictObject({ tool, weeks: z.int(), byReadings, cries })).readonly(),
  /** Trouble after three sound readings: share raised by the first reading after it, the second, and so on. */
  troubled: z.array(
    z.strictObject({
      what: z.enum(['ran up 8 mm', 'ran up 12 mm', 'ran up 16 mm', 'held', 'held, said outright']),
      tool,
      weeks: z.int(),
      cows: z.int(),
      raisedBy: z.array(share).readonly(),
      readingsTaken: z.number(),
    }),
  ),
  /** Read by ruler. */
  unlike: z.array(
    z.strictObject({
      what: z.enum([
        'as the model takes them',
        'growth 30 % slower',
        'growth 30 % slower, 200 such cows on file',
        'every top read 5 mm too far down',
        'every top read 5 mm too far up',
        'growth three times as uneven',
        'growth twice as uneven',
        'growth 25 % slower',
        'growth 25 % slower, 20 such cows on file',
        'every top read 3 mm too far down',
        'every top read 3 mm too far up',
        'season of 25 %',
        'wall read beside the gap, 4 mm longer give or take 3',
        'wall not measured',
        'wall guessed, off by 10 mm, and written as measured',
        'near the coronet, dorsal: none out while read',
      ]),
      weeks: z.int(),
      byReadings,
      cries,
    }),
  ),
});
export type StudyResults = z.infer<typeof studyTable>;

/** What the model of growth did on cows drawn at random; `shared/study.json`, written by the study itself. */
export function studyResults(): StudyResults {
  return readShared('study.json', studyTable);
}

/**
 * What an archive needs besides the records: how long cases are kept, keys left out without contacts, what stands for a farm an
 * animal came from, endings of films, the text for a stranger. Its shape is the file's own.
 */
export const archiveText = readShared('archive.json', z.custom<typeof archive>());
