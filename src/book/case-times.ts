import type { ChartFigure } from '../figure/chart/chart-axis.js';
import type { Words } from '../reference/words.js';
import {
  type BookFigure,
  type Cell,
  type DataTable,
  dataTable,
  type FarmSection,
  linesCell,
} from './page-parts.js';
import { given } from '../record/given.js';
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

/** A chart as the page shows it, with the table its numbers come from folded beneath; on paper both are shown. */
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

/** What was waited for in some cases: here, and over all farms where that is reported. */
interface TimedCases {
  /** For ids: the code of the kind, or what is waited for in a walk. */
  readonly name: string;
  readonly what: 'healed' | WalkMark;
  readonly head: Cell;
  readonly title: string;
  readonly here: TimeToEvent;
  readonly all?: TimeToEvent;
}

/** What the figures are called: one farm's, or in the trimmer's own overview all farms'; and what is beside them. */
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
  const table = (id: string, caption: string, rows: readonly TimedCases[]): DataTable =>
    dataTable(
      id,
      caption,
      [
        words.say('herd.times.kind'),
        here,
        words.say('herd.times.when'),
        ...(everywhere === undefined ? [] : [everywhere]),
      ],
      rows.map((one) => cellsOf(words, one, everywhere !== undefined)),
    );
  const restCaption = rest.length < timed.length ? 'herd.times.caption-rest' : 'herd.times.caption';
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
    ...(rest.length > 0 ? { table: table('case-times-table', words.say(restCaption), rest) } : {}),
  };
}

function timedCases(words: Words, farm: CaseFigures, business: CaseFigures | undefined): TimedCases[] {
  const healed = farm.healed.map((here): TimedCases => {
    const all = business?.healed.find(({ code }) => code === here.code);
    const text = lesionInWords(words, here.code);
    const note =
      here.lasting > 0 ? words.say('herd.times.healed.lasting', { count: here.lasting }) : undefined;
    const title = words.say('chart.healing.title', { lesion: text });
    return {
      name: here.code,
      what: 'healed',
      title,
      head: { text, ...given({ note }) },
      here,
      ...given({ all }),
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
    ...given({ all: business?.[of] }),
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
      ? [{ name, basis: timesSentence(words, times, what), curve: times.curve }]
      : [];
  return [...curve(hereName, here), ...curve(everywhere, all)];
}

function cellsOf(words: Words, one: TimedCases, hasBusiness: boolean): (string | Cell)[] {
  const { what, head, here, all } = one;
  const ofAll = all && all.count > 0 ? [timesSentence(words, all, what), ...whenLines(words, all)] : [];
  return [
    head,
    here.count === 0 ? '–' : timesSentence(words, here, what),
    linesCell(whenLines(words, here)),
    ...(hasBusiness ? [linesCell(ofAll)] : []),
  ];
}
