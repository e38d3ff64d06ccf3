import type { ChartFigure } from '../figure/chart/chart-axis.js';
import type { Words } from '../reference/words.js';
import type { FarmSection, BookFigure, DataTable, Cell } from './page-parts.js';
import { healingChart, isDrawn } from '../figure/chart/healing-chart.js';
import { drawingId } from '../figure/figure.js';
import type { Pooled } from '../herd/pooled-on.js';
import type { CaseFigures } from '../herd/farm-figures.js';
import type { TimeToEvent, WalkMark } from '../herd/time-to-event.js';
import { herdNumbers } from '../reference/numbers.js';
import { fixedDays } from '../reference/intervals.js';
import { timesSentence, whenLines } from '../words/compose-herd.js';
import { dayInWords, lesionInWords } from '../words/day-and-place.js';
import { levelPercent } from '../words/percent.js';

/** A chart as the page shows it, with the table its numbers come from folded beneath; on paper both stand. */
export function chartInBook(words: Words, id: string, chart: ChartFigure, table: DataTable): BookFigure {
  return {
    id,
    heading: chart.title,
    svg: chart.svg,
    notes: chart.notes,
    tableSummary: words.say('book.figure.as-table'),
    tableOnScreenOnly: false,
    table,
  };
}

/** What was waited for in some cases: here, and over all farms where that is told. */
interface TimedCases {
  /** For ids: the code of the kind, or what is waited for in a walk. */
  readonly name: string;
  readonly what: 'healed' | WalkMark;
  readonly head: Cell;
  readonly title: string;
  readonly here: TimeToEvent;
  readonly all?: TimeToEvent;
}

/** What the figures are called: one farm's, or in the trimmer's own overview all farms'; and what stands beside them. */
interface TimesTold {
  readonly here: string;
  readonly lead: string;
  readonly pooled?: Pick<Pooled, 'figures' | 'upTo'>;
}

/** How long cases took: a curve for each kind with enough of them, its numbers folded beneath; the others in a table. */
export function caseTimes(
  words: Words,
  figures: CaseFigures,
  { here, lead, pooled }: TimesTold,
): FarmSection {
  const timed = timedCases(words, figures, pooled?.figures);
  const everywhere =
    pooled?.figures && words.say('herd.times.everywhere', { day: dayInWords(words, pooled.upTo) });
  const drawn = timed.map((one) => ({ one, curves: curvesOf(words, one, here, everywhere) }));
  const rest = drawn.filter(({ curves }) => curves.length === 0).map(({ one }) => one);
  const table = (id: string, caption: string, rows: readonly TimedCases[]): DataTable => ({
    id,
    caption,
    columns: [
      { head: words.say('herd.times.kind') },
      { head: here },
      { head: words.say('herd.times.when') },
      ...(everywhere === undefined ? [] : [{ head: everywhere }]),
    ],
    rows: rows.map((one) => ({ cells: cellsOf(words, one, everywhere !== undefined) })),
  });
  return {
    id: 'case-times',
    heading: words.say('herd.times.heading'),
    lead: [
      lead,
      words.say('herd.times.assumes', { few: herdNumbers.figures.fewCases.value, level: levelPercent }),
    ],
    figures: drawn.flatMap(({ one, curves }): BookFigure[] => {
      if (curves.length === 0) return [];
      const id = `case-times-${one.name}`;
      const chart = healingChart({ id: drawingId('', id), what: one.what, title: one.title, curves }, words);
      return [chartInBook(words, id, chart, table(`${id}-table`, one.title, [one]))];
    }),
    ...(rest.length > 0
      ? {
          table: table(
            'case-times-table',
            words.say(rest.length < timed.length ? 'herd.times.caption-rest' : 'herd.times.caption'),
            rest,
          ),
        }
      : {}),
  };
}

function timedCases(words: Words, farm: CaseFigures, business: CaseFigures | undefined): TimedCases[] {
  const healed = farm.healed.map((kind): TimedCases => {
    const all = business?.healed.find(({ code }) => code === kind.code);
    const lesion = lesionInWords(words, kind.code);
    return {
      name: kind.code,
      what: 'healed',
      title: words.say('chart.healing.title', { lesion }),
      head: {
        text: lesion,
        ...(kind.lasting > 0
          ? { note: words.say('herd.times.healed.lasting', { count: kind.lasting }) }
          : {}),
      },
      here: kind,
      ...(all ? { all } : {}),
    };
  });
  const walked = (what: WalkMark, of: 'notLame' | 'sound'): TimedCases => ({
    name: what,
    what,
    title: words.say(`chart.healing.title-${what}`),
    head: {
      text: words.say(`herd.times.${what}`),
      note: words.say(`herd.times.${what}-note`, { days: fixedDays('off-block-counts') }),
    },
    here: farm[of],
    ...(business ? { all: business[of] } : {}),
  });
  return [...healed, walked('not-lame', 'notLame'), walked('sound', 'sound')];
}

function curvesOf(
  words: Words,
  { what, here, all }: TimedCases,
  hereName: string,
  everywhere: string | undefined,
) {
  const curve = (name: string | undefined, times: TimeToEvent | undefined) =>
    name !== undefined && times?.curve && isDrawn(times.curve)
      ? [
          {
            name,
            basis: timesSentence(words, times, what),
            curve: times.curve,
          },
        ]
      : [];
  return [...curve(hereName, here), ...curve(everywhere, all)];
}

function cellsOf(words: Words, { what, head, here, all }: TimedCases, hasBusiness: boolean): Cell[] {
  return [
    head,
    { text: here.count === 0 ? '–' : timesSentence(words, here, what) },
    linesCell(whenLines(words, here)),
    ...(hasBusiness
      ? [
          all && all.count > 0
            ? linesCell([timesSentence(words, all, what), ...whenLines(words, all)])
            : { text: '–' },
        ]
      : []),
  ];
}

function linesCell([first = '–', ...lines]: readonly string[]): Cell {
  return { text: first, ...(lines.length > 0 ? { lines } : {}) };
}
