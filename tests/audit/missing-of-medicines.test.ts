import { expect, test } from 'vitest';
import { packOf, rowsOf } from './read-pack.js';

const today = '2026-06-01';
const cow = (visits: string, episode = 'lame-since: 2026-04-20, told-by: "milker"') => `---
casefile: 1
animal: "7"
calvings: [2025-11-01]
lesions: {}
episodes: [ { ${episode} } ]
visits:
${visits}---
`;
const visit = (date: string, more: string) =>
  `  - { date: ${date}, by: Orla Venn, kind: recheck, gait: 1, recheck: 2026-06-10, ${more} }\n`;
const farm = '---\nfarm: F\ngait-scale: uk-0-3\n---\n';

/** Serious gaps of a year's pack that speak of medicines, with their grade. */
function serious(animal: string, period = '2026'): string[] {
  const pack = packOf({ 'cases/f/farm.md': farm, 'cases/f/7.md': animal }, 'f', period, today);
  return rowsOf(pack, 'gaps')
    .filter(({ what }) =>
      /given pain relief|withdrawal|prescribed it|was culled|was sold|not for food/.test(what!),
    )
    .map(({ grade, what }) => `${grade}: ${what}`);
}

const given = 'pain-relief: given';
const product = '{ product: x, class: medicine, batch: k, milk-days: 0, meat-days: 5, prescribed-by: V }';

test('pain relief given and no product: one serious gap, and none with its product', () => {
  const twice = cow(visit('2026-04-21', given) + visit('2026-05-12', given));
  expect(serious(twice)).toEqual([
    'serious: She was given pain relief or another medicine on 2 days, the first 21 April 2026, and no product is recorded: her withdrawal is not known.',
  ]);
  expect(serious(twice, '2026-05')).toEqual([
    'serious: She was given pain relief or another medicine on 12 May 2026, and no product is recorded: her withdrawal is not known.',
  ]);
  expect(serious(cow(visit('2026-04-21', `${given}, products: [ ${product} ]`)))).toEqual([]);
});

test('an antibiotic that no vet prescribed, whatever its class says', () => {
  const gel = (more: string) => cow(visit('2026-04-21', `products: [ { product: gel, active: tylosin, class: not a medicine, milk-days: 0, meat-days: 0${more} } ]`)); // prettier-ignore
  expect(serious(gel(''))).toEqual([
    'serious: gel of 21 April 2026 is a medicine by its active substance, and who prescribed it is not recorded.',
  ]);
  expect(serious(gel(', prescribed-by: V'))).toEqual([]);
});

test('left under withdrawal: serious, but not where the new keeper was told; of a dead one a note', () => {
  const left = (end: string, period?: string) =>
    serious(cow(visit('2026-04-21', `products: [ ${product} ]`), `lame-since: 2026-04-20, ended: 2026-04-26, ${end}`), period); // prettier-ignore
  expect(left('result: culled')).toEqual([
    'serious: She was culled on 26 April 2026 while meat was, or may have been, under withdrawal.',
  ]);
  expect(left('result: sold')).toEqual([
    'serious: She was sold on 26 April 2026 while milk or meat was, or may have been, under withdrawal, with no record that the new keeper was told in writing.',
  ]);
  expect(left('result: sold, told-in-writing: 2026-04-26')).toEqual([]);
  expect(left('result: died')[0]).toMatch(/^minor: .*not for food/);
  expect(left('result: culled', '2026-05')).toEqual([]);
});

test('given, asked for, advised and declined are counted apart', () => {
  const lame = (date: string, word: string) =>
    `  - { date: ${date}, by: Orla Venn, kind: recheck, gait: 2, feet: { LH: { lifted: true } }, ${word} }\n`;
  const animal = cow(
    [
      lame('2026-04-21', 'pain-relief: asked'),
      lame('2026-04-28', `${given}, products: [ ${product} ]`),
      lame('2026-05-05', `${given}, products: [ ${product} ]`),
      lame('2026-05-12', 'pain-relief: farm declined'),
      lame('2026-05-19', 'note: "nothing said"'),
    ].join(''),
  );
  const pack = packOf({ 'cases/f/farm.md': farm, 'cases/f/7.md': animal }, 'f', '2026', today);
  const row = rowsOf(pack, 'summary').find(({ measure }) => measure!.includes('pain relief') || measure === 'pain-relief'); // prettier-ignore
  expect([row!['share'], row!['share_of'], row!['note']]).toEqual([
    '4',
    '5',
    'given: 2; asked for: 1; the farm declined: 1',
  ]);
});
