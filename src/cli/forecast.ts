import { publishedPrior } from '../growth/growth-of-animal.js';
import { archiveOn } from '../herd/archive-on.js';
import { caseEntries } from '../schedule/reading-to-take.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { learnedSentence } from '../words/compose-archive.js';
import { wordsOf, type Words } from '../reference/words.js';
import type { CommonOptions, ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { exitFor, listErrors, readCases } from '../run/read-cases.js';
import type { LesionGrowth } from '../growth/animal-growth.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import { outSentence } from '../words/compose-regrowth.js';
import { caseChip, nameOf, standingChip } from '../words/compose-standing.js';
import { dayInWords } from '../words/number-in-words.js';

/** Where a cow's growth is held to start from: what all cows on file have taught, or published rates alone. */
export type PriorFrom = 'archive' | 'published';

const basis =
  'Each range: eight times in ten. An estimate from averages and these readings; not a diagnosis.';
const nothingMeasured =
  'No wall gap has a reading: a length from the coronet to the top of the gap gives a date.';

/** Prints one entry for each wall gap that has a reading, sorted by farm, animal and lesion. */
export function forecast(options: CommonOptions & { prior: PriorFrom }, effects: Effects): ExitCode {
  const reading = readCases(options, effects);
  const { practice, farms, problems, today } = reading;
  const { business } = practice;
  const archive = options.prior === 'archive' ? archiveOn(practice, today).priors : undefined;
  const priors = archive ?? { priorOf: () => publishedPrior };
  const cases = farms.flatMap((farm) =>
    workOutFarm(farm, { business, today, priors }).map((work) => ({ farm, work })),
  );
  listErrors(reading, effects);
  if (options.json === true) {
    const entries = cases.flatMap(({ farm, work }) => caseEntries(farm, work, today));
    effects.print(`${JSON.stringify(entries, null, 2)}\n`);
    return exitFor(problems);
  }
  const words = wordsOf('en-GB');
  const lines = cases.flatMap(({ farm, work }) => forecastInWords(words, farm, work, today));
  effects.print(lines.length > 0 ? `${lines.join('')}\n${basis}\n` : `${nothingMeasured}\n`);
  if (archive) effects.print(`${learnedSentence(words, archive.learned)}\n`);
  return exitFor(problems);
}

/** The wall gaps of one animal that have a reading, two lines each: which and the latest reading, how it stands and its range. */
export function forecastInWords(
  words: Words,
  { slug }: FarmRecord,
  work: CaseWork,
  today: CalendarDay,
): string[] {
  const { animal } = work.record;
  return work.growth.lesions
    .filter(({ readings }) => readings.length > 0)
    .toSorted((a, b) => (a.lesion < b.lesion ? -1 : 1))
    .map((line) => {
      const stands = work.standing.lesions.find(({ lesion }) => lesion === line.lesion);
      const chip = stands === undefined ? '' : `${standingChip(words, stands)}. `;
      const head = `${slug}/${work.record.slug} ${line.lesion}: ${nameOf(words, animal, line.lesion, line.code)}`;
      const outlook = work.standing.closed
        ? `${caseChip(words, work.standing)}.`
        : outSentence(words, line, today);
      return `${head}; ${latest(words, line)}\n  ${chip}${outlook}`.trimEnd() + '\n';
    });
}

function latest(words: Words, { readings }: LesionGrowth): string {
  const last = readings.at(-1)!;
  const read = last.topMm === undefined ? 'no length' : `top ${last.topMm} mm`;
  return `${read} on ${dayInWords(words, last.date)}`;
}
