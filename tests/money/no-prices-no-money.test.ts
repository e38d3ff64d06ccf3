import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { composeCase } from '../../src/book/compose-case.js';
import { renderBook } from '../../src/book/render-book.js';
import { handoverMessage } from '../../src/cli/handover.js';
import { workCsv } from '../../src/cli/costs.js';
import { renderHandover } from '../../src/handover/render-handover.js';
import { costsWithin, farmWork, isOurs } from '../../src/money/costs.js';
import { hundredthsOf } from '../../src/money/hundredths.js';
import { yearCosts } from '../../src/money/year-costs.js';
import type { Practice } from '../../src/record/practice.js';
import { wordsOf } from '../../src/reference/words.js';
import { handoverOf, today } from '../handover/a-handover.js';
import { anyPractice } from './any-business.js';

const moneyWords =
  /\b(?:costs?|costing|prices?|priced|money|currency|invoices?|bills?|GBP|pounds?|euros?|dollars?)\b|[£€$]/i;

/** Everything a farm, its vet or its trimmer is handed: book, case, handover as page and mail, the list of work. */
async function handedOut(practice: Practice): Promise<readonly (readonly [string, string])[]> {
  const farm = practice.farms[0]!;
  const { business } = practice;
  const alone = { ...farm, cases: farm.cases.slice(0, 1) };
  const [book, one] = await Promise.all(
    [composeBook(practice, farm, today), composeCase(practice, alone, today)].map(renderBook),
  );
  const page = handoverOf(farm, { business, ask: 'Will you come?' });
  const handover = renderHandover(page);
  const { message } = handoverMessage(page, { business, farm, today, name: 'x.html', html: handover });
  const rows = farmWork(farm, today).flatMap(({ record, pieces }) =>
    pieces.map((piece) => ({ animal: record.animal, piece })),
  );
  return [
    ['book', book!],
    ['case', one!],
    ['handover', handover],
    ['mail', `${message.text}${message.html}`],
    ['work', workCsv(wordsOf('en-GB'), business, rows)],
  ];
}

const said = (html: string) => html.replaceAll(/<style>[^]*?<\/style>/g, '');

test('no price in the files, no word of money anywhere; and of another farm not a word either', async () => {
  await fc.assert(
    fc.asyncProperty(anyPractice(undefined), async (practice) => {
      for (const [what, text] of await handedOut(practice)) {
        expect(moneyWords.exec(said(text))?.[0], what).toBeUndefined();
        expect(/harrowmere|90001|Fennimarsh|Bellfurrow/i.exec(text)?.[0], what).toBeUndefined();
      }
    }),
    { numRuns: 12 },
  );
}, 60_000);

const prices = { currency: 'GBP', visit: 45, block: 14.5, wrap: 4, 'milk-litre': 0.385 };

test('that can fail: with prices the book and the list of work speak of money, the vet’s page does not', async () => {
  const [practice] = fc.sample(anyPractice(prices), { numRuns: 1, seed: 3 });
  const found = (await handedOut(practice!))
    .filter(([, text]) => moneyWords.test(said(text)))
    .map(([what]) => what);
  expect(found).toContain('book');
  expect(found).toContain('work');
  expect(found).not.toContain('handover');
  expect(found).not.toContain('mail');
});

test('every total is the sum of its lines; the years add up to all work; each piece is in a sum or said to be left out', () => {
  fc.assert(
    fc.property(anyPractice(prices), ({ business, farms: [farm] }) => {
      const work = farmWork(farm!, today);
      const all = costsWithin({ business, farm: farm!.farm }, work, () => true)!;
      const added = (sums: readonly bigint[]) => sums.reduce((sum, one) => sum + one, 0n);
      expect(all.total).toBe(added(all.lines.map(({ sum }) => sum)));
      const years = yearCosts(business, farm!, today);
      for (const what of ['visit', 'block', 'wrap', 'product'] as const) {
        const inYears = years.flatMap(({ costs }) => costs.lines.filter((line) => line.what === what));
        const line = all.lines.find((one) => one.what === what);
        // Milk apart, since a year rounds its own litres.
        expect(added(inYears.map(({ sum }) => sum))).toBe(line?.sum ?? 0n);
        const left = all.notInSum
          .filter((one) => one.what === what)
          .reduce((sum, { count }) => sum + count, 0);
        const pieces = work.flatMap((hers) => hers.pieces).filter((piece) => piece.what === what);
        expect((line?.count ?? 0) + left).toBe(pieces.length);
      }
      const ours = work.flatMap(({ pieces }) => pieces).filter(({ by }) => isOurs(business, by));
      const visits = ours.filter(({ what }) => what === 'visit').length;
      expect(all.lines.find(({ what }) => what === 'visit')?.sum ?? 0n).toBe(hundredthsOf(visits, 45));
    }),
    { numRuns: 60 },
  );
});
