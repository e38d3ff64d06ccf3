import { describe, expect, it } from 'vitest';
import { lookAtPicture } from '../../src/casefile/look-at-picture.js';
import { nearestWord } from '../../src/casefile/nearest-word.js';
import { chooseFarm } from '../../src/casefile/choose-farm.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { caseFilesInMemory, type InMemory } from './case-files-in-memory.js';
import { animalText, farmText } from './generated-cases.js';

const two: Record<string, InMemory> = {
  'cases/harrowmere/farm.md': farmText.replace('Quernholt', 'Harrowmere'),
  'cases/harrowmere/587.md': animalText.replace('2086', '587'),
  'cases/quernholt/farm.md': farmText,
  'cases/quernholt/2086.md': animalText,
  'cases/quernholt/2086-2.md': animalText.replace('2086', '2086-2'),
};
const read = (files: Record<string, InMemory>, folder = 'cases'): ReturnType<typeof readPractice> =>
  readPractice(caseFilesInMemory(files), folder, { today: '2026-11-25' });

const bytes = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));

describe('reading a practice', () => {
  it('gives farms and animals in the order of their slugs', () => {
    const { practice, problems, filesRead } = read(two);
    expect(problems).toEqual([]);
    expect(filesRead).toBe(5);
    expect(practice.farms.map(({ slug, cases }) => [slug, cases.map((one) => one.slug)])).toEqual([
      ['harrowmere', ['587']],
      ['quernholt', ['2086', '2086-2']],
    ]);
  });

  it('one bad file refuses its farm and no other, and all problems are reported', () => {
    const bad = {
      ...two,
      'cases/quernholt/2086.md': animalText.replace('gait: 2', 'gate: 2').replace('17', '17 mm'),
    };
    const { practice, problems, farmsRefused } = read(bad);
    expect(practice.farms.map(({ slug }) => slug)).toEqual(['harrowmere']);
    expect(farmsRefused).toEqual(['quernholt']);
    expect(problems.map(({ id }) => id)).toEqual(['key/unknown', 'value/unit']);
  });

  it('an error in business.md refuses every farm, which are checked all the same', () => {
    const bad = { ...two, 'cases/business.md': '---\nlanguage: en\n---\n', 'cases/quernholt/2086.md': '' };
    const { practice, problems, farmsRefused } = read(bad);
    expect(practice.farms).toEqual([]);
    expect(farmsRefused).toEqual(['harrowmere', 'quernholt']);
    expect(problems.map(({ id }) => id)).toEqual(['value/unknown-word', 'file/empty']);
  });

  it('one farm can be chosen: others are read, but neither are in its way nor are reported', () => {
    const reading = read({ ...two, 'cases/quernholt/2086.md': '' });
    const chosen = chooseFarm(reading, 'harrowmere');
    expect(chosen.farms.map(({ slug }) => slug)).toEqual(['harrowmere']);
    expect(chosen).toMatchObject({
      problems: [],
      filesRead: 2,
      farmsFound: ['harrowmere'],
      farmsRefused: [],
    });
    expect(chooseFarm(reading, 'quernholt')).toMatchObject({ farms: [], farmsRefused: ['quernholt'] });
    expect(chooseFarm(reading, undefined).problems).toEqual(reading.problems);
  });

  it('whichever farm is chosen, the practice stays whole, and what is wrong with all is reported', () => {
    const reading = read({ ...two, 'cases/business.md': '---\nlanguage: en\n---\n' });
    const chosen = chooseFarm(read(two), 'harrowmere');
    expect(chosen.practice.farms.map(({ slug }) => slug)).toEqual(['harrowmere', 'quernholt']);
    expect(chooseFarm(reading, 'harrowmere').problems.map(({ id }) => id)).toEqual(['value/unknown-word']);
    expect(chooseFarm(read({}), 'harrowmere').problems.map(({ id }) => id)).toEqual([
      'folder/no-cases-folder',
    ]);
  });

  it.each(['./cases/', 'cases\\', '.\\cases'])('takes the folder as %s and shows it with /', (typed) => {
    const { problems } = read({ ...two, 'cases/quernholt/2086.md': '' }, typed);
    expect(problems.map(({ file }) => file)).toEqual(['cases/quernholt/2086.md']);
  });

  it.each(['', '  '])('does not take the folder the user is in for a cases folder named %j', (typed) => {
    const { problems, farmsFound } = read({ 'quernholt/farm.md': farmText }, typed);
    expect(problems.map(({ id, severity }) => [id, severity])).toEqual([['folder/no-cases-folder', 'error']]);
    expect(farmsFound).toEqual([]);
  });

  it('takes a file that cannot be looked into for none of its business', () => {
    const files = { ...two, 'cases/quernholt/0312.txt': { refuses: 'EACCES' } };
    expect(read(files).problems).toEqual([]);
  });

  it.each([
    [
      'UTF-16 little end first',
      Uint8Array.from([0xff, 0xfe, ...[...animalText].flatMap((c) => [c.charCodeAt(0), 0])]),
    ],
    [
      'UTF-16 big end first',
      Uint8Array.from([0xfe, 0xff, ...[...animalText].flatMap((c) => [0, c.charCodeAt(0)])]),
    ],
    ['old line ends', animalText.replaceAll('\n', '\r')],
    ['a key without front matter', 'Notes\ncasefile: 1\n'],
  ])('sees a case under another ending: %s', (_, content) => {
    const { problems } = read({ ...two, 'cases/quernholt/0312.txt': content });
    expect(problems.map(({ id, severity, file }) => [id, severity, file])).toEqual([
      ['folder/other-ending', 'warning', 'cases/quernholt/0312.txt'],
    ]);
  });

  it.each([
    'Ring the vet.\n',
    '',
    '--- notes ---\n',
    'her casefile: lost\n',
    `${' x'.repeat(2100)}\ncasefile: 1\n`,
  ])('is silent on another file that holds %j', (content) =>
    expect(read({ ...two, 'cases/quernholt/0312.txt': content }).problems).toEqual([]),
  );

  it('knows the place of anything in a record', () => {
    const source = read(two).practice.farms[0]?.cases[0]?.source;
    expect(source?.placeOf(['visits', 0, 'found', 'a', 'top'])).toEqual({
      line: 12,
      column: 30,
      endColumn: 32,
    });
    expect(source?.placeOf(['visits', 0, 'found', 'a', 'width'])).toEqual({
      line: 12,
      column: 7,
      endColumn: 8,
    });
    expect(source?.placeOf(['visits', 0])).toEqual({ line: 7, column: 5, endColumn: 9 });
  });

  it('takes ten thousand visits in one file', () => {
    const visits = Array.from({ length: 10_000 }, (_, n) => {
      const day = new Date(Date.UTC(1990, 0, 1) + n * 86_400_000).toISOString().slice(0, 10);
      return `  - { date: ${day}, by: Orla Venn, kind: report, note: "n" }\n`;
    });
    const long = `---\ncasefile: 1\nanimal: 1\nlesions: {}\nvisits:\n${visits.join('')}---\n`;
    const { practice } = read({ 'cases/quernholt/farm.md': farmText, 'cases/quernholt/1.md': long });
    expect(practice.farms[0]?.cases[0]?.animal.visits).toHaveLength(10_000);
  });
});

describe('looking at a picture', () => {
  const files = caseFilesInMemory({
    'cases/q/farm.md': farmText,
    'cases/q/photos/a.png': bytes('\u00ff\u00d8\u00ff\u00e0 a JPEG by another name'),
    'cases/q/photos/b.jpg': bytes('\u0089PNG\r\n\u001a\n....'),
    'cases/q/photos/c.webp': bytes('RIFF....WEBPVP8 '),
    'cases/q/photos/d.jpg': bytes('....ftypheic....'),
    'cases/q/photos/e.jpg': bytes('<html>'),
    'cases/q/photos/f.jpg': { linkTo: 'elsewhere/f.jpg' },
    'elsewhere/f.jpg': bytes('\u00ff\u00d8\u00ff'),
  });

  it.each([
    ['photos/a.png', 'jpeg'],
    ['photos\\b.jpg', 'png'],
    ['photos/c.webp', 'webp'],
    ['photos/d.jpg', 'heic'],
    ['photos/e.jpg', 'not-a-picture'],
    ['photos', 'not-a-picture'],
    ['photos/none.jpg', 'missing'],
    ['photos/f.jpg', 'outside'],
    ['../other/a.jpg', 'outside'],
    ['photos/../../x.jpg', 'outside'],
    ['/etc/hostname', 'outside'],
    ['C:\\a.jpg', 'outside'],
    ['https://example.org/a.jpg', 'outside'],
  ])('%s is %s', (path, kind) => {
    expect(lookAtPicture(files, 'cases/q', path).kind).toBe(kind);
  });
});

it.each([
  ['Outer', ['inner', 'outer'], 'outer'],
  ['recheque', ['recheck', 'routine'], 'recheck'],
  ['gate', ['date', 'gait'], 'date'],
  ['gate', ['at', 'gait'], 'gait'],
  ['pain_relief', ['pain-relief', 'note'], 'pain-relief'],
  ['xyzzy', ['inner', 'outer'], undefined],
])('the word nearest to %s among %j is %s', (written, words, meant) => {
  expect(nearestWord(written, words)).toBe(meant);
});
