import { sha256Of } from '../../src/ledger/canonical.js';
import { ledgerOf, ledgerPath, sealedFiles } from '../ledger/sealed-files.js';
import type { InMemory } from './case-files-in-memory.js';

/**
 * Bad cases folders that cannot be kept as files: bytes that are no text, characters nobody would see in a file, links,
 * sizes, names that some systems refuse, a computer that says no. By problem id; paths from the cases folder up.
 */
interface Generated {
  readonly files: Readonly<Record<string, InMemory>>;
  readonly farm?: string;
}

export const farmText = '---\nfarm: Quernholt\ngait-scale: uk-0-3\ncondition-scale: uk-1-5\n---\n';
const farm = { 'cases/quernholt/farm.md': farmText };

export const animalText = `---
casefile: 1
animal: "2086"
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
visits:
  - date: 2026-01-06
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: open, top: 17, top-found: seen, wall: 43, tool: tape }
    pain-relief: asked
    note: "First lifted today."
---
`;

/** A visit's journal as a program killed after its first file leaves it; the visit is not in the ledger yet. */
const brokenOff = {
  journal: 1,
  what: 'visit of 2026-03-03',
  files: [
    {
      file: 'quernholt/2086.md',
      before: Buffer.from(animalText).toString('base64'),
      after: sha256Of(animalText.replace('gait: 2', 'gait: 3')),
    },
  ],
  folders: [],
};

const withAnimal = (content: InMemory): Generated => ({
  files: { ...farm, 'cases/quernholt/2086.md': content },
});

function utf16(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 2);
  for (let at = 0; at < text.length; at += 1) {
    bytes[at * 2] = text.charCodeAt(at) & 0xff;
    bytes[at * 2 + 1] = text.charCodeAt(at) >> 8;
  }
  return bytes;
}

const withPicture = {
  ...farm,
  'cases/quernholt/2086.md': animalText.replace(
    '    note:',
    '    photos: [{ file: photos/2086-sole.jpg, foot: LH, view: sole }]\n    note:',
  ),
  'cases/quernholt/photos/2086-sole.jpg': new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]),
};
const kept = {
  ...farm,
  'cases/quernholt/2086.md': animalText.replace('---\n', '---\n# sealed\n'),
  'cases/quernholt/2087.md': animalText.replace('2086', '2087'),
};
const amendedText = animalText.replace(
  'line: heel }',
  'line: heel, amended: [{ date: 2026-02-01, by: Orla Venn, why: "foot mistaken" }] }',
);

/** Sealed as it is, then changed. */
function sealedThen(
  before: Readonly<Record<string, InMemory>>,
  changed: Readonly<Record<string, InMemory | undefined>>,
): Generated {
  const all = { ...sealedFiles(before), ...changed };
  return {
    files: Object.fromEntries(
      Object.entries(all).flatMap(([path, what]) => (what === undefined ? [] : [[path, what]])),
    ),
  };
}

/** A sealed farm whose ledger was then changed. */
function ledgerThen(change: (lines: string[]) => string[]): Generated {
  const files = sealedFiles(kept);
  const lines = ledgerOf(files).trimEnd().split('\n');
  return { files: { ...files, [ledgerPath]: `${change(lines).join('\n')}\n` } };
}

const brackets = '['.repeat(2000);
const levels = Array.from({ length: 300 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n');

export const generatedCases: Readonly<Record<string, Generated>> = {
  'folder/unfinished': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': animalText.replace('gait: 2', 'gait: 3'),
      'cases/quernholt/.growdown/journal.json': JSON.stringify(brokenOff),
      'cases/.growdown/journal.json': '{"journal":',
    },
  },
  'file/too-big': withAnimal({ sizeOnly: 50 * 1024 * 1024 }),
  'file/binary': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': new Uint8Array([0, 1, 2, 255, 254, 0, 7]),
      'cases/quernholt/2087.md': new TextEncoder().encode('PK\u0003\u0004 a word processor document'),
      'cases/quernholt/2088.md': new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0x10, 0x4a]),
    },
  },
  'file/utf-16': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': utf16(`\ufeff${animalText}`),
      'cases/quernholt/2087.md': utf16(animalText),
    },
  },
  'file/not-utf-8': withAnimal(
    new Uint8Array([...animalText.replace('Orla', 'Zo\u00eb')].map((c) => c.charCodeAt(0))),
  ),
  'file/line-ends': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': animalText
        .replaceAll('\n', '\r')
        .replace('---\r', '---\n')
        .replace('\r---', '\n---'),
      'cases/quernholt/2087.md': animalText.replace('2086', '2087').replaceAll('\n', '\r'),
    },
  },
  'file/long-stretch': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': animalText.replace('First', 'First '.repeat(2000)),
      'cases/quernholt/2087.md': animalText
        .replace('2086', '2087')
        .replace('visits:', `${'\n'.repeat(2000)}visits:`),
    },
  },
  'file/many-more': withAnimal(
    animalText.replace(
      'visits:',
      `visits:\n${'  - { date: 2026-01-05, by: Orla Venn, kind: glance }\n'.repeat(230).trimEnd()}`,
    ),
  ),
  'file/unreadable': withAnimal({ refuses: 'EACCES' }),
  'folder/unreadable': {
    files: { ...farm, 'cases/harrowmere/': { refuses: 'EACCES' }, 'cases/quernholt/2086.md': animalText },
  },
  'folder/no-cases-folder': { files: { 'elsewhere/farm.md': farmText } },
  'folder/not-a-folder': { files: { cases: farmText } },
  'folder/no-farms': { files: { 'cases/': '' } },
  'folder/no-such-farm': { files: { ...farm, 'cases/quernholt/2086.md': animalText }, farm: 'quernholdt' },
  'folder/device-name': {
    files: {
      ...farm,
      'cases/quernholt/con.md': animalText,
      'cases/quernholt/2086.md': animalText,
      'cases/aux/farm.md': farmText.replace('Quernholt', 'Harrowmere'),
    },
  },
  'folder/link-above': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': animalText,
      'cases/loop': { linkTo: 'cases' },
      'cases/quernholt/again': { linkTo: 'cases/quernholt' },
      'cases/quernholt/up.md': { linkTo: 'cases' },
    },
  },
  'folder/link-outside': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': animalText,
      'cases/quernholt/2087.md': { linkTo: 'elsewhere/2087.md' },
      'cases/harrowmere': { linkTo: 'elsewhere' },
      'cases/quernholt/photos': { linkTo: 'elsewhere' },
      'elsewhere/2087.md': animalText.replace('2086', '2087'),
    },
  },
  'folder/broken-link': withAnimal({ linkTo: 'cases/quernholt/gone.md' }),
  'yaml/control-character': withAnimal(animalText.replace('First lifted', 'First\u001b[31m lifted')),
  'yaml/odd-space': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': animalText.replace('    gait: 2', '\u00a0\u00a0\u00a0\u00a0gait: 2'),
      'cases/quernholt/2087.md': animalText.replace('2086', '2087').replace('gait: 2', 'gait:\u00a02'),
      'cases/quernholt/2088.md': animalText.replace('2086', '2088').replace('top: 17', 'top:\u00a017'),
    },
  },
  'seal/differs': sealedThen(kept, {
    'cases/quernholt/farm.md': farmText.replace('uk-1-5', 'us-1-5'),
    'cases/quernholt/2086.md': animalText.replace('top: 17', 'top: 7').replace('gait: 2', 'gait: 1'),
    'cases/quernholt/2087.md': kept['cases/quernholt/2087.md'].replace('code: WL', 'code: WLF'),
  }),
  'seal/missing': sealedThen(kept, {
    'cases/quernholt/2086.md': animalText.replace(/visits:\n[^]*?---/, 'visits: []\n---'),
  }),
  'seal/animal-missing': sealedThen(kept, { 'cases/quernholt/2087.md': undefined }),
  'seal/amendment-missing': sealedThen(
    { ...farm, 'cases/quernholt/2086.md': amendedText },
    { 'cases/quernholt/2086.md': animalText },
  ),
  'seal/picture-missing': sealedThen(withPicture, { 'cases/quernholt/photos/2086-sole.jpg': undefined }),
  'seal/picture-differs': sealedThen(withPicture, {
    'cases/quernholt/photos/2086-sole.jpg': new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3, 4]),
  }),
  'ledger/not-an-entry': ledgerThen(([first = '', second = '', ...rest]) => [
    first,
    second.slice(0, 40),
    '{"ledger":1}',
    ...rest,
  ]),
  'ledger/unknown-version': ledgerThen((lines) => [...lines, '{"ledger":2,"number":99}']),
  'ledger/edited': ledgerThen((lines) => lines.map((line) => line.replace('"top":17', '"top":7'))),
  'ledger/out-of-order': ledgerThen((lines) => lines.toSpliced(2, 1)),
  'ledger/unreadable': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': animalText,
      [ledgerPath]: { refuses: 'EACCES' },
    },
  },
  'yaml/too-deep': {
    files: {
      ...farm,
      'cases/quernholt/2086.md': `---\ncasefile: ${brackets}\n---\n`,
      'cases/quernholt/2087.md': `---\n${levels}\n---\n`,
    },
  },
};
