import { expect, test } from 'vitest';
import type { Worked } from '../../src/keep/change.js';
import { type CorrectionAsked, correctValues } from '../../src/keep/correct-value.js';
import type { Amendment } from '../../src/record/measures.js';
import { openAnimal } from '../../src/keep/kept-file.js';
import { animalText } from '../casefile/generated-cases.js';
import { after, keepingOf, messageOf } from './kept-in-memory.js';

const file = 'cases/quernholt/2086.md';
const top = ['visits', 0, 'found', 'a', 'top'];
const amendment = { date: '2026-11-25', by: 'Orla Venn', why: 'read off wrong' };

type How = Partial<CorrectionAsked> & { readonly amendment?: Amendment };

function corrected(
  text: string,
  { amendment: owned, ...how }: How,
): { keeping: ReturnType<typeof keepingOf>; worked: Worked } {
  const keeping = keepingOf({ [file]: text });
  const opened = openAnimal(keeping, 'quernholt', '2086');
  if (opened.outcome !== 'open') throw new Error(JSON.stringify(opened));
  const asked = [{ path: top, value: 21, ...how }];
  return { keeping, worked: correctValues(opened.kept, ['quernholt'], asked, owned, keeping) };
}

function textOf(text: string, how: How): string {
  const { keeping, worked } = corrected(text, how);
  return after(keeping, worked).text(file);
}

test('one value changes and nothing else', () => {
  expect(textOf(animalText, {})).toBe(animalText.replace('top: 17', 'top: 21'));
  const odd = animalText.replace('top: 17', 'top:   17.0');
  expect(textOf(odd, {})).toBe(animalText.replace('top: 17', 'top:   21'));
});

test('text in quotes, on folded lines and with a comment behind it', () => {
  const note = ['visits', 0, 'note'];
  const quoted = animalText.replace('"First lifted today."', '"First # lifted"   # a comment');
  expect(textOf(quoted, { path: note, value: 'better' })).toBe(
    quoted.replace('"First # lifted"', '"better"'),
  );
  const folded = animalText.replace('"First lifted today."', '>\n      First lifted\n      today.');
  expect(textOf(folded, { path: note, value: 'better' })).toBe(
    animalText.replace('First lifted today.', 'better'),
  );
});

test('what is not written yet is put in', () => {
  expect(textOf(animalText, { path: ['visits', 0, 'weight'], value: 655 })).toContain(
    'gait: 2\n    weight: 655\n    found:',
  );
});

test('a reason is kept beside what it is the reason for', () => {
  const said = '    amended:\n      - { date: 2026-11-25, by: Orla Venn, why: "read off wrong" }\n';
  const open = animalText.replace('top: 17', 'top: 21').replace(/---\n$/, `${said}---\n`);
  expect(textOf(animalText, { amendment })).toBe(open);
  expect(textOf(animalText, { path: ['lesions', 'a', 'code'], value: 'WLF', amendment })).toContain(
    'WLF, foot: LH, claw: outer, site: white line rear, line: heel, amended: [{ date: 2026-11-25, by: Orla Venn, why: "read off wrong" }] }',
  );
  expect(textOf(animalText, { path: ['tag'], value: 'UK 000123 402086', amendment })).toContain(
    'amended:\n  - { date: 2026-11-25, by: Orla Venn, why: "read off wrong" }\n',
  );
  expect(
    messageOf(corrected(animalText, { path: ['handling'], value: 'quiet', amendment }).worked),
  ).toContain('not sealed');
});

test('an empty list in braces gets its entry in its brackets, also where a line ends behind them', () => {
  const braced = animalText.replace('line: heel }', 'line: heel, amended: []\n  }');
  const path = ['lesions', 'a', 'code'];
  expect(textOf(braced, { path, value: 'WLF', amendment })).toBe(
    braced
      .replace('code: WL,', 'code: WLF,')
      .replace('amended: []', 'amended: [{ date: 2026-11-25, by: Orla Venn, why: "read off wrong" }]'),
  );
});

test('another value than the one said is not replaced, nor one that a comment would be lost with', () => {
  expect(messageOf(corrected(animalText, { was: 18 }).worked)).toContain('is 17 in');
  expect(messageOf(corrected(animalText, { value: 17 }).worked)).toContain(
    '17 in cases/quernholt/2086.md already',
  );
  const commented = animalText.replace('tool: tape }', 'tool: tape,   # mine\n }');
  expect(
    messageOf(corrected(commented, { path: top.slice(0, -1), value: { state: 'open' } }).worked),
  ).toContain('by hand');
});

test('a correction that the record cannot bear is refused', () => {
  expect(messageOf(corrected(animalText, { value: 80 }).worked)).toContain('top-beyond-wall');
});
