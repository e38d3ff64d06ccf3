import { expect, test } from 'vitest';
import { composeAnnex } from '../../src/book/annex.js';
import { composeBook } from '../../src/book/compose-book.js';
import { composeCase } from '../../src/book/compose-case.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { shortHead } from '../../src/ledger/read-ledger.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';
import { animalText, farmText } from '../casefile/generated-cases.js';
import { type Files, sealedFiles, sealing } from '../ledger/sealed-files.js';
import { plain } from '../words/plain.js';

const today = '2026-11-25';
const cow = 'cases/quernholt/2086.md';
const files: Files = { 'cases/quernholt/farm.md': farmText, [cow]: animalText };

function bookOf(now: Files) {
  const reading = readPractice(caseFilesInMemory(now), 'cases', { today });
  expect(reading.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  const [farm] = reading.practice.farms;
  const seals = reading.sealsOf('quernholt')!;
  return {
    seals,
    page: plain(composeBook(reading.practice, farm!, today, { seals })),
    annex: plain(composeAnnex(reading.practice, farm!, today, { seals, read: () => undefined })),
    alone: plain(composeCase(reading.practice, farm!, today, { seals })),
  };
}

const visitsIn = ({ annex }: ReturnType<typeof bookOf>) => annex.animals[0]!.log.visits;
const sealingIn = ({ annex }: ReturnType<typeof bookOf>) =>
  annex.last.sections.find(({ heading }) => heading.includes('sealed'))!.items;

test('a farm without a ledger is said to be unsealed, and nothing is late', () => {
  const book = bookOf(files);
  expect(sealingIn(book)).toEqual([
    'These records are not sealed: there is no way to show whether one was changed after it was made. A seal proves nothing about the time before it.',
  ]);
  expect(book.page.running).toBe('Quernholt · 25 November 2026');
  expect(visitsIn(book)[0]!.about).not.toContain('late');
});

test('the head is at the foot of every sheet, of the book and of a page alone; late is more than seven days', () => {
  const late = bookOf(sealedFiles(files, '2026-01-14'));
  const head = shortHead(late.seals.head!);
  expect(late.page.running).toBe(`Quernholt · 25 November 2026 · sealed to ${head} (4)`);
  expect(late.alone.running).toContain(head);
  expect(late.annex.running).toContain(head);
  expect(late.page.cows[0]!.back.rows[0]!.by).toContain('recorded late: sealed 8 days after');
  expect(late.alone.alone!.about.items.join(' ')).toContain('proves nothing about the time before');
  expect(sealingIn(late)[0]).toContain(`a chain of 4 seals, whose last is ${head.replaceAll(' ', '\u00a0')}`);
  expect(sealingIn(late)[1]).toBe(
    'One of 1 sealed records was first sealed more than 7 days after its date.',
  );
  expect(visitsIn(late)[0]!.about).toMatch(/; recorded late: sealed 8 days after$/);
  const inTime = bookOf(sealedFiles(files, '2026-01-13'));
  expect(visitsIn(inTime)[0]!.about).not.toContain('late');
  expect(sealingIn(inTime)).toHaveLength(1);
});

const corrected = animalText
  .replace('top: 17', 'top: 27')
  .replace('    note:', '    weight: 655\n    recheck: 2026-02-03\n    note:')
  .replace(
    '---\n',
    '---\namended: [{ date: 2026-02-02, by: Nan Thistlewrack, why: "tag found" }]\ntag: UK 000123 402086\n',
  )
  .replace(
    /---\n$/,
    '    amended: [{ date: 2026-02-01, by: Orla Venn, why: "read off the wrong line" }]\n---\n',
  )
  .replace(
    'line: heel }',
    'line: dorsal, amended: [{ date: 2026-01-31, by: Orla Venn, why: "other line" }] }',
  );

test('a correction shows what was said before, what is said now, who and why: with the visit and in one list', () => {
  const before = sealedFiles(files, '2026-01-06');
  for (const now of [
    { ...before, [cow]: corrected },
    sealedFiles({ ...before, [cow]: corrected }, '2026-02-03'),
  ]) {
    const book = bookOf(now);
    const amended = visitsIn(book)[0]!.done!.whole.filter(({ label }) => label === 'Amended');
    expect(amended.map(({ value }) => value)).toEqual([
      '1 February 2026; Orla Venn; read off the wrong line; a top: 17 before, 27 now; recheck: nothing before, 3 February 2026 now; weight: nothing before, 655 now',
    ]);
    expect(
      book.annex.animals[0]!.record.facts.filter(({ label }) => label === 'Corrected').map(
        ({ value }) => value,
      ),
    ).toEqual([
      'identity; 2 February 2026; Nan Thistlewrack; tag found; tag: nothing before, UK 000123 402086 now',
      'lesion a; 31 January 2026; Orla Venn; other line; line: heel before, dorsal now',
    ]);
    const { table } = book.annex.last.corrections!;
    expect(
      table!.rows.map(({ cells }) => cells.map(({ text, note, lines }) => [text, note, ...(lines ?? [])])),
    ).toEqual([
      [
        ['2086: lesion a', undefined],
        ['31 January 2026', 'Orla Venn'],
        ['other line', undefined],
        ['', undefined, 'line: heel'],
        ['', undefined, 'line: dorsal'],
      ],
      [
        ['2086: visit of 6 January 2026', undefined],
        ['1 February 2026', 'Orla Venn'],
        ['read off the wrong line', undefined],
        ['', undefined, 'a top: 17', 'recheck: nothing', 'weight: nothing'],
        ['', undefined, 'a top: 27', 'recheck: 3 February 2026', 'weight: 655'],
      ],
      [
        ['2086: identity', undefined],
        ['2 February 2026', 'Nan Thistlewrack'],
        ['tag found', undefined],
        ['', undefined, 'tag: nothing'],
        ['', undefined, 'tag: UK 000123 402086'],
      ],
    ]);
  }
});

test('what was corrected and sealed the day it was first sealed is not reported; by a later seal it is, whatever day it says', () => {
  const before = sealedFiles(files, '2026-02-03');
  const told = (day: string) => {
    const book = bookOf(sealedFiles({ ...before, [cow]: corrected }, day));
    return {
      visit: visitsIn(book)[0]!.done!.whole.filter(({ label }) => label === 'Amended').length,
      declared: book.annex.animals[0]!.record.facts.filter(({ label }) => label === 'Corrected').length,
      listed: book.annex.last.corrections?.table?.rows.length ?? 0,
      sheet: JSON.stringify(book.page).includes('read off the wrong line'),
    };
  };
  expect(told('2026-02-03')).toEqual({ visit: 0, declared: 0, listed: 0, sheet: false });
  expect(told('2026-02-04')).toEqual({ visit: 1, declared: 2, listed: 3, sheet: true });
});

test('where nothing was sealed before a correction, that is said and nothing is made up', () => {
  const book = bookOf({ ...files, [cow]: corrected });
  expect(book.annex.last.corrections!.table!.rows.map(({ cells }) => cells[3]!.text)).toEqual(
    Array.from({ length: 3 }, () => 'not sealed before'),
  );
});

test('what was taken out is named, with who and why', () => {
  const second = animalText.replace(
    /---\n$/,
    '  - { date: 2026-02-03, by: Orla Venn, kind: recheck, gait: 1 }\n---\n',
  );
  const sealed = sealedFiles({ ...files, [cow]: second }, '2026-02-03');
  const without = { ...sealed, [cow]: animalText };
  const withdrawn = sealing(without, '2026-02-04', {
    withdraw: { content: { by: 'Orla Venn', why: 'another cow' }, which: () => true },
  });
  const book = bookOf({ ...without, 'cases/quernholt/.growdown/ledger.jsonl': withdrawn.text });
  const [row] = book.annex.last.corrections!.table!.rows;
  expect(row!.cells.map(({ text, note, lines }) => [text, note, ...(lines ?? [])])).toEqual([
    ['2086', undefined],
    ['4 February 2026', 'Orla Venn'],
    ['another cow', undefined],
    ['', undefined, 'visit of 3 February 2026'],
    ['removed', undefined],
  ]);
});
