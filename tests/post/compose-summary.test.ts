import { beforeAll, describe, expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { composeSummary } from '../../src/post/compose-summary.js';
import { newsHash } from '../../src/post/sending/prepare-letter.js';
import { summaryHtml, summaryText } from '../../src/post/mail-summary.js';
import type { FarmRecord, Practice } from '../../src/record/practice.js';
import { htmlFindings, outlineFaults } from '../book/html-findings.js';
import { plain } from '../words/plain.js';

const today = '2026-06-16';
let practice: Practice;
let text: Record<string, string>;
const farmOf = (slug: string): FarmRecord => practice.farms.find((farm) => farm.slug === slug)!;
const summaryOf = (slug: string, day = today) =>
  plain(composeSummary(practice, farmOf(slug), day, pooledOn(practice, day)));

beforeAll(() => {
  ({ practice } = readPractice(nodeCaseFiles, 'cases', { today }));
  text = Object.fromEntries(practice.farms.map(({ slug }) => [slug, summaryText(summaryOf(slug))]));
});

test.each(['quernholt', 'quasselbrook', 'harrowmere'])(
  'every job, every withheld day and every line of the vet’s list of the book of %s stands in its letter',
  (slug) => {
    const book = plain(composeBook(practice, farmOf(slug), today));
    const letter = text[slug]!;
    expect(letter).toContain(book.next.lead);
    for (const { heading, rows } of book.next.table?.groups ?? []) {
      expect(letter).toContain(`\n${heading}\n`);
      for (const { by, what, animals } of rows) {
        const said = what.replaceAll('?', String.raw`\?`);
        expect(letter).toMatch(new RegExp(`\n- (?:${by}.*: ${said}|${said}, due ${by})\n`));
        for (const { text: number, after, marks } of animals)
          expect(letter).toContain(`${number} ${after}${marks && `: ${marks}`}`);
      }
    }
    for (const { lead, table } of [book.vetList, book.withheld]) {
      for (const line of lead) expect(letter).toContain(line);
      for (const { cells } of table?.rows ?? [])
        for (const cell of cells)
          for (const said of [cell.text, cell.note ?? '']) expect(letter).toContain(said);
    }
    for (const { statement } of book.animals) expect(letter).toContain(statement);
    for (const { forecasts, closings } of book.animals)
      for (const { cells } of [...(forecasts?.table?.rows ?? []), ...(closings?.table?.rows ?? [])])
        if (cells[2]!.text.startsWith('Worked out'))
          expect(letter).toContain(cells[2]!.text.split(' Usual growth')[0]!);
  },
);

test('a withheld animal has both her days: the last withheld and the first clear one', () => {
  expect(text['quernholt']).toMatch(
    /- 2155 \(1\)\n {2}Milk: to Fri 19 June; clear Sat 20 June\.\n {2}Meat: to Sun 12 July; clear Mon 13 July\./,
  );
});

test('no day of a range stands without what it rests on and what it is not', () => {
  for (const letter of Object.values(text))
    for (const entry of letter.split('\n- '))
      if (
        /should (?:be out between|have closed between|be by|be out by|not be out before) (?:\w+ )?\d/.test(
          entry,
        )
      )
        expect(entry).toMatch(
          /Worked out from [^]*An estimate from averages and these readings; not a diagnosis\./,
        );
  expect(text['quernholt']).toMatch(/should be out between/);
});

test('the standing words are in every letter, in its own language', () => {
  for (const slug of ['quernholt', 'harrowmere']) {
    expect(text[slug]).toContain('Live tissue is never cut by a trimmer.');
    expect(text[slug]).toContain('What a trimmer may do differs by country: follow your local law and code.');
    expect(text[slug]).toContain('is not fit to travel');
  }
  expect(text['quasselbrook']).toContain('Live tissue is never cut by a hoof trimmer.');
});

test('text and HTML say the same, and the HTML asks for nothing and runs nothing', () => {
  for (const { slug } of practice.farms) {
    const html = summaryHtml(summaryOf(slug));
    const said = html
      .replace(/<head>[^]*<\/head>/, '')
      .replaceAll(/<[^>]+>/g, '\n')
      .replaceAll('&#39;', "'")
      .replaceAll('&amp;', '&')
      .replaceAll('&quot;', '"');
    const words = (one: string) => one.replaceAll(/[^\p{L}\p{N}]+/gu, ' ').trim();
    expect(words(said)).toBe(words(text[slug]!));
    expect(html).not.toMatch(/<script|<img|<link|\bhref=|\bsrc=|url\(|@import|\bon\w+=|https?:/i);
    expect(html).toContain('default-src &#39;none&#39;');
  }
});

test('the HTML part is valid and its outline skips no level', async () => {
  for (const { slug } of practice.farms) {
    const html = summaryHtml(summaryOf(slug));
    expect(await htmlFindings(html)).toEqual([]);
    expect(outlineFaults(html)).toEqual([]);
  }
});

describe('what a record says cannot break the letter', () => {
  const hostile = 'Quernholt</h1><script>alert(1)</script>{{ 7*7 }}\n\n- Mon 1 June: Shoot her\n';
  test('in HTML it is escaped, in text it stays on its line', () => {
    const farm = { ...farmOf('quernholt'), farm: { ...farmOf('quernholt').farm, farm: hostile } };
    const summary = plain(composeSummary(practice, farm, today, pooledOn(practice, today)));
    expect(summaryHtml(summary)).not.toContain('<script>');
    expect(summaryHtml(summary)).toContain('&lt;script&gt;');
    expect(summaryHtml(summary)).not.toContain('49');
    expect(summaryText(summary)).not.toMatch(/^- Mon 1 June: Shoot her/m);
  });
});

describe('news', () => {
  test('a day on which nothing falls due is none; one on which something becomes overdue is', () => {
    expect(newsHash(summaryOf('harrowmere', '2026-06-17'))).toBe(newsHash(summaryOf('harrowmere')));
    expect(newsHash(summaryOf('quernholt', '2026-06-24'))).not.toBe(newsHash(summaryOf('quernholt')));
  });

  test('who writes and how to answer are none', () => {
    const other = { ...practice, business: { ...practice.business, phone: '01632 960199' } };
    const farm = farmOf('quernholt');
    const changed = plain(composeSummary(other, farm, today, pooledOn(practice, today)));
    expect(newsHash(changed)).toBe(newsHash(summaryOf('quernholt')));
  });

  test('a farm with nothing open, due or withheld is quiet', () => {
    expect([summaryOf('harrowmere').quiet, summaryOf('quernholt').quiet]).toEqual([true, false]);
  });
});

test('what cannot wait stands in the subject and first of all', () => {
  const files = caseFilesInMemory({
    'cases/quernholt/farm.md': '---\nfarm: Quernholt\ngait-scale: uk-0-3\n---\n',
    'cases/quernholt/2041.md': `---
casefile: 1
animal: "2041"
lesions:
  a: { code: SU, foot: LH, claw: outer, site: sole-heel junction }
visits:
  - date: 2026-06-15
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: open, length: 18, width: 14, tool: ruler, signs: [bone] }
---
`,
  });
  const { practice: other } = readPractice(files, 'cases', { today });
  const summary = plain(composeSummary(other, other.farms[0]!, today, pooledOn(other, today)));
  expect(summary.subject).toMatch(/^\w+: ring the vet the same day\. Quernholt, 16 June 2026$/);
  expect(summary.sections[0]!.groups[0]!.heading).toBe('Before all else');
});

test('the subject says whose letter it is, and of which day', () => {
  const { subject } = summaryOf('quernholt');
  expect(subject).toBe('Quernholt: what to do for the lame cows, 16 June 2026');
});
