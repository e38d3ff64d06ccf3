import type { ForecastEntry } from '../growth/forecast-entry.js';
import { forecastEntries } from '../growth/forecast-entry.js';
import { growingConditions } from '../growth/growing-conditions.js';
import { growthOfAnimal, publishedPrior } from '../growth/growth-of-animal.js';
import { plannedVisit } from '../growth/planned-visit.js';
import type { CommonOptions } from './common-options.js';
import type { Effects } from './effects.js';
import type { ExitCode } from './exit-code.js';
import { exitFor, listProblems, readCases } from './read-cases.js';

/** Prints one entry for each wall gap that has a reading, sorted by farm, animal and lesion. */
export function forecast(options: CommonOptions, effects: Effects): ExitCode {
  const { practice, problems, today, filesRead } = readCases(options, effects);
  const entries = practice.farms.flatMap((farm) => {
    const conditions = growingConditions(farm.farm);
    return farm.cases.flatMap(({ slug, animal }) =>
      forecastEntries(
        { farm: farm.slug, slug, animal, nextVisit: plannedVisit(animal, farm.farm, today) },
        growthOfAnimal(animal, conditions, { today, prior: publishedPrior }),
      ),
    );
  });
  listProblems(
    problems.filter((p) => p.severity === 'error'),
    filesRead,
    effects,
  );
  effects.print(options.json === true ? `${JSON.stringify(entries, null, 2)}\n` : inLines(entries));
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
