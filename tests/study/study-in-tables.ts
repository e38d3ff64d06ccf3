import type { StudyResults } from '../../src/reference/study-results.js';

type Row = readonly (string | number)[];

/** The study as Markdown: shares in per cent; what misses its aim is marked. */
export function studyInTables(study: StudyResults): string {
  return [
    `${study.cows} simulated cows (${study.generator}, seed ${study.seed}).`,
    '**How often the 80 % range held the day the gap grew out**, %, after 1 to 5 readings (aim 77 to 83; * outside it). ' +
      'Doubtful and held have no range: their share of all five readings stands apart. By eye no day is told: there it is the sums.',
    table(
      ['tool', 'weeks apart', '1', '2', '3', '4', '5', 'doubtful', 'held'],
      study.sound.map(({ tool, weeks, byReadings }) => [tool, weeks, ...coverage(byReadings)]),
    ),
    '**Sound readings taken for something else**, % (aim: ran up or held at most 1; * above it). ' +
      'Held over weeks is the slow test: below −3 SD a gap is called held; from −2 to −3 it gets no date and is said to be perhaps held, which counts as doubtful here.',
    table(
      ['tool', 'weeks apart', 'ran up or held at once', 'held over weeks', 'both', 'doubtful'],
      study.sound.map(({ tool, weeks, cries }) => [
        tool,
        weeks,
        raised(cries.ranUpOrHeld),
        raised(cries.heldOverWeeks),
        raised(cries.ranUpOrHeld + cries.heldOverWeeks),
        per(cries.doubtful),
      ]),
    ),
    '**Sound cows of whom “no change shown” is said**, %, at the second reading to the fifth ' +
      '(aim: by ruler, four weeks apart, at most 10 at the fifth).',
    table(
      ['tool', 'weeks apart', '2', '3', '4', '5'],
      study.sound.map(({ tool, weeks, byReadings }) => [
        tool,
        weeks,
        ...byReadings.slice(1).map(({ noChange }) => per(noChange)),
      ]),
    ),
    '**Trouble after three sound readings: how often raised** (ran up, held or doubtful), %, by the first reading after it to the fifth ' +
      '(aim: 12 mm by ruler at four weeks, at least 90 by the first).',
    table(
      ['trouble', 'tool', 'weeks apart', '1', '2', '3', '4', '5', 'readings taken'],
      study.troubled.map(({ what, tool, weeks, raisedBy, readingsTaken }) => [
        what,
        tool,
        weeks,
        ...raisedBy.map(per),
        readingsTaken.toFixed(1),
      ]),
    ),
    '**Cows it was not made for**, by ruler: % in the range after 1 to 5 readings, and sound readings raised.',
    table(
      [
        'cows',
        'weeks apart',
        '1',
        '2',
        '3',
        '4',
        '5',
        'doubtful',
        'held',
        'ran up or held at once',
        'held over weeks',
      ],
      study.unlike.map(({ what, weeks, byReadings, cries }) => [
        what,
        weeks,
        ...coverage(byReadings),
        raised(cries.ranUpOrHeld),
        raised(cries.heldOverWeeks),
      ]),
    ),
  ].join('\n\n');
}

function coverage(byReadings: StudyResults['sound'][number]['byReadings']): string[] {
  const cows = byReadings.reduce((sum, one) => sum + one.cows, 0);
  const apart = (why: 'doubtful' | 'held') =>
    per(byReadings.reduce((sum, one) => sum + one[why] * one.cows, 0) / cows);
  const shares = byReadings.map(
    ({ covered }) => per(covered) + (covered < 0.77 || covered > 0.83 ? '*' : ''),
  );
  return [...shares, apart('doubtful'), apart('held')];
}

function raised(share: number): string {
  return per(share) + (share > 0.01 ? '*' : '');
}

function per(share: number): string {
  return (100 * share).toFixed(1);
}

function table(heads: readonly string[], rows: readonly Row[]): string {
  const line = (cells: Row) => `| ${cells.join(' | ')} |`;
  return [line(heads), line(heads.map(() => '---')), ...rows.map(line)].join('\n');
}
