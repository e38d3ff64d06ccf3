import { largest, smallest } from '../../statistics/estimate.js';
import type { RoundShare } from '../../herd/cow-years.js';
import { dayNumber } from '../../record/calendar-day.js';
import { dayInShort, dayInWords } from '../../words/day-and-place.js';
import { boundsInWords, levelPercent, percent } from '../../words/percent.js';
import type { Words } from '../../reference/words.js';
import { figureOf } from '../figure.js';
import { lanes } from '../timeline-rows.js';
import { label, circle, path, px, rect } from '../svg-mark.js';
import { textWidth } from '../wrap-text.js';
import { numberAxis, stepsTo, type ChartFigure, drawLegend, rangeMark, rangeSign } from './chart-axis.js';
import { drawChart } from './draw-chart.js';

/** The mark of the rounds on each scale: as Chart.js names its shape, as the palette names its look, and drawn by itself. */
const marks = [
  { style: 'circle', mark: 'solid', sign: (x, y) => circle('solid', x, y, 5) },
  { style: 'rect', mark: 'ring', sign: (x, y) => rect('ring', x - 4, y - 4, 8, 8) },
  { style: 'triangle', mark: 'ring', sign: (x, y) => path('ring', `M${px(x)} ${px(y - 5)}l4.5 7.5h-9z`) },
  { style: 'rect', mark: 'solid', sign: (x, y) => rect('solid', x - 4, y - 4, 8, 8) },
] as const satisfies readonly { style: string; mark: string; sign: (x: number, y: number) => string }[];

/** The mark of the first scale, the second … There are four scales. */
const scaleMark = (at: number) => marks[at % marks.length]!;

/** A few rounds are drawn narrow, for a phone; many as wide as a sheet. */
const [narrowest, widest, pxPerRound] = [340, 660, 110];
const chartHeight = 210;
const laneHeight = 32;
/** More rounds than these crowd each other; the earlier ones are in the table. */
const mostRounds = 16;

type ScoredRound = RoundShare & Required<Pick<RoundShare, 'share'>>;

/** The rounds a chart can show: those whose share may be printed. */
export function roundsDrawn(rounds: readonly RoundShare[]): ScoredRound[] {
  return rounds.filter((round): round is ScoredRound => round.share !== undefined);
}

/**
 * The share of the herd that walked lame at each round, with the number scored and the bounds at each.
 *
 * Rounds scored on different scales have different marks and are never joined: scales are not converted.
 *
 * Shape:   one round or more that `roundsDrawn` gives → a figure
 * Checked: tests/figure/chart/charts.test.ts, read back against the counts
 */
export function gaitRoundChart(id: string, all: readonly RoundShare[], words: Words): ChartFigure {
  const say = (key: string, values = {}) => words.say(`chart.rounds.${key}`, values);
  const inPercent = (value: number) => words.say('chart.percent', { value });
  const rounds = roundsDrawn(all).slice(-mostRounds);
  const scales = [...new Set(rounds.map(({ scale }) => scale))];
  const width = Math.min(widest, Math.max(narrowest, 60 + rounds.length * pxPerRound));
  const days = rounds.map(({ date }) => dayNumber(date));
  const [first, last] = [smallest(days), largest(days)];
  const beside = Math.max(7, (last - first) * 0.08);
  const most = 100 * largest(rounds.map(({ share }) => share.high));
  const steps = stepsTo(most, 5).filter((step) => step <= 100);
  const legend = drawLegend(
    [
      ...scales.map((scale, at) => ({
        sign: (x: number, y: number) => scaleMark(at).sign(x + 10, y + 6),
        text: say('scale', { scale: words.say(`vocabulary.gait-scale.${scale}`) }),
      })),
      { sign: rangeSign, text: say('range', { level: levelPercent }) },
    ],
    width,
  );
  const texts = rounds.map(({ lame, scored, share }) => ({
    share: inPercent(percent(share.value)),
    of: say('of', { lame, scored }),
  }));
  const time = {
    min: first - beside,
    max: last + beside,
    values: clearDays(rounds, width - 70, last - first + 2 * beside, words),
    text: (value: number) => dayWords(rounds[days.indexOf(value)]!.date, words),
  };
  const shares = { min: 0, max: steps.at(-1)!, values: steps, text: inPercent };
  const datasets = scales.map((scale, at) => ({
    data: rounds.flatMap((round, of) =>
      round.scale === scale ? [{ x: days[of]!, y: 100 * round.share.value }] : [],
    ),
    pointRadius: 5,
    pointStyle: scaleMark(at).style,
    backgroundColor: scaleMark(at).mark,
    borderWidth: 0,
    clip: false as const,
  }));
  // Where the labels go hangs on where the days lie, and that on the axis alone, which has the same width in both drawings.
  const chartAt = (top: number) =>
    drawChart(
      {
        type: 'scatter',
        data: { datasets },
        options: {
          layout: { padding: { right: 10, top: 6 } },
          scales: { x: numberAxis(time, { grid: false }), y: numberAxis(shares, { grid: true }) },
        },
      },
      { id, left: 4, top, width: width - 8, height: chartHeight },
    );
  const { x } = chartAt(0);
  const wide = texts.map(({ share, of }) => Math.max(textWidth(share, 13, 'bold'), textWidth(of, 11)) + 6);
  const lane = lanes(days.map((day, at) => ({ from: x(day) - wide[at]! / 2, to: x(day) + wide[at]! / 2 })));
  const top = legend.height + 24 + (largest(lane) + 1) * laneHeight;
  const chart = chartAt(top);
  const over = rounds.map(({ share }, at) => {
    const place = chart.x(days[at]!);
    const y = top - 14 - lane[at]! * laneHeight;
    return (
      rangeMark(place, chart.y(100 * share.low), chart.y(100 * share.high)) +
      label('n', place, y - 6, texts[at]!.share) +
      label('s', place, y + 8, texts[at]!.of)
    );
  });
  const description = rounds.map(({ date, lame, scored, share }) =>
    say('told', {
      day: dayInWords(words, date),
      lame,
      scored,
      percent: percent(share.value),
      bounds: boundsInWords(words, share),
    }),
  );
  const leftOut = all.length - rounds.length;
  return figureOf(
    {
      id,
      width,
      height: top + chartHeight,
      title: say('title'),
      description: description.join(' '),
      defs: chart.defs,
      body: legend.body + chart.body + over.join(''),
    },
    {
      notes: [
        say('note.range'),
        ...(scales.length > 1 ? [say('note.scales')] : []),
        ...(leftOut > 0 ? [say('note.left-out', { count: leftOut })] : []),
      ],
    },
  );
}

/** Days whose words do not meet, the last one always. */
function clearDays(rounds: readonly RoundShare[], widthPx: number, days: number, words: Words): number[] {
  const kept: { day: number; half: number }[] = [];
  for (const { date } of rounds.toReversed()) {
    const day = dayNumber(date);
    const half = largest(dayWords(date, words).map((text) => textWidth(text, 11))) / 2 + 4;
    const before = kept.at(-1);
    if (!before || ((before.day - day) * widthPx) / days >= half + before.half) kept.push({ day, half });
  }
  return kept.map(({ day }) => day).toReversed();
}

function dayWords(date: string, words: Words): string[] {
  return [dayInShort(words, date), date.slice(0, 4)];
}
