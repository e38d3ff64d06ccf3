import { stringify } from 'csv-stringify/sync';
import { priceText } from '../../money/price-text.js';
import { hundredthsOf, sumAsText } from '../../money/hundredths.js';
import type { PieceOfWork } from '../../money/work-done.js';
import type { Animal } from '../../record/animal.js';
import type { Business } from '../../record/business.js';
import { placeInWords } from '../../words/lesion-in-words.js';
import type { Words } from '../../words/words.js';

/** One piece of work and whose foot it was done on. */
export interface WorkRow {
  readonly animal: Animal;
  readonly piece: PieceOfWork;
}

/**
 * Work done as CSV (RFC 4180), a row a piece, oldest first: the list a bill is written from.
 *
 * The columns of money stand only where the business gives prices. Numbers are plain: a point, two decimals, nothing
 * else. A byte-order mark stands in front, without which a spreadsheet on Windows reads letters wrongly; a text that a
 * spreadsheet would run as a formula gets an apostrophe in front.
 *
 * Checked: tests/cli/costs.test.ts
 */
export function workCsv(words: Words, { prices }: Business, rows: readonly WorkRow[]): string {
  const heads = ['date', 'animal', 'tag', 'what', 'detail', 'foot', 'by', 'quantity'];
  const money = ['price', 'sum', 'currency'];
  return stringify(
    [
      [...heads, ...(prices ? money : [])],
      ...rows.map(({ animal, piece }) => [
        piece.date,
        animal.animal,
        animal.tag ?? '',
        words.say(`money.work.${piece.what}`),
        detailOf(words, animal, piece),
        piece.foot ? placeInWords(words, piece.foot, piece.claw) : '',
        piece.by,
        '1',
        ...(prices ? moneyOf(prices, piece) : []),
      ]),
    ],
    { bom: true, record_delimiter: '\r\n', escape_formulas: true },
  );
}

function detailOf(words: Words, animal: Animal, { what, visit, material, product }: PieceOfWork): string {
  if (what === 'visit') return words.say(`vocabulary.visit-kind.${animal.visits[visit]!.kind}`);
  return product?.product ?? (material ? words.say(`vocabulary.material.${material}`) : '');
}

/** Price, sum and currency; empty where this one has no price. */
function moneyOf(prices: NonNullable<Business['prices']>, { what, product }: PieceOfWork): string[] {
  const price = what === 'product' ? product?.cost : prices[what];
  return price === undefined
    ? ['', '', '']
    : [priceText(price), sumAsText(hundredthsOf(price)), prices.currency];
}
