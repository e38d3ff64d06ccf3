import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const file = 'cases/quernholt/2086.md';
const sound = { 'cases/quernholt/farm.md': farmFile, [file]: animalFile('2086') };

/** What a visit of these flags writes, on a Tuesday, 16 June 2026. */
async function visited(...flags: string[]) {
  const { folder, growdown } = folderWith(sound);
  const run = await growdown('visit', 'quernholt/2086', '--by', 'Orla Venn', ...flags);
  const text = readFileSync(join(folder, file), 'utf8');
  const from = text.lastIndexOf('  - date:');
  return { ...run, isAsItWas: text === sound[file], visit: text.slice(from, text.lastIndexOf('---')) };
}

describe('days', () => {
  test.each([
    ['yesterday', '2026-06-15'],
    ['Monday', '2026-06-15'],
    ['last Tuesday', '2026-06-09'],
    ['14 June', '2026-06-14'],
    ['14/6', '2026-06-14'],
    ['14.6.2026', '2026-06-14'],
    ['3 days ago', '2026-06-13'],
  ])('of the visit: %s', async (said, day) => {
    expect((await visited('--gait', '1', '--date', said)).visit).toContain(`- date: ${day}\n`);
  });

  test('when she must be seen again lies ahead, from the day of the visit', async () => {
    const { visit } = await visited('--date', '1 June', '--gait', '1', '--recheck', '3 weeks');
    expect(visit).toContain('recheck: 2026-06-22');
    expect((await visited('--gait', '1', '--recheck', 'Friday')).visit).toContain('recheck: 2026-06-19');
    expect((await visited('--gait', '1', '--ask-farm', 'straw yard, by 20 June')).visit).toContain(
      '{ what: straw pen, by: 2026-06-20 }',
    );
  });

  test('what may be two days is refused with both', async () => {
    const { code, err, isAsItWas } = await visited('--gait', '1', '--date', '3/4');
    expect({ code, isAsItWas }).toEqual({ code: 2, isAsItWas: true });
    expect(err).toContain('--date: `3/4` may be 2026-04-03 or 2026-03-04, expected the one that is meant');
    const { growdown } = folderWith(sound);
    expect((await growdown('round', '--from', '3/4', '--dry-run')).err).toContain('2027-04-03 or 2027-03-04');
  });

  test('of every option that takes one', async () => {
    const { folder, growdown } = folderWith(sound);
    expect(await growdown('close', '2086', '--result', 'culled', '--ended', 'yesterday')).toMatchObject({ code: 0 }); // prettier-ignore
    expect(readFileSync(join(folder, file), 'utf8')).toContain('ended: 2026-06-15');
    const today = await growdown(
      'visit',
      '2086',
      '--gait',
      '1',
      '--by',
      'x',
      '--today',
      '10 June',
      '--dry-run',
    );
    expect(today.out + today.err).toContain('+   - date: 2026-06-10');
    expect((await growdown('check', '--today', '31 June')).err).toContain('Expected a day that exists');
  });
});

describe('trade words', () => {
  test('wherever a closed list is answered', async () => {
    const { err } = await visited('--lesions', 'b: sole ulcer, right hind, lateral', '--found', 'b: raw, 12 mm long', '--blocks', 'near hind inside on, wood', '--trimmed', 'LH, right hind'); // prettier-ignore
    expect(err).toContain('12 mm long');
    const again = await visited('--lesions', 'b: sole ulcer, right hind, lateral', '--found', 'b: raw, length 1.2 cm', '--blocks', 'near hind inside on, wood', '--trimmed', 'LH, right hind'); // prettier-ignore
    expect(again.code, again.err).toBe(0);
    expect(again.visit).toContain('b: { state: open, length: 12 }');
    expect(again.visit).toContain('{ foot: LH, claw: inner, event: fitted, material: wood }');
    expect(again.visit).toContain('trimmed: [LH, RH]');
  });

  test('what fits two is refused with both, and what is misspelled with the word that was meant', async () => {
    const ulcer = await visited('--lesions', 'b: ulcer, RH, outer', '--gait', '1');
    expect(ulcer).toMatchObject({ code: 2, isAsItWas: true });
    expect(ulcer.err).toContain('`ulcer` may be SU, BU or TU');
    const misspelled = await visited('--found', 'a: state opne');
    expect(misspelled.err).toContain('did you mean `open`');
  });

  test('a length in another unit is refused, one too long with what is expected', async () => {
    expect((await visited('--found', 'a: open, top 21 kg')).err).toContain('`21 kg`');
    expect((await visited('--found', 'a: open, wall 430')).err).toMatch(/`?430`?, expected .*200/);
  });
});

describe('products', () => {
  test.each([
    ['blue spray, medicine, milk 0, meat 0', 'class: medicine, milk-days: 0, meat-days: 0'],
    ['blue spray, not a medicine, nil milk, no meat withdrawal', 'class: not a medicine, milk-days: 0, meat-days: 0'], // prettier-ignore
    ['blue spray, medicine, milk 12 hours, meat 2 days', 'class: medicine, milk-hours: 12, meat-days: 2'],
    ['blue spray, milk 4 milkings', 'milk-milkings: 4'],
    ['blue spray, not a medicine, lesion a, milk-days 0', 'class: not a medicine, lesion: a, milk-days: 0'],
  ])('%s', async (said, written) => {
    const { visit, code, err } = await visited('--products', said);
    expect(code, err).toBe(0);
    expect(visit).toContain(`- { product: "blue spray", ${written} }`);
  });

  test('its own commas are its name, in quotes even where they look like a withdrawal', async () => {
    expect((await visited('--products', 'salve, green, thick')).visit).toContain(
      'product: "salve, green, thick"',
    );
    expect((await visited('--products', '"salve, milk 0", class medicine')).visit).toContain('{ product: "salve, milk 0", class: medicine }'); // prettier-ignore
  });

  test('a number without its unit is refused with how it is written', async () => {
    const { code, err, isAsItWas } = await visited('--products', 'blue spray, medicine, milk 4');
    expect({ code, isAsItWas }).toEqual({ code: 2, isAsItWas: true });
    expect(err).toContain('`milk 4` does not say in what it is counted');
    expect(err).toContain('`milk-days 4`');
  });
});
