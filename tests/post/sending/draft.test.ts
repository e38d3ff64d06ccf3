import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import PostalMime from 'postal-mime';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { browserProgram } from '../../browser/find-browser.js';
import { animalFile } from '../../cli/run-in-folder.js';
import { businessFile, farmFileOf, mailFolder, quernholt } from './mail-folder.js';

const eml = (folder: string, slug = 'quernholt') => readFileSync(join(folder, 'books', `${slug}.eml`));

test('a draft holds the summary, the very book that `books` writes, and the calendar', async () => {
  const { folder, growdown } = mailFolder(quernholt);
  const run = await growdown('post', 'quernholt');
  expect(run).toEqual({
    code: 0,
    out: expect.stringMatching(
      /^books.quernholt\.eml {2}to nan@quernholt\.example; \d+(?:\.\d)? [kM]B with quernholt-2026-06-16\.html, quernholt\.ics\n$/,
    ) as string,
    err: '',
  });
  const read = await PostalMime.parse(eml(folder));
  expect(read.from?.address).toBe('office@quillfen.example');
  expect(read.replyTo?.map(({ address }) => address)).toEqual(['desk@quillfen.example']);
  expect(read.to).toEqual([{ name: 'Nan of Quernholt', address: 'nan@quernholt.example' }]);
  expect(read.headers.find(({ key }) => key === 'x-unsent')?.value).toBe('1');
  expect(read.bcc).toBeUndefined();
  await growdown('books');
  const [book, calendar] = read.attachments;
  expect(
    Buffer.from(book!.content as ArrayBuffer).equals(readFileSync(join(folder, 'books/quernholt.html'))),
  ).toBe(true);
  expect(calendar!.mimeType).toBe('text/calendar');
  expect(read.text).toContain(
    '\nAttached: the case book with the cautions and the basis of dates; a calendar.\n',
  );
});

test('the same files give the same draft, the first time and after', async () => {
  const one = mailFolder(quernholt);
  const other = mailFolder(quernholt);
  await one.growdown('post', 'quernholt');
  await other.growdown('post', 'quernholt');
  const first = eml(one.folder);
  expect(eml(other.folder).equals(first)).toBe(true);
  await one.growdown('post', 'quernholt');
  expect(eml(one.folder).equals(first)).toBe(true);
});

test('a farm that wants a PDF gets one, printed from the book that goes along', async () => {
  const program = await browserProgram();
  const { folder, growdown } = mailFolder(
    {
      ...quernholt,
      'cases/quernholt/farm.md': farmFileOf('Quernholt', 'nan@quernholt.example', 'send: both\n'),
    },
    undefined,
    { browser: () => ({ path: program }) },
  );
  const run = await growdown('post', 'quernholt');
  expect(run.err).toBe('');
  const read = await PostalMime.parse(eml(folder));
  expect(read.attachments.map(({ filename }) => filename)).toEqual([
    'quernholt-2026-06-16.html',
    'quernholt-2026-06-16.pdf',
    'quernholt.ics',
  ]);
  expect(
    Buffer.from(read.attachments[1]!.content as ArrayBuffer)
      .subarray(0, 5)
      .toString(),
  ).toBe('%PDF-');
  expect(read.text).toMatch(/; the\s+case\s+book\s+to\s+print,\s+\d+\s+pages;\s+a\s+calendar\./);
});

test('without a browser a farm that wants a PDF is told what to install, and how to go on', async () => {
  const { folder, growdown } = mailFolder({
    ...quernholt,
    'cases/quernholt/farm.md': farmFileOf('Quernholt', 'nan@quernholt.example', 'send: pdf\n'),
  });
  const run = await growdown('post', 'quernholt');
  expect(run.code).toBe(2);
  expect(run.err).toMatch(/quernholt: no mail: no browser[^]*apt install chromium[^]*--attach html/);
  expect(existsSync(join(folder, 'books'))).toBe(false);
  expect((await growdown('post', 'quernholt', '--attach', 'html')).code).toBe(0);
});

test('without a browser a farm that has both sent gets the book as HTML, and it is said why', async () => {
  const { folder, growdown } = mailFolder({
    ...quernholt,
    'cases/quernholt/farm.md': farmFileOf('Quernholt', 'nan@quernholt.example', 'send: both\n'),
  });
  const run = await growdown('post', 'quernholt');
  expect(run.code).toBe(0);
  expect(run.err).toMatch(/quernholt: the book goes along as HTML alone: no browser[^]*apt install chromium/);
  const { attachments } = await PostalMime.parse(eml(folder));
  expect(attachments.map(({ mimeType }) => mimeType)).toEqual(['text/html', 'text/calendar']);
  expect((await growdown('post', 'quernholt', '--attach', 'both')).code).toBe(2);
});

describe('a farm whose mail cannot go anywhere', () => {
  test.each([
    [undefined, /farm\.md: no address to write to, expected `contact: \{ email/],
    ['nan at quernholt', /farm\.md:6:\d+: contact\.email is `nan at quernholt`, expected one bare address/],
    ['nan@quernholt.example, gil', /contact\.email is `nan@quernholt\.example, gil`/],
    ['nan@quernholt.example\\r\\nBcc: spy@elsewhere.example', /contact\.email is/],
  ])('%j', async (email, said) => {
    const { folder, growdown } = mailFolder({
      ...quernholt,
      'cases/quernholt/farm.md': farmFileOf('Quernholt', email),
    });
    const run = await growdown('post', 'quernholt');
    expect(run.code).toBe(1);
    expect(run.err).toMatch(said);
    expect(existsSync(join(folder, 'books'))).toBe(false);
  });
});

test('a book too large says what is large, and each way out', async () => {
  const { folder, growdown } = mailFolder(quernholt);
  const run = await growdown('post', 'quernholt', '--max-mb', '0.1');
  expect(run.code).toBe(2);
  expect(run.err).toMatch(/the message is 0\.\d MB, more than 0\.1 MB: quernholt-2026-06-16\.html 0\.\d MB/);
  expect(run.err).toMatch(/--open-only[^]*--max-mb 1[^]*growdown books --farm quernholt/);
  expect(run.err).not.toContain('--attach');
  expect(existsSync(join(folder, 'books'))).toBe(false);
  expect((await growdown('post', 'quernholt', '--max-mb', '21')).err).toContain('Expected at most 20');
});

test('pictures are made smaller until the book keeps to its share of the message', async () => {
  const dots = Buffer.from(
    Array.from({ length: 900 * 900 * 3 }, (_, at) => ((at * at * 2654435761) >>> 13) & 255),
  );
  const photo = await sharp(dots, { raw: { width: 900, height: 900, channels: 3 } })
    .jpeg({ quality: 95 })
    .toBuffer();
  const { folder, growdown } = mailFolder({
    ...quernholt,
    'cases/quernholt/2086.md': animalFile('2086').replace(
      '    found:',
      '    photos: [{ file: photos/a.jpg, foot: LH, claw: outer, view: sole, when: after }]\n    found:',
    ),
    'cases/quernholt/photos/a.jpg': photo,
  });
  const sizes: number[] = [];
  for (const mb of ['10', '0.7']) {
    expect((await growdown('post', 'quernholt', '--max-mb', mb)).code).toBe(0);
    const read = await PostalMime.parse(eml(folder));
    sizes.push((read.attachments[0]!.content as ArrayBuffer).byteLength);
    expect(eml(folder).length).toBeLessThanOrEqual(Number(mb) * 1e6);
  }
  expect(photo.length).toBeGreaterThan(420_000);
  expect(sizes[0]).toBeGreaterThan(420_000);
  expect(sizes[1]).toBeLessThanOrEqual(420_000);
});

test('what cannot be asked for together is said before anything is done', async () => {
  const { growdown } = mailFolder(quernholt);
  for (const [words, said] of [
    [[], 'name the farm'],
    [['quernholt', '--all-due'], 'leave out quernholt'],
    [['--all-due', '--again', '--send'], '`--again` sends what a farm has already'],
    [['quernholt', '--again'], '`--again` goes with `--send`'],
    [['quernholt', '--came', '--send'], '`--came` notes'],
    [['quernhlt'], 'quernholt'],
  ] as const) {
    const run = await growdown('post', ...words);
    expect(run.code).toBe(2);
    expect(run.err).toContain(said);
  }
});

test('without an address of the business a draft has no sender, and nothing can be sent', async () => {
  const { folder, growdown } = mailFolder({
    ...quernholt,
    'cases/business.md': '---\nbusiness: Quillfen\n---\n',
  });
  expect((await growdown('post', 'quernholt')).code).toBe(0);
  expect(eml(folder).toString('latin1')).not.toMatch(/^From:/m);
  const bad = mailFolder({
    ...quernholt,
    'cases/business.md': businessFile.replace('office@quillfen.example', 'office'),
  });
  const run = await bad.growdown('post', 'quernholt');
  expect([run.code, run.err]).toEqual([2, expect.stringContaining('business.md: email is `office`')]);
});

test('a calendar whose memory is damaged is not begun anew, and no letter goes without it', async () => {
  const { folder, growdown } = mailFolder({ ...quernholt, 'cases/quernholt/.growdown/calendar.json': '{' });
  const run = await growdown('post', 'quernholt');
  expect(run.code).toBe(1);
  expect(run.err).toContain('quernholt: no mail: ./cases/quernholt/.growdown/calendar.json: cannot be read');
  expect(existsSync(join(folder, 'books'))).toBe(false);
});

test('a line of what was posted that cannot be read is reported and left as it is', async () => {
  const { folder, growdown } = mailFolder({ ...quernholt, 'cases/quernholt/.growdown/posted.jsonl': 'x\n' });
  const run = await growdown('post', 'quernholt');
  expect([run.code, run.err]).toEqual([
    0,
    expect.stringMatching(/posted\.jsonl:1: cannot be read and is passed over/),
  ]);
  expect(readFileSync(join(folder, 'cases/quernholt/.growdown/posted.jsonl'), 'utf8')).toBe('x\n');
});

test('a dry run says to whom and how large, and writes nothing', async () => {
  const { folder, growdown } = mailFolder(quernholt);
  const run = await growdown('post', 'quernholt', '--dry-run');
  expect(run.out).toMatch(/^quernholt {2}would be drafted to nan@quernholt\.example; /);
  expect(readdirSync(folder)).toEqual(['cases']);
  expect(readdirSync(join(folder, 'cases/quernholt'))).toEqual(['2086.md', 'farm.md']);
});

test("one farm's letter holds no other farm's name, though both are read", async () => {
  const { folder, growdown } = mailFolder({
    ...quernholt,
    'cases/harrowmere/farm.md': farmFileOf('Harrowmere', 'gil@harrowmere.example'),
    'cases/harrowmere/31.md': animalFile('31'),
  });
  const run = await growdown('post', '--all-due');
  expect(run.out).toContain('2 farms: 2 drafted');
  for (const [slug, others] of [
    ['quernholt', /harrowmere/i],
    ['harrowmere', /quernholt/i],
  ] as const) {
    const read = await PostalMime.parse(eml(folder, slug));
    const attached = read.attachments.map(({ content }) =>
      Buffer.from(content as ArrayBuffer).toString('utf8'),
    );
    const all = [eml(folder, slug).toString('latin1'), read.text, read.html, read.subject, ...attached];
    for (const text of all) expect(text).not.toMatch(others);
  }
});
