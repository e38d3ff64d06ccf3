import { publishedPrior } from '../growth/growth-of-animal.js';
import { priorsFor } from '../growth/learning/priors-for.js';
import { caseEntries } from '../schedule/case-entries.js';
import { workOutFarm } from '../schedule/work-out-farm.js';
import { learnedSentence } from '../words/compose-archive.js';
import { wordsOf } from '../words/words.js';
import type { CommonOptions } from './common-options.js';
import type { Effects } from './effects.js';
import type { ExitCode } from './exit-code.js';
import { forecastInWords } from './forecast-in-words.js';
import { exitFor, listErrors, readCases } from './read-cases.js';

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
  const archive = options.prior === 'archive' ? priorsFor(practice, today) : undefined;
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
