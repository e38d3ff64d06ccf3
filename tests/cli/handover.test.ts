import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gps, parse } from 'exifr';
import PostalMime from 'postal-mime';
import { expect, test } from 'vitest';
import { fromAPhone } from '../picture/made-up-pictures.js';
import { farmFile, folderWith } from './run-in-folder.js';

const business = `---
business: Quillfen Foot Trimming
trimmer: Marra Quillfen
email: office@quillfen.example
reply-to: answers@quillfen.example
phone: "01632 960140"
---
`;
const withVet = (vet: string) => farmFile.replace('farm: Quernholt', `farm: Quernholt\nvet: ${vet}`);
const cow = `---
casefile: 1
animal: "2086"
tag: UK 000123 402086
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
visits:
  - date: 2026-05-26
    by: Marra Quillfen
    kind: first
    gait: 2
    found: { a: { state: open, top: 9, wall: 42, tool: ruler, signs: [pus] } }
    photos: [ { file: photos/lh.jpg, foot: LH, claw: outer, view: abaxial wall, when: after } ]
    vet: { asked: 2026-05-26, why: "pus close to the coronet" }
---
`;
const files = {
  'cases/business.md': business,
  'cases/quernholt/farm.md': withVet(
    '{ practice: Ossgrain Vets, name: P. Wexmarrow, email: desk@ossgrain.example }',
  ),
  'cases/quernholt/2086.md': cow,
  'cases/quernholt/photos/lh.jpg': await fromAPhone(),
};
const page = (folder: string) => readFileSync(join(folder, 'books/quernholt/2086-handover.html'), 'utf8');
const draft = (folder: string) => readFileSync(join(folder, 'books/quernholt/2086-handover.eml'));

test('handover: one inert page, with her latest picture and nothing of where it was taken', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('handover', 'quernholt/2086', '--ask', 'Will you come?');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out.split('\n')[0]).toBe(`${join('books', 'quernholt', '2086-handover.html')}  Quernholt: 2086`);
  const html = page(folder);
  for (const said of [
    'UK 000123 402086',
    'Will you come?',
    'pus close to the coronet',
    'P. Wexmarrow',
    'Seen on',
  ])
    expect(html).toContain(said);
  expect(html).toMatch(/default-src &#39;none&#39;; font-src data:; style-src &#39;sha256-/);
  expect(html).not.toMatch(/<script|<link|https?:\/\/(?!www\.w3\.org)/);
  const [, jpeg] = /src="data:image\/jpeg;base64,([^"]+)"/.exec(html)!;
  expect(await gps(files['cases/quernholt/photos/lh.jpg'])).toHaveProperty('latitude');
  expect(await parse(Buffer.from(jpeg!, 'base64'), true)).toBeUndefined();
});

test('handover: the same twice is the same bytes, page and draft', async () => {
  const { folder, growdown } = folderWith(files);
  await growdown('handover', 'quernholt/2086', '--mail');
  const [html, eml] = [page(folder), draft(folder)];
  await growdown('handover', 'quernholt/2086', '--mail');
  expect(page(folder)).toBe(html);
  expect(draft(folder).equals(eml)).toBe(true);
});

test('handover --mail: a draft to the vet that another program reads, the page in it byte for byte', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('handover', 'quernholt/2086', '--mail');
  expect(run.out).toContain(`${join('books', 'quernholt', '2086-handover.eml')}  a draft`);
  const mail = await PostalMime.parse(draft(folder));
  expect(mail.to).toEqual([{ name: 'P. Wexmarrow', address: 'desk@ossgrain.example' }]);
  expect(mail.from).toEqual({ name: 'Marra Quillfen', address: 'office@quillfen.example' });
  expect(mail.replyTo).toEqual([{ name: '', address: 'answers@quillfen.example' }]);
  expect(mail.subject).toBe('Handover of 2086, Quernholt: 16 June 2026');
  expect(mail.headers.find(({ key }) => key === 'x-unsent')?.value).toBe('1');
  for (const part of [mail.text, mail.html]) {
    expect(part).toMatch(/Why now/i);
    expect(part).toContain('pus close to the coronet');
    expect(part).toContain('open, top 9 of 42, pus');
    expect(part).not.toContain('No address is recorded');
  }
  expect(mail.attachments).toHaveLength(1);
  const raw = draft(folder).toString('latin1');
  const encoded = /filename=2086-handover\.html[^]*?\r\n\r\n([A-Za-z0-9+/=\r\n]+)\r\n--/.exec(raw)![1]!;
  expect(Buffer.from(encoded, 'base64').toString('utf8')).toBe(page(folder));
});

test.each([
  ['no address', '{ practice: Ossgrain Vets }', /the draft has no address: farm\.md has no `vet\.email`/],
  [
    'two addresses',
    '{ practice: Ossgrain Vets, email: "a@b.example, c@d.example" }',
    /`vet\.email` of farm\.md is `a@b\.example, c@d\.example`, expected one address/,
  ],
])('handover --mail with %s: the draft has no To and says so', async (_, vet, said) => {
  const { folder, growdown } = folderWith({ ...files, 'cases/quernholt/farm.md': withVet(vet) });
  const run = await growdown('handover', 'quernholt/2086', '--mail');
  expect(run.code).toBe(0);
  expect(run.err).toMatch(said);
  const mail = await PostalMime.parse(draft(folder));
  expect(mail.to ?? []).toEqual([]);
  expect(draft(folder).toString('latin1')).not.toMatch(/^(?:To|Cc|Bcc):/im);
  expect(mail.text).toContain('No address is recorded for the vet');
});

test('the reply gets into her record by the note the page shows', async () => {
  const { folder, growdown, put } = folderWith(files);
  await growdown('handover', 'quernholt/2086');
  const how = /a note for growdown take: ([^<]+)</
    .exec(page(folder).replaceAll(/<.?bdi>/g, ''))![1]!
    .replaceAll('&quot;', '"');
  expect(how).toBe(
    'Quernholt 2026-06-16. 2086 report by "Marra Quillfen", vet answered by "NAME" to 2026-05-26 reply "THE REPLY"',
  );
  put('answer.txt', how.replace('NAME', 'P. Wexmarrow').replace('THE REPLY', 'Joint sound. Keep her in.'));
  const run = await growdown('take', 'answer.txt', '--yes');
  expect(run).toMatchObject({ code: 0 });
  const record = readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8');
  expect(record).toMatch(/vet-answer:[^]*to: 2026-05-26[^]*P\. Wexmarrow[^]*Joint sound\. Keep her in\./);
  await growdown('handover', 'quernholt/2086');
  expect(page(folder)).toContain('Joint sound. Keep her in.');
});

test.each([
  ['an empty question', ['quernholt/2086', '--ask', '  '], /--ask is empty/],
  [
    'a question too long',
    ['quernholt/2086', '--ask', 'x'.repeat(301)],
    /--ask has 301 characters, expected at most 300/,
  ],
  ['an unknown animal', ['quernholt/2806'], /did you mean `quernholt\/2086`/],
  ['nothing', [], /missing required argument/],
])('handover, wrong use: %s', async (_, words, said) => {
  const run = await folderWith(files).growdown('handover', ...words);
  expect(run.code).toBe(2);
  expect(run.err).toMatch(said);
});

test('handover: a picture that is not there is reported and left out; an error on her farm leaves no page', async () => {
  const { 'cases/quernholt/photos/lh.jpg': _, ...without } = files;
  const here = folderWith(without);
  const run = await here.growdown('handover', 'quernholt/2086', '--json');
  expect(run.code).toBe(0);
  expect(run.err).toContain('photos/lh.jpg could not be read as a picture and is not on the page');
  expect(JSON.parse(run.out)).toMatchObject({ farm: 'quernholt', animal: '2086' });
  expect(page(here.folder)).not.toContain('<img');
  const bad = folderWith({ ...files, 'cases/quernholt/2086.md': cow.replace('state: open', 'state: opne') });
  expect((await bad.growdown('handover', 'quernholt/2086')).code).toBe(1);
});
