import { publishedPrior } from '../growth/growth-of-animal.js';
import type { LesionGrowth } from '../growth/animal-growth.js';
import { terminal } from '../problem/message.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { wordsOf, type Words } from '../reference/words.js';
import type { CommonOptions, ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { farmRun } from '../run/farm-run.js';
import type { CaseWork } from '../schedule/case-work.js';
import { caseEntries } from '../schedule/reading-to-take.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { learnedSentence } from '../words/compose-pooled.js';
import { outSentence } from '../words/compose-regrowth.js';
import { caseChip, nameOf, standingChip } from '../words/compose-standing.js';
import { dayInWords } from '../words/day-and-place.js';

/** Where a cow's growth is held to start from: what all cows on file have taught, or published rates alone. */
export type PriorFrom = 'archive' | 'published';

/** Prints one entry for each wall gap that has a reading, sorted by farm, animal and lesion. */
export async function forecast(
  options: CommonOptions & { prior: PriorFrom },
  effects: Effects,
): Promise<ExitCode> {
  const run = farmRun(options, effects);
  const { today, known, pooled } = run;
  const priors = options.prior === 'archive' ? known.priors : { priorOf: () => publishedPrior };
  const farms = await run.each((farm) =>
    workOutFarm(farm, { ...known, priors }).map((work) => ({ farm, work })),
  );
  const cases = farms.flat();
  if (options.json === true)
    return run.end(cases.flatMap(({ farm, work }) => caseEntries(farm, work, today)));
  const words = wordsOf('en-GB');
  const lines = cases.flatMap(({ farm, work }) => forecastInWords(words, farm, work, today));
  run.say(
    lines.length > 0
      ? `${lines.join('')}\n${terminal('forecast.basis')}`
      : terminal('forecast.none-measured'),
  );
  if (options.prior === 'archive') run.say(learnedSentence(words, pooled.priors.learned));
  return run.code();
}

/** The wall gaps of one animal that have a reading, two lines each: which and the latest reading, its status and its range. */
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
      const gap = nameOf(words, animal, line.lesion, line.code);
      const head = headOf(words, { farm: slug, animal: work.record.slug, lesion: line.lesion, gap }, line);
      const outlook = work.standing.closed
        ? `${caseChip(words, work.standing)}.`
        : outSentence(words, line, today);
      return `${head}\n  ${chip}${outlook}`.trimEnd() + '\n';
    });
}

function headOf(words: Words, gap: Readonly<Record<string, string>>, { readings }: LesionGrowth): string {
  const { date, topMm } = readings.at(-1)!;
  const day = dayInWords(words, date);
  return topMm === undefined
    ? terminal('forecast.gap-without-length', { ...gap, day })
    : terminal('forecast.gap', { ...gap, mm: topMm, day });
}
