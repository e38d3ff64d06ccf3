import { caseCosts, type CaseCosts } from '../money/costs.js';
import { sumAsText, priceText } from '../money/hundredths.js';
import { totalAsText } from '../money/year-costs.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { animalSentence } from '../words/compose-animal.js';
import { notInSumItems, toFinishSentence } from '../words/compose-money.js';
import { dayInWords, paragraph } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import { type MoneyCard, fact, type PlacedCase } from './animal-page-data.js';
import { calvingsInShort } from './animal-record.js';
import type { DataTable, Fact } from './page-parts.js';
import { withheldCells } from './withheld-list.js';

/**
 * Summary for discussion, on one card: how long, how she stands, calving, what is withheld, what the case has
 * cost and what completing it would take. No verdict. Only where the business gives prices.
 *
 * Checked: tests/book/money.test.ts
 */
export function composeMoneyCard(
  words: Words,
  practice: Practice,
  farm: FarmRecord,
  one: PlacedCase,
  today: CalendarDay,
): MoneyCard | undefined {
  const money = caseCosts(practice.business, farm, one, today);
  const from = beganOn(one);
  if (!money || from === undefined) return undefined;
  const { animal } = one.record;
  const items = notInSumItems(words, money.costs);
  return {
    id: `${one.id}-money`,
    heading: words.say('money.card.heading'),
    lead: words.say('money.card.lead'),
    facts: [
      ...troubleFacts(words, one, from, today),
      { label: words.say('money.card.stands'), value: animalSentence(words, animal, one.standing) },
      ...fact(
        words,
        'money.card.calving',
        words.semicolons([
          calvingsInShort(words, animal),
          animal['due-to-calve'] &&
            words.say('money.card.due', { day: dayInWords(words, animal['due-to-calve']) }),
        ]),
      ),
      ...withheldFacts(words, one, today),
    ],
    table: costTable(words, money, one.id, from, today),
    notes: [
      ...(money.toFinish ? [toFinishSentence(words, animal, money.toFinish, money.costs.currency)] : []),
      paragraph(
        items === undefined ? undefined : words.say('money.not-in-sum', { items }),
        words.say('money.card.rounding'),
        money.costs.lines.some(({ what }) => what === 'milk') ? words.say('money.card.milk-days') : undefined,
      ),
    ],
  };
}

/** The day its lameness episode began: lame since, else first seen. */
function beganOn({ record, standing }: PlacedCase): CalendarDay | undefined {
  const { lameSince, visits } = standing.episode;
  const first = visits[0] === undefined ? undefined : record.animal.visits[visits[0]]?.date;
  return lameSince ?? first;
}

function troubleFacts(words: Words, { standing }: PlacedCase, from: CalendarDay, today: CalendarDay): Fact[] {
  const { lameSince, ended } = standing.episode;
  const since = words.say(`money.card.${lameSince === undefined ? 'seen' : 'lame'}-since`, {
    day: dayInWords(words, from),
    count: daysBetween(from, ended ?? today),
  });
  return fact(
    words,
    'money.card.trouble',
    words.semicolons([since, ended && words.say('money.card.ended', { day: dayInWords(words, ended) })]),
  );
}

function withheldFacts(words: Words, one: PlacedCase, today: CalendarDay): Fact[] {
  const held = withheldCells(words, one, today);
  return (['milk', 'meat'] as const).map((side) => ({
    label: words.say(`money.card.${side}`),
    value: words.semicolons([held[side].text, held[side].note]),
  }));
}

function costTable(
  words: Words,
  { costs }: CaseCosts,
  id: string,
  from: CalendarDay,
  today: CalendarDay,
): DataTable {
  const { currency, lines } = costs;
  const head = (key: string) => words.say(`money.table.${key}`);
  return {
    id: `${id}-money-table`,
    caption: words.say('money.card.caption', {
      from: dayInWords(words, from),
      to: dayInWords(words, today),
      currency,
    }),
    columns: [
      { head: head('what') },
      { head: head('count'), number: true },
      { head: head('price'), number: true },
      { head: head('sum'), number: true },
    ],
    rows: [
      ...lines.map((line) => ({
        cells: [
          {
            text: words.say(`money.short.${line.what}`),
            ...(line.litres === undefined ? {} : { note: words.say('money.litres', { count: line.litres }) }),
          },
          {
            text: line.what === 'milk' ? words.say('money.days', { count: line.count }) : `${line.count}`,
          },
          {
            text:
              line.price === undefined ? words.say('money.own-cost') : words.number(priceText(line.price)),
          },
          { text: words.number(sumAsText(line.sum)) },
        ],
      })),
      {
        cells: [
          { text: head('total'), strong: true },
          { text: '' },
          { text: '' },
          { text: words.number(totalAsText(costs)), strong: true },
        ],
      },
    ],
  };
}
