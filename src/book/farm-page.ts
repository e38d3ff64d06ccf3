import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { FarmRecord } from '../record/practice.js';
import { dayInWords } from '../words/day-and-place.js';
import { shareInWords } from '../words/percent.js';
import { type Words, told } from '../reference/words.js';
import {
  type DataTable,
  dataTable,
  type Fact,
  factsOf,
  type FarmSection,
  heads,
  numberHeads,
  type TableSection,
} from './page-parts.js';
import { storyOf } from './narrative.js';
import { given } from '../record/given.js';
import { gaitRoundChart, roundsDrawn } from '../figure/chart/gait-round-chart.js';
import { drawingId } from '../figure/figure.js';
import { lameAtRound, lameAtRounds } from '../herd/cow-years.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { chartInBook } from './case-times.js';

export type FarmPage = ReturnType<typeof composeFarmPage>;

/** The farm itself: who, herd, walk at whole-herd rounds, plan, how it is set up, and its figures. */
export function composeFarmPage(
  words: Words,
  { farm, narrative }: FarmRecord,
  figures: readonly FarmSection[],
  today: CalendarDay,
) {
  const tables: FarmSection[] = [
    herdSection(words, farm),
    gaitRoundsSection(words, farm, today),
    ...figures,
    // Where there is a footbath it has a page of its own.
    ...(farm.footbath?.length
      ? []
      : [
          {
            id: 'footbath',
            heading: words.say('book.farm.footbath'),
            lead: [words.say('book.farm.footbath-none')],
          },
        ]),
  ];
  return {
    id: 'farm',
    heading: words.say('book.farm.heading', { farm: told(farm.farm) }),
    facts: [
      { heading: words.say('book.farm.who'), facts: whoIsWho(words, farm) },
      { heading: words.say('book.farm.set-up'), facts: setUp(words, farm) },
    ].filter((list) => list.facts.length > 0),
    tables,
    ...given({ narrative: storyOf(words.say('book.farm.notes'), narrative) }),
  };
}

function whoIsWho(words: Words, farm: Farm): Fact[] {
  const { contact, vet, plan, 'next-visit': next, 'every-weeks': weeks } = farm;
  return factsOf(words, 'book.farm', {
    holding: told(farm.holding),
    address: told(farm.address),
    contact: words.semicolons([contact?.name, contact?.phone, contact?.email].map(told)),
    vet: words.semicolons([vet?.practice, vet?.name, vet?.phone, vet?.email].map(told)),
    'next-visit': next && dayInWords(words, next),
    'every-weeks': weeks === undefined ? undefined : words.say('book.farm.weeks', { count: weeks }),
    health: words.commas(farm.health?.map(told)),
    plan: plan
      ? words.semicolons([dayInWords(words, plan.date), told(plan.with), told(plan.file)])
      : words.say('book.farm.no-plan'),
  });
}

function setUp(words: Words, farm: Farm): Fact[] {
  const listed = (list: string, value: string | undefined) =>
    value && words.say(`vocabulary.${list}.${value}`);
  const measured = (unit: string, value: number | undefined) =>
    value === undefined ? undefined : words.say(`book.farm.${unit}`, { value });
  const scale = farm['gait-scale'];
  const from = (day: string | undefined) =>
    day && words.say('book.farm.from-day', { day: dayInWords(words, day) });
  return [
    ...factsOf(words, 'book.farm', {
      'gait-scale':
        typeof scale === 'string'
          ? listed('gait-scale', scale)
          : words.commas(
              scale?.map((one) => words.semicolons([from(one.from), listed('gait-scale', one.scale)])),
            ),
      'condition-scale': listed('condition-scale', farm['condition-scale']),
      hemisphere: listed('hemisphere', farm.hemisphere),
      milkings: farm['milkings-a-day']?.toString(),
      milk: measured('litres', farm['milk-litres']),
      slurry: measured('hectares', farm['slurry-hectares']),
      paper: farm.paper,
      language: listed('language', farm.language),
      'staff-languages': words.commas(farm['staff-languages']?.map((one) => listed('staff-language', one))),
      send: listed('send', farm.send),
    }),
    ...intervalFacts(words, farm.intervals),
  ];
}

/** Intervals as a farm or the business has set them. */
export function intervalFacts(words: Words, intervals: Farm['intervals'] = {}): Fact[] {
  return Object.entries(intervals).map(([name, count]) => ({
    label: words.say('book.farm.interval', { name: words.say(`vocabulary.interval.${name}`) }),
    value: words.say('book.farm.days', { count }),
  }));
}

function herdSection(words: Words, farm: Farm): TableSection {
  const periods = [farm.herd ?? []].flat();
  const section = { id: 'herd-periods', heading: words.say('book.farm.herd') };
  if (periods.length === 0) return { ...section, lead: [words.say('book.farm.herd-none')] };
  return {
    ...section,
    lead: [],
    table: dataTable(
      'herd-periods-table',
      words.say('book.farm.herd-caption'),
      [
        ...heads(words, 'book.farm', 'from'),
        ...numberHeads(words, 'book.farm', ['cows']),
        ...heads(words, 'book.farm', 'housing'),
      ],
      periods.map(({ from, cows, housing }) => [
        from ? dayInWords(words, from) : words.say('book.farm.always'),
        cows?.toString() ?? '–',
        housing ? words.say(`vocabulary.housing.${housing}`) : '–',
      ]),
    ),
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
  return dataTable(
    'gait-rounds-table',
    words.say('book.rounds.caption'),
    [
      ...heads(words, 'book.rounds', 'date', 'by', 'scale'),
      ...numberHeads(words, 'book.rounds', ['lame', 'scored']),
      ...scores.flatMap((score) => numberHeads(words, 'book.rounds', ['score'], { score })),
    ],
    rounds.map((round) => {
      const scale = gaitScaleOn(farm, round.date);
      const lame = scale && lameAtRound(round, scale);
      const [text = '–', note] = lame ? shareInWords(words, lame.lame, lame.scored) : [];
      return [
        dayInWords(words, round.date),
        told(round.by) ?? '–',
        scale ? words.say(`vocabulary.gait-scale.${scale}`) : '–',
        { text, ...given({ note }) },
        round.scored?.toString() ?? '–',
        ...scores.map((score) => round.counts[score]?.toString() ?? '–'),
      ];
    }),
  );
}
