import { caseCosts, type CaseCosts } from '../money/costs.js';
import { sumAsText, priceText } from '../money/hundredths.js';
import { totalAsText } from '../money/year-costs.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import { animalSentence } from '../words/compose-animal.js';
import { notInSumItems, toFinishSentence } from '../words/compose-money.js';
import { dayInWords, paragraph } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import type { MoneyCard, OfBook, PlacedCase } from './animal-page-data.js';
import { calvingsInShort } from './animal-record.js';
import { type DataTable, dataTable, factsOf, heads, numberHeads } from './page-parts.js';
import { withheldCells } from './withheld-list.js';

/**
 * Summary for discussion, on one card: how long, her status, calving, what is withheld, what the case has
 * cost and what completing it would take. No verdict. Only where the business gives prices.
 *
 * Checked: tests/book/money.test.ts
 */
export function composeMoneyCard(
  { words, practice, farm, today }: OfBook,
  one: PlacedCase,
): MoneyCard | undefined {
  const money = caseCosts(practice.business, farm, one, today);
  const { animal } = one.record;
  const { lameSince, visits, ended } = one.standing.episode;
  // The day its lameness episode began: lame since, else first seen.
  const from = lameSince ?? animal.visits[visits[0] ?? -1]?.date;
  if (!money || from === undefined) return undefined;
  const say = (key: string, values = {}) => words.say(`money.card.${key}`, values);
  const day = (of: CalendarDay | undefined) => of && dayInWords(words, of);
  const items = notInSumItems(words, money.costs);
  const { milk, meat } = withheldCells(words, one, today);
  const due = animal['due-to-calve'];
  return {
    id: `${one.id}-money`,
    heading: say('heading'),
    lead: say('lead'),
    facts: factsOf(words, 'money.card', {
      trouble: words.semicolons([
        say(`${lameSince === undefined ? 'seen' : 'lame'}-since`, {
          day: day(from),
          count: daysBetween(from, ended ?? today),
        }),
        ended && say('ended', { day: day(ended) }),
      ]),
      stands: animalSentence(words, animal, one.standing),
      calving: words.semicolons([calvingsInShort(words, animal), due && say('due', { day: day(due) })]),
      milk: words.semicolons([milk.text, milk.note]),
      meat: words.semicolons([meat.text, meat.note]),
    }),
    table: costTable(words, money, one.id, from, today),
    notes: [
      ...(money.toFinish ? [toFinishSentence(words, animal, money.toFinish, money.costs.currency)] : []),
      paragraph(
        items === undefined ? undefined : words.say('money.not-in-sum', { items }),
        say('rounding'),
        money.costs.lines.some(({ what }) => what === 'milk') ? say('milk-days') : undefined,
      ),
    ],
  };
}

function costTable(
  words: Words,
  { costs }: CaseCosts,
  id: string,
  from: CalendarDay,
  today: CalendarDay,
): DataTable {
  const { currency, lines } = costs;
  const days = { from: dayInWords(words, from), to: dayInWords(words, today), currency };
  const total = { text: words.say('money.table.total'), strong: true };
  return dataTable(
    `${id}-money-table`,
    words.say('money.card.caption', days),
    [...heads(words, 'money.table', 'what'), ...numberHeads(words, 'money.table', ['count', 'price', 'sum'])],
    [
      ...lines.map(({ what, count, litres, price, sum }) => [
        {
          text: words.say(`money.short.${what}`),
          ...given({ note: litres === undefined ? undefined : words.say('money.litres', { count: litres }) }),
        },
        what === 'milk' ? words.say('money.days', { count }) : `${count}`,
        price === undefined ? words.say('money.own-cost') : words.number(priceText(price)),
        words.number(sumAsText(sum)),
      ]),
      [total, '', '', { text: words.number(totalAsText(costs)), strong: true }],
    ],
  );
}
