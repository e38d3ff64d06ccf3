import type { LesionRates, LesionRate } from '../../herd/lesion-rates.js';
import type { Words } from '../../reference/words.js';
import { largest } from '../../statistics/estimate.js';
import { herdNumbers } from '../../reference/numbers.js';
import { rateInWords } from '../../words/compose-herd.js';
import { lesionInWords, mm } from '../../words/day-and-place.js';
import { levelPercent } from '../../words/percent.js';
import { figureOf } from '../figure.js';
import { label, rect } from '../svg-mark.js';
import {
  namedAxis,
  numberAxis,
  stepsTo,
  type ChartFigure,
  drawLegend,
  kindPaints,
  paintSign,
  rangeMark,
  rangeSign,
} from './chart-axis.js';
import { drawChart } from './draw-chart.js';
import type { LesionCode } from '../../record/words.js';

/** The season and its months, a line each; the months alone where the hemisphere is not known. */
export function seasonInWords(
  words: Words,
  { quarter, season }: Pick<LesionRates['byQuarter'][number], 'quarter' | 'season'>,
): string[] {
  const months = words.say(`herd.rates.months.${quarter}`);
  return season ? [words.say(`herd.rates.seasons.${season}`), months] : [months];
}

/** More patterns than these are not distinguished. */
const apart = 4;

/**
 * The parts of every season's bar, with the lesions of each in each season, those a rate counts where rates are drawn: the
 * most frequent kinds by themselves, the rest together; of equals the one first in the list of codes.
 */
function seasonKinds({ byQuarter }: LesionRates, isRate: boolean) {
  const codes = [...new Set(byQuarter.flatMap(({ kinds }) => kinds.map(({ code }) => code)))];
  const countsOf = (among: readonly LesionCode[]) =>
    byQuarter.map(({ kinds }) =>
      kinds
        .filter(({ code }) => among.includes(code))
        .reduce((sum, { counted, lesions }) => sum + (isRate ? counted : lesions), 0),
    );
  const sumOf = (code: LesionCode) => countsOf([code]).reduce((sum, count) => sum + count, 0);
  const frequent = codes.filter((code) => sumOf(code) > 0).sort((a, b) => sumOf(b) - sumOf(a));
  const alone = frequent.slice(0, frequent.length > apart + 1 ? apart : apart + 1);
  return [...alone.map((code) => [code]), frequent.slice(alone.length)]
    .filter((group) => group.length > 0)
    .map((group) => ({ codes: group, counts: countsOf(group) }));
}

const width = 540;
const chartHeight = 250;
/** A bar is a figure too: one season whose rate may not be printed, and all are counts. */
function drawsRates({ byQuarter }: LesionRates): boolean {
  const seen = byQuarter.filter(({ lesions }) => lesions > 0);
  return seen.some(({ per100 }) => per100) && seen.every(({ counted, per100 }) => counted === 0 || per100);
}

/** Least height of a part of a bar for its number to be in it, px. */
const roomForNumber = 15;

/**
 * The lesions first seen in each season as a bar of their kinds: as rates, where that of every season may be printed, so that a season
 * followed twice does not look like twice as many; else as counts.
 *
 * Shape:   rates of a farm with one lesion or more → a figure
 * Checked: tests/figure/chart/charts.test.ts, against the rates themselves
 */
export function seasonChart(id: string, rates: LesionRates, words: Words): ChartFigure {
  const say = (key: string, values = {}) => words.say(`chart.season.${key}`, values);
  const { byQuarter } = rates;
  const isRate = drawsRates(rates);
  const kinds = seasonKinds(rates, isRate).map((kind) => ({
    ...kind,
    name: kind.codes.length === 1 ? lesionInWords(words, kind.codes[0]!) : say('others'),
  }));
  const paints = kindPaints(id).slice(0, kinds.length);
  const heightOf = ({ cowYears }: LesionRate, count: number) => {
    if (!isRate) return count;
    return cowYears > 0 ? (herdNumbers.figures.rateCowYears.value * count) / cowYears : 0;
  };
  const parts = kinds.map(({ counts }) => counts.map((count, at) => heightOf(byQuarter[at]!, count)));
  const basisOf = (season: LesionRate): string => {
    if (!isRate) return say('count', { count: season.lesions });
    if (season.cowYears === 0) return say('not-followed');
    return say('of', { count: season.counted, years: mm(season.cowYears) });
  };
  const most = byQuarter.map(
    (season, at) => season.per100?.high ?? parts.reduce((sum, one) => sum + one[at]!, 0),
  );
  const steps = stepsTo(largest(most), 5);
  const legend = drawLegend(
    [
      ...kinds.map(({ name }, at) => ({ sign: paintSign(paints[at]!.fill), text: name })),
      isRate && { sign: rangeSign, text: say('range', { level: levelPercent }) },
    ],
    width,
  );
  const top = legend.height + 26;
  const scale = { min: 0, max: steps.at(-1)!, values: steps, text: String };
  const chart = drawChart(
    {
      type: 'bar',
      data: {
        labels: byQuarter.map((season) => [...seasonInWords(words, season), basisOf(season)]),
        datasets: parts.map((heights, at) => ({
          // A part of nothing is left out: it would leave its outline on the line.
          data: heights.map((height) => height || null),
          backgroundColor: paints[at]!.fill,
          borderWidth: 0,
          inflateAmount: 0,
          barPercentage: 0.6,
          categoryPercentage: 0.8,
          clip: false,
        })),
      },
      options: {
        scales: {
          x: { ...namedAxis(), stacked: true },
          y: { ...numberAxis(scale, { grid: true }), stacked: true },
        },
      },
    },
    { id, left: 4, top, width: width - 8, height: chartHeight },
  );
  const over = chart.bars.flatMap((bars, kind) =>
    bars.map(({ x, y, width: wide, height }, at) => {
      const count = kinds[kind]!.counts[at]!;
      if (count === 0) return '';
      const mark = paints[kind]!.fill === 'block' ? 'ni' : 'ep';
      const number = height < roomForNumber ? '' : label(mark, x + wide / 2, y + height / 2 + 4, `${count}`);
      return rect('outline', x, y, wide, height) + number;
    }),
  );
  const ranges = byQuarter.map(({ per100 }, at) => {
    const bar = chart.bars[0]?.[at];
    return per100 && bar ? rangeMark(bar.x + bar.width + 10, chart.y(per100.low), chart.y(per100.high)) : '';
  });
  const description = byQuarter.map((season, at) => {
    const told = kinds.flatMap(({ name, counts }) =>
      counts[at]! > 0 ? [say('kind-count', { kind: name, value: counts[at]! })] : [],
    );
    return say('told', {
      season: words.commas(seasonInWords(words, season)),
      basis: words.commas([
        basisOf(season),
        season.per100 && say('rate', { rate: rateInWords(words, season.per100) }),
      ]),
      kinds: words.commas(told) || say('none'),
    });
  });
  const uncounted = rates.all.lesions - rates.all.counted;
  return figureOf(
    {
      id,
      width,
      height: top + chartHeight,
      title: say('title'),
      description: description.join(' '),
      defs: paints.map(({ def }) => def).join('') + chart.defs,
      body:
        legend.body +
        label('t', 8, top - 4, say(isRate ? 'axis-rate' : 'axis-count'), 'start') +
        chart.body +
        over.join('') +
        ranges.join(''),
    },
    {
      notes: [
        say('note.numbers'),
        ...(isRate ? [say('note.range')] : []),
        ...(isRate && byQuarter.some(({ cowYears }) => cowYears === 0) ? [say('note.not-followed')] : []),
        ...(isRate && uncounted > 0 ? [say('note.uncounted', { count: uncounted })] : []),
      ],
    },
  );
}
