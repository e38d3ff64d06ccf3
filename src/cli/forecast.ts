import type { ForecastEntry } from '../growth/forecast-entry.js';
import { publishedPrior } from '../growth/growth-of-animal.js';
import { priorsFor } from '../growth/learning/priors-for.js';
import { caseEntries } from '../schedule/case-entries.js';
import { workOutCase } from '../schedule/work-out-case.js';
import { learnedSentence } from '../words/compose-archive.js';
import { wordsOf } from '../words/words.js';
import type { CommonOptions } from './common-options.js';
import type { Effects } from './effects.js';
import type { ExitCode } from './exit-code.js';
import { exitFor, listProblems, readCases } from './read-cases.js';

/** Where a cow's growth is held to start from: what all cows on file have taught, or published rates alone. */
export type PriorFrom = 'archive' | 'published';

/** Prints one entry for each wall gap that has a reading, sorted by farm, animal and lesion. */
export function forecast(options: CommonOptions & { prior: PriorFrom }, effects: Effects): ExitCode {
  const { practice, farms, problems, today, filesRead } = readCases(options, effects);
  const { business } = practice;
  const archive = options.prior === 'archive' ? priorsFor(practice, today) : undefined;
  const entries = farms.flatMap((farm) =>
    farm.cases.flatMap((record) => {
      const prior = archive?.priorOf(farm.slug, record.slug) ?? publishedPrior;
      return caseEntries(farm, workOutCase(farm, record, { business, today, prior }), today);
    }),
  );
  listProblems(
    problems.filter((p) => p.severity === 'error'),
    filesRead,
    effects,
  );
  if (options.json === true) effects.print(`${JSON.stringify(entries, null, 2)}\n`);
  else {
    effects.print(inLines(entries));
    if (archive) effects.print(`${learnedSentence(wordsOf('en-GB'), archive.learned)}\n`);
  }
  return exitFor(problems);
}

/** One line a gap: where, the latest reading, and the range or why there is none. */
function inLines(entries: readonly ForecastEntry[]): string {
  if (entries.length === 0)
    return 'No wall gap has a reading: a length from the coronet to the top of the gap gives a date.\n';
  const rows = entries.map((entry) => {
    const last = entry.readings.at(-1)!;
    const top = last.topMm === undefined ? 'no length' : `${last.topMm} mm`;
    return [
      `${entry.farm}/${entry.animal}`,
      `${entry.lesion} (${entry.line})`,
      `${last.date}  ${top}`,
      last.kind,
      outlook(entry),
    ];
  });
  const widths = [0, 1, 2, 3].map((column) => Math.max(...rows.map((row) => row[column]!.length)));
  const lines = rows.map((row) =>
    row
      .map((cell, column) => cell.padEnd(widths[column] ?? 0))
      .join('  ')
      .trimEnd(),
  );
  return `${lines.join('\n')}\nAn estimate from averages and these readings; not a diagnosis. Range: eight times in ten.\n`;
}

function outlook({ why, out, ifSoundHornFollows, ifRanUp }: ForecastEntry): string {
  if (why !== undefined)
    return `no date: ${why}${ifRanUp === undefined ? '' : `; if she has run up, out ${range(ifRanUp.out)}`}`;
  if (out === undefined) return 'no date';
  if (ifSoundHornFollows === true) return `if sound horn follows, out ${range({ ...out, best: null })}`;
  return `out ${range(out)}`;
}

function range(out: NonNullable<ForecastEntry['out']>): string {
  const span = `${out.early ?? 'not within five years'} to ${out.late ?? 'beyond five years'}`;
  return out.best === null ? span : `${span}, about ${out.best}`;
}
