import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { hiddenSign } from '../../src/record/signs.js';
import { folderWith } from '../cli/run-in-folder.js';

const escape = String.raw`\e[31m`;
const turn = String.raw`\u202e`;
/** Files as an older program or another hand may have left them. */
const old = {
  'cases/business.md': `---\nbusiness: "Venn ${turn}Foot Care"\ntrimmer: "Orla ${escape}Venn"\nemail: orla@venn.example\n---\n`,
  'cases/quernholt/farm.md': `---\nfarm: "Quernholt\\nBEGIN:VALARM${turn}"\nherd: { cows: 210, housing: housed }\nhemisphere: north\ngait-scale: uk-0-3\ncontact: { name: "Nan ${turn}Fenn", email: nan@quernholt.example }\nstaff-languages: [ro]\nnext-visit: 2026-06-23\n---\nA farm \u202eof old.\n`,
  'cases/quernholt/2086.md': `---\ncasefile: 1\nanimal: "2086${turn}"\nhandling: "Kicks ${escape}"\nlesions:\n  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }\nvisits:\n  - date: 2026-05-12\n    by: "Orla ${turn}Venn"\n    kind: first\n    gait: 2\n    found:\n      a: { state: open, top: 12, top-found: seen, wall: 43, tool: ruler }\n    products:\n      - { product: "Blue ${escape}spray", class: not a medicine }\n    ask-farm: [{ what: "ring if worse", by: 2026-06-09 }]\n    note: "Pus ${turn}seen ${String.raw`\x9b`}2J"\n---\nShe \u202eturned.\n`,
};

it('an old file that holds them is read, with a warning for each text', async () => {
  const { growdown } = folderWith(old);
  const { code, err } = await growdown('check');
  expect(code, err).toBe(0);
  expect(err.match(/warning record\/hidden-sign/g)!.length).toBeGreaterThanOrEqual(11);
  expect(err).toMatch(/2086\.md:3:9: warning record\/hidden-sign: U\+202E is in this text/);
  expect(hiddenSign(err)).toBeUndefined();
});

it('nothing that is made of it holds one', async () => {
  const { folder, growdown } = folderWith(old);
  const before = readFileSync(join(folder, 'cases/quernholt/2086.md'));
  const commands = ['books', 'sheet', 'handover quernholt/2086', 'round --ics', 'overview', 'audit', 'export --to csv', 'export --to json', 'export --to icar', 'form quernholt', 'staff quernholt', 'post quernholt', 'archive --farm quernholt', 'costs']; // prettier-ignore
  for (const command of commands) {
    const { code, err } = await growdown(...command.split(' '));
    expect(code, `${command}: ${err}`).toBe(0);
  }
  const made = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(?:html|csv|ics|json|eml)$/.test(name))
    .filter((name) => !name.includes('.growdown'));
  expect(made.length).toBeGreaterThan(15);
  for (const name of made) {
    const text = readFileSync(join(folder, name), 'utf8').replace(/^\ufeff/, '');
    expect(hiddenSign(text), name).toBeUndefined();
    if (name.endsWith('.ics')) expect(text).not.toMatch(/^BEGIN:VALARM/m);
  }
  expect(made.some((name) => name.endsWith('.ics'))).toBe(true);
  expect(readFileSync(join(folder, 'cases/quernholt/2086.md'))).toEqual(before);
});

const sound = {
  'cases/business.md': '---\ntrimmer: Orla Venn\n---\n',
  'cases/quernholt/farm.md': '---\nfarm: Quernholt\nherd: { cows: 210, housing: housed }\nhemisphere: north\ngait-scale: uk-0-3\n---\n', // prettier-ignore
  'cases/quernholt/2086.md': old['cases/quernholt/2086.md'].replaceAll(
    /\\e\[31m|\\u202e|\\x9b2J|\u202e/g,
    '',
  ),
  'from/2086.md': old['cases/quernholt/2086.md'],
};

it.each([
  ['a word of a command', ['visit', 'quernholt/2086', '--gait', '1', '--note', 'a\u202eb']],
  ['a name of a command', ['farm', 'tarnwick', '--herd', 'cows 90', '--name', 'Tarn\u001bwick']],
  ['a correction', ['correct', 'quernholt/2086', '2026-05-12.note', 'a\u0007b', '--why', 'a slip']],
  ['why a seal was withdrawn', ['undo', 'quernholt', '--why', 'a\u202eb']],
])('%s is refused before anything is done', async (_, words) => {
  const { folder, growdown } = folderWith(sound);
  const before = filesIn(folder);
  const { code, err } = await growdown(...words);
  expect(code).toBe(2);
  expect(err).toMatch(/U\+(?:202E|001B|0007) is in `/);
  expect(hiddenSign(err)).toBeUndefined();
  expect(filesIn(folder)).toEqual(before);
});

it('a note with one writes nothing that holds it', async () => {
  const note = 'Quernholt 16/6/26\n2086 top 20 note: \u202eturned round\n';
  const { folder, growdown } = folderWith(sound, { readInput: () => new TextEncoder().encode(note) });
  const { out, err } = await growdown('take', '--yes');
  expect(hiddenSign(out + err)).toBeUndefined();
  expect(hiddenSign(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8'))).toBeUndefined();
});

function filesIn(folder: string): Record<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    /\.(?:md|jsonl)$/.test(name),
  );
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
}

it('records from elsewhere that hold one are not written', async () => {
  const from = folderWith(old);
  expect((await from.growdown('export', '--to', 'json')).code).toBe(0);
  const records = readFileSync(join(from.folder, 'export/json/records.json'));
  const { folder, growdown } = folderWith({ 'records.json': records });
  const { code, err } = await growdown('import', 'records.json');
  expect(code).not.toBe(0);
  expect(err).toMatch(/error record\/hidden-sign/);
  expect(filesIn(folder)).toEqual({});
});
