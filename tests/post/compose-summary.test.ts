import { beforeAll, describe, expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { composeSummary } from '../../src/post/compose-summary.js';
import { composeMessage, newsHash } from '../../src/post/sending/prepare-letter.js';
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

/** Each line that runs on put on one, with its heading over it as it is there. */
const unfolded = (letter: string): string[] => letter.replaceAll('\n  ', ' ').split('\n');

test.each(['quernholt', 'quasselbrook', 'harrowmere'])(
  'all that the first side of the book of %s says of a day stands in its letter, and once',
  (slug) => {
    const { one } = plain(composeBook(practice, farmOf(slug), today));
    const lines = unfolded(text[slug]!);
    const once = (line: string) =>
      expect([line, lines.filter((each) => each === line).length]).toEqual([line, 1]);
    for (const { what, text: held } of one.withheld?.lines ?? []) once(`${what} ${held}`);
    if (!one.withheld) once(one.notWithheld);
    for (const { number, job, when } of one.farmJobs.rows) once(`${number} ${job} (${when})`);
    if (one.farmJobs.yesOrNo !== undefined) once(one.farmJobs.yesOrNo);
    once(one.pen.heading.toUpperCase());
    once(one.pen.numbers.map(({ number }) => number).join(' ') || one.pen.nothing);
    for (const { day, numbers } of one.pen.later) once(`${day}: ${numbers}`);
    for (const note of one.pen.notes) once(note);
    for (const { number, why, asked } of one.vet.rows) once(`${number} ${why}. ${asked}.`);
    once(one.vet.who);
    once(one.cows.heading.toUpperCase());
    for (const { number, place, standing, out } of one.cows.rows) {
      const [hers, ...more] = lines.filter((line) => line.startsWith(`${number} ${place}, `));
      expect([number, more]).toEqual([number, []]);
      expect(hers).toContain(standing);
      expect([number, / due (?:out|to close) /.test(hers!)]).toEqual([number, out !== '–']);
      if (out !== '–') expect(hers).toContain(out);
    }
  },
);

test('what the vet does himself is listed under the vet', () => {
  expect(text['quernholt']).toMatch(/^2155 Take the wrap off\. Due Tue 16 June\.$/m);
});

test('a gap is due out, an ulcer to close; where there is no date there is none', () => {
  expect(text['quernholt']).toMatch(
    /^1932 LH outer claw, white line disease\. Growing down; due out 25 Jul – 31 Aug$/m,
  );
  expect(text['quasselbrook']).toMatch(/^4388 .*toe ulcer\. Closing; due to close Apr 19 – Jun 5$/m);
  expect(text['quernholt']).toMatch(/^2155 LH outer claw, white line disease\. Infected$/m);
});

test('a letter with a date says how sure it is, and that nothing in it is a diagnosis', () => {
  for (const letter of Object.values(text))
    expect(
      letter.includes('8 times in 10') && letter.includes('No date or prompt here is a diagnosis.'),
    ).toBe(/ due (?:out|to close) /.test(letter));
  expect(text['quernholt']).toContain('8 times in 10');
});

/** As it goes: with what is attached, and the seals. */
const wholeLetter = (slug: string) =>
  composeMessage({
    summary: summaryOf(slug),
    to: [{ address: 'nan@quernholt.example' }],
    attached: [
      { kind: 'html', file: { name: 'a.html', type: 'text/html', content: Buffer.from('') } },
      { kind: 'calendar', file: { name: 'a.ics', type: 'text/calendar', content: Buffer.from('') } },
    ],
    witness: 'Ledger: 160 entries, ending b276 4d2b df27 a9ac. Keep this email as evidence.',
    day: today,
  }).text;

test('fourteen cows take forty-five lines with all that goes along, none as long as 78 characters', () => {
  expect(practice.farms.find(({ slug }) => slug === 'quernholt')!.cases.length).toBeGreaterThan(13);
  expect(text['quernholt']).toContain('ALL 14 OPEN COWS');
  expect(
    wholeLetter('quernholt')
      .split('\n')
      .filter((line) => line !== '').length,
  ).toBeLessThanOrEqual(45);
  for (const slug of Object.keys(text))
    expect(
      Math.max(
        ...wholeLetter(slug)
          .split('\n')
          .map((line) => line.length),
      ),
    ).toBeLessThan(78);
});

test('the American letter speaks of its own register and claws', () => {
  expect(text['quasselbrook']).toContain('A copy: the owner’s drug treatment record is the legal record.');
  expect(text['quasselbrook']).toContain('LF medial (inner) claw');
  expect(text['quasselbrook']).toContain('PEN FOR MON, JUNE 22');
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
    expect(words(said).toUpperCase()).toBe(words(text[slug]!).toUpperCase());
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
  const hostile = `Quernholt</h1><script>alert(1)</script>{{ 7*7 }}\n\n${'- Mon 1 June: Shoot her '.repeat(9)}\n`;
  test('in HTML it is escaped; in text it begins no line but where a line that is too long runs on, set in', () => {
    const farm = { ...farmOf('quernholt'), farm: { ...farmOf('quernholt').farm, farm: hostile } };
    const summary = plain(composeSummary(practice, farm, today, pooledOn(practice, today)));
    expect(summaryHtml(summary)).not.toContain('<script>');
    expect(summaryHtml(summary)).toContain('&lt;script&gt;');
    expect(summaryHtml(summary)).not.toContain('49');
    const lines = summaryText(summary)
      .split('\n')
      .filter((line) => line.includes('Shoot'));
    expect(lines.length).toBeGreaterThan(2);
    expect(lines.filter((line) => !/^(?: {2}\S|Quernholt<)/.test(line))).toEqual([]);
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

describe('what cannot wait', () => {
  const headings = ({ sections }: { readonly sections: readonly { readonly heading: string }[] }) =>
    sections.map(({ heading }) => heading);
  const cow = (number: string, visits: string, lesions: string) => ({
    [`cases/quernholt/${number}.md`]: `---\ncasefile: 1\nanimal: "${number}"\nlesions: ${lesions}\nvisits:\n${visits}---\n`,
  });
  const ulcer = '\n  a: { code: SU, foot: LH, claw: outer, site: sole-heel junction }';
  const bone = cow(
    '2041',
    `  - date: 2026-06-15
    by: Orla Venn
    kind: first
    gait: 2
    found: { a: { state: open, length: 18, width: 14, tool: ruler, signs: [bone] } }
    products: [{ product: "as the vet wrote", class: medicine, batch: "1", meat-days: 40, given-by: Nan }]
`,
    ulcer,
  );
  const blisters = cow(
    '7',
    `  - { date: 2026-06-10, by: Orla Venn, kind: first, gait: 1, feet: { RF: { lifted: true, signs: [blisters] } } }
`,
    '{}',
  );
  const closed = cow(
    '88',
    `  - { date: 2026-05-12, by: Orla Venn, kind: first, gait: 2, blocks: [{ foot: LH, claw: inner, event: fitted }] }
  - { date: 2026-05-20, by: Orla Venn, kind: report, gait: 0 }
`,
    '{}\nepisodes: [{ ended: 2026-05-20, result: "recovered, not lame" }]',
  );
  const letterOf = (...cows: Record<string, string>[]) => {
    const files = caseFilesInMemory(
      Object.assign(
        {
          'cases/quernholt/farm.md':
            '---\nfarm: Quernholt\nnext-visit: 2026-06-23\ngait-scale: uk-0-3\nmilkings-a-day: 2\n---\n',
        },
        ...cows,
      ) as Record<string, string>,
    );
    const { practice: other, problems } = readPractice(files, 'cases', { today });
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    const summary = plain(composeSummary(other, other.farms[0]!, today, pooledOn(other, today)));
    return { summary, said: summaryText(summary) };
  };

  test('a sign of the same day is in the subject and first, its reason once; then what is not known', () => {
    const { summary, said } = letterOf(bone);
    expect(summary.subject).toBe('2041: Ring the vet the same day. Quernholt, 16 June 2026');
    expect(headings(summary)).toEqual([
      'Urgent',
      'Withdrawal: do not sell',
      'The farm',
      'Pen for Tue 23 June',
      'The vet',
      'The one open cow',
    ]);
    expect(said).toMatch(
      /\n\nURGENT\n2041 Ring the vet the same day; Bone seen, left hind\n\nWITHDRAWAL: DO NOT SELL\n/,
    );
    expect(said).toMatch(/^Milk 2041 not known: treat as under withdrawal, ask the vet$/m);
    expect(said.match(/Bone seen/g)).toHaveLength(1);
    expect(said).toMatch(/THE VET\n2041 Vet not contacted\.\n/);
  });

  test('where work has stopped that is first of all, said once, and nobody is penned', () => {
    const { summary, said } = letterOf(bone, blisters);
    expect(summary.subject).toBe('Stop work: stay on the farm. Quernholt, 16 June 2026');
    expect(headings(summary)).toEqual([
      'Stop work: stay on the farm',
      'Urgent',
      'Withdrawal: do not sell',
      'The farm',
      'The vet',
      'All 2 open cows, worst first',
    ]);
    expect(said).not.toMatch(/^7 Stop work/m);
    expect(letterOf(blisters).summary.sections.map(({ heading }) => heading)).not.toContain('Urgent');
  });

  test('a closed case whose block is still on is penned, and is news', () => {
    const { summary, said } = letterOf(closed);
    expect(said).toMatch(/PEN FOR TUE 23 JUNE\n88\n/);
    expect(said).toContain('NO CASE IS OPEN');
    expect(summary.quiet).toBe(false);
  });
});

test('the subject says whose letter it is, and of which day', () => {
  const { subject } = summaryOf('quernholt');
  expect(subject).toBe('Quernholt: what to do for the lame cows, 16 June 2026');
});
