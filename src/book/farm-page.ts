import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { FarmRecord } from '../record/practice.js';
import { dayInWords } from '../words/day-and-place.js';
import { shareInWords } from '../words/percent.js';
import { type Words, told } from '../reference/words.js';
import type { FarmSection, FactList, TableSection, DataTable } from './page-parts.js';
import { fact } from './animal-page-data.js';
import { renderNarrative } from './narrative.js';
import { gaitRoundChart, roundsDrawn } from '../figure/chart/gait-round-chart.js';
import { drawingId } from '../figure/figure.js';
import { lameAtRound, lameAtRounds } from '../herd/cow-years.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { chartInBook } from './case-times.js';

export interface FarmPage {
  readonly id: string;
  readonly heading: string;
  readonly facts: readonly FactList[];
  readonly tables: readonly FarmSection[];
  readonly narrative?: { readonly heading: string; readonly html: string };
}

/** The farm itself: who, herd, walk at whole-herd rounds, plan, how it is set up, and its figures. */
export function composeFarmPage(
  words: Words,
  record: FarmRecord,
  figures: readonly FarmSection[],
  today: CalendarDay,
): FarmPage {
  const { farm } = record;
  return {
    id: 'farm',
    heading: words.say('book.farm.heading', { farm: told(farm.farm) }),
    facts: [whoIsWho(words, farm), setUp(words, farm)].filter((list) => list.facts.length > 0),
    tables: [
      herdSection(words, farm),
      gaitRoundsSection(words, farm, today),
      ...figures,
      ...(farm.footbath?.length ? [] : [noFootbath(words)]),
    ],
    ...(record.narrative.trim() === ''
      ? {}
      : {
          narrative: {
            heading: words.say('book.farm.notes'),
            html: renderNarrative(record.narrative, 4),
          },
        }),
  };
}

function whoIsWho(words: Words, farm: Farm): FactList {
  return {
    heading: words.say('book.farm.who'),
    facts: [
      ...fact(words, 'book.farm.holding', told(farm.holding)),
      ...fact(words, 'book.farm.address', told(farm.address)),
      ...fact(
        words,
        'book.farm.contact',
        words.semicolons([farm.contact?.name, farm.contact?.phone, farm.contact?.email].map(told)),
      ),
      ...fact(
        words,
        'book.farm.vet',
        words.semicolons([farm.vet?.practice, farm.vet?.name, farm.vet?.phone, farm.vet?.email].map(told)),
      ),
      ...fact(words, 'book.farm.next-visit', farm['next-visit'] && dayInWords(words, farm['next-visit'])),
      ...fact(
        words,
        'book.farm.every-weeks',
        farm['every-weeks'] === undefined
          ? undefined
          : words.say('book.farm.weeks', { count: farm['every-weeks'] }),
      ),
      ...fact(words, 'book.farm.health', words.commas(farm.health?.map(told))),
      ...fact(
        words,
        'book.farm.plan',
        farm.plan
          ? words.semicolons([dayInWords(words, farm.plan.date), told(farm.plan.with), told(farm.plan.file)])
          : words.say('book.farm.no-plan'),
      ),
    ],
  };
}

function setUp(words: Words, farm: Farm): FactList {
  const listed = (list: string, value: string | undefined) =>
    value && words.say(`vocabulary.${list}.${value}`);
  const scale = farm['gait-scale'];
  return {
    heading: words.say('book.farm.set-up'),
    facts: [
      ...fact(
        words,
        'book.farm.gait-scale',
        typeof scale === 'string'
          ? listed('gait-scale', scale)
          : words.commas(
              scale?.map((one) => words.semicolons([from(words, one.from), listed('gait-scale', one.scale)])),
            ),
      ),
      ...fact(words, 'book.farm.condition-scale', listed('condition-scale', farm['condition-scale'])),
      ...fact(words, 'book.farm.hemisphere', listed('hemisphere', farm.hemisphere)),
      ...fact(words, 'book.farm.milkings', farm['milkings-a-day']?.toString()),
      ...fact(
        words,
        'book.farm.milk',
        farm['milk-litres'] === undefined
          ? undefined
          : words.say('book.farm.litres', { value: farm['milk-litres'] }),
      ),
      ...fact(
        words,
        'book.farm.slurry',
        farm['slurry-hectares'] === undefined
          ? undefined
          : words.say('book.farm.hectares', { value: farm['slurry-hectares'] }),
      ),
      ...fact(words, 'book.farm.paper', farm.paper),
      ...fact(words, 'book.farm.language', listed('language', farm.language)),
      ...fact(
        words,
        'book.farm.staff-languages',
        words.commas(farm['staff-languages']?.map((one) => listed('staff-language', one))),
      ),
      ...fact(words, 'book.farm.send', listed('send', farm.send)),
      ...Object.entries(farm.intervals ?? {}).map(([name, count]) => ({
        label: words.say('book.farm.interval', { name: words.say(`vocabulary.interval.${name}`) }),
        value: words.say('book.farm.days', { count }),
      })),
    ],
  };
}

function from(words: Words, day: string | undefined): string | undefined {
  return day && words.say('book.farm.from-day', { day: dayInWords(words, day) });
}

function herdSection(words: Words, farm: Farm): TableSection {
  const periods = farm.herd === undefined ? [] : Array.isArray(farm.herd) ? farm.herd : [farm.herd];
  const section = { id: 'herd-periods', heading: words.say('book.farm.herd') };
  if (periods.length === 0) return { ...section, lead: [words.say('book.farm.herd-none')] };
  return {
    ...section,
    lead: [],
    table: {
      id: 'herd-periods-table',
      caption: words.say('book.farm.herd-caption'),
      columns: [
        { head: words.say('book.farm.from') },
        { head: words.say('book.farm.cows'), number: true },
        { head: words.say('book.farm.housing') },
      ],
      rows: periods.map((period) => ({
        cells: [
          { text: period.from ? dayInWords(words, period.from) : words.say('book.farm.always') },
          { text: period.cows?.toString() ?? '–' },
          { text: period.housing ? words.say(`vocabulary.housing.${period.housing}`) : '–' },
        ],
      })),
    },
  };
}

/** Where there is a footbath it has a page of its own. */
function noFootbath(words: Words): TableSection {
  return {
    id: 'footbath',
    heading: words.say('book.farm.footbath'),
    lead: [words.say('book.farm.footbath-none')],
  };
}

/** Whole-herd gait rounds: the share lame as a chart, and beneath it all counts as recorded, each beside the number scored. */
export function gaitRoundsSection(words: Words, farm: Farm, today: CalendarDay): FarmSection {
  const section = { id: 'gait-rounds', heading: words.say('book.rounds.heading') };
  if (!farm['gait-rounds']?.length) return { ...section, lead: [words.say('book.rounds.none')] };
  const table = roundsTable(words, farm, farm['gait-rounds']);
  const rounds = lameAtRounds(farm, today);
  const held = { ...section, lead: [words.say('book.rounds.lead')] };
  if (roundsDrawn(rounds).length === 0) return { ...held, table };
  const chart = gaitRoundChart(drawingId('', 'rounds'), rounds, words);
  return { ...held, figures: [chartInBook(words, 'gait-rounds-drawn', chart, table)] };
}

function roundsTable(words: Words, farm: Farm, rounds: NonNullable<Farm['gait-rounds']>): DataTable {
  const scores = [...new Set(rounds.flatMap((round) => Object.keys(round.counts)))].sort();
  return {
    id: 'gait-rounds-table',
    caption: words.say('book.rounds.caption'),
    columns: [
      { head: words.say('book.rounds.date') },
      { head: words.say('book.rounds.by') },
      { head: words.say('book.rounds.scale') },
      { head: words.say('book.rounds.lame'), number: true },
      { head: words.say('book.rounds.scored'), number: true },
      ...scores.map((score) => ({ head: words.say('book.rounds.score', { score }), number: true })),
    ],
    rows: rounds.map((round) => {
      const scale = gaitScaleOn(farm, round.date);
      const lame = scale && lameAtRound(round, scale);
      const [counts = '–', bounds] = lame ? shareInWords(words, lame.lame, lame.scored) : [];
      return {
        cells: [
          { text: dayInWords(words, round.date) },
          { text: told(round.by) ?? '–' },
          { text: scale ? words.say(`vocabulary.gait-scale.${scale}`) : '–' },
          { text: counts, ...(bounds ? { note: bounds } : {}) },
          { text: round.scored?.toString() ?? '–' },
          ...scores.map((score) => ({ text: round.counts[score]?.toString() ?? '–' })),
        ],
      };
    }),
  };
}
