import { expect, test } from 'vitest';
import { handWorkedFarm } from './hand-worked-farm.js';
import { packOf, rowsOf } from './read-pack.js';

const today = '2026-05-01';
const column = (period: string, table: string, name: string) =>
  rowsOf(packOf(handWorkedFarm, 'oddfold', period, today), table).map((row) => row[name]);

test('a product belongs to every period its days reach into', () => {
  expect(column('2026-01-05', 'medicines', 'product')).toEqual([]);
  expect(column('2026-01-06', 'medicines', 'product')).toEqual(['pain relief', "'=spray", 'hoof pads']);
  expect(column('2026-01-08', 'medicines', 'product')).toEqual(['pain relief']);
  expect(column('2026-01-09', 'medicines', 'product')).toEqual([]);
});

test('a question to the vet belongs to the period it was asked in, and to those it stood open in', () => {
  expect(column('2026-01-12', 'referrals', 'asked')).toEqual(['2026-01-12']);
  // Answered on the 14th: open when these two began, and over before the third.
  expect(column('2026-01-13', 'referrals', 'asked')).toEqual(['2026-01-12']);
  expect(column('2026-01-14', 'referrals', 'asked')).toEqual(['2026-01-12']);
  expect(column('2026-01-15', 'referrals', 'asked')).toEqual([]);
  expect(column('2026-04', 'referrals', 'asked')).toEqual(['2026-02-20']);
});

test('a lameness episode belongs from its first day to its last, and to nothing before or after', () => {
  expect(column('2025-10-31', 'lame-animals', 'animal')).toEqual(['104']);
  expect(column('2025-11-01', 'lame-animals', 'animal')).toEqual(['104', '105']);
  expect(column('2025-12-31', 'lame-animals', 'animal')).toEqual(['104', '105', '101']);
  expect(column('2026-01-01', 'lame-animals', 'animal')).toEqual(['105', '101']);
  expect(column('2026-01-02', 'lame-animals', 'animal')).toEqual(['101']);
  expect(column('2026-04-21..2026-05-01', 'lame-animals', 'animal')).toEqual(['102', '107', '103', '106']);
});

test('a round belongs by its day', () => {
  expect(column('2025', 'gait-rounds', 'date')).toEqual(['2025-12-31']);
  expect(column('2026', 'gait-rounds', 'date')).toEqual(['2026-01-20', '2026-04-01']);
});

test('training that had run out on the last day worked is reported', () => {
  expect(column('2026-01', 'people', 'training_standing')).toEqual(['on-file', 'on-file']);
  const what = column('2026-04', 'gaps', 'what');
  expect(what).toContain(
    'The training of Orla Venn was valid to 28 February 2026, and the last work here was on 20 April 2026.',
  );
});

test('a gap that came up after the period is none of it', () => {
  const early = column('2026-01', 'gaps', 'what');
  expect(early.filter((one) => one!.includes('31 March'))).toEqual([]);
  expect(early).toContain(
    'The recheck set for 26 January 2026 was not kept, and the reason is not recorded.',
  );
});

test('what is for the vet and was not asked is a gap, and none once it was by name', () => {
  const lame = (asked: string) => `---
casefile: 1
animal: "7"
lesions: {}
episodes: [ { lame-since: 2026-04-20, told-by: "milker" } ]
visits:
  - { date: 2026-04-21, by: Orla Venn, kind: first, gait: 3, feet: { LH: { lifted: true, signs: [bone] } }, pain-relief: asked, recheck: 2026-05-10${asked} }
---
`;
  const gapsWith = (asked: string) =>
    rowsOf(
      packOf({ 'cases/f/farm.md': '---\nfarm: F\ngait-scale: uk-0-3\n---\n', 'cases/f/7.md': lame(asked) }, 'f', '2026', today), // prettier-ignore
      'gaps',
    ).filter(({ what }) => what!.startsWith('For the vet since'));
  expect(gapsWith('')).not.toEqual([]);
  expect(gapsWith('').every(({ grade }) => grade === 'serious')).toBe(true);
  expect(gapsWith(', vet: { asked: 2026-04-21, why: "bone seen" }')).not.toEqual([]);
  expect(gapsWith(', vet: { asked: 2026-04-21, why: "bone seen", about: [LH] }')).toEqual([]);
});

test('each other gap has its sentence', () => {
  const farm = '---\nfarm: F\ngait-scale: [ { from: 2026-02-01, scale: uk-0-3 } ]\ngait-rounds:\n  - { date: 2026-03-01, scored: 9, counts: { 0: 9 } }\nplan: { date: 2026-05-01 }\n---\n'; // prettier-ignore
  const animal = (episode: string, visits: string) =>
    `---\ncasefile: 1\nanimal: "7"\nlesions: { a: { code: SU, foot: LH, claw: outer, site: sole } }\nepisodes: [ ${episode} ]\nvisits:${visits}\n---\n`;
  const whatOf = (episode: string, visits: string) =>
    rowsOf(packOf({ 'cases/f/farm.md': farm, 'cases/f/7.md': animal(episode, visits) }, 'f', '2026-01..2026-04', today), 'gaps') // prettier-ignore
      .map(({ grade, what }) => `${grade}: ${what}`);
  const never = whatOf('{ lame-since: 2026-04-20 }', ' []');
  expect(never).toContain('serious: Lame since 20 April 2026 and not lifted: 11 days.');
  expect(never).toContain('minor: Who first saw her lame on 20 April 2026 is not recorded.');
  expect(never).toContain('worth closing: Who scored the herd on 1 March 2026 is not recorded.');
  expect(never).toContain('worth closing: The plan on file is of 1 May 2026, after the period.');
  const over = whatOf(
    '{ lame-since: 2026-03-01, told-by: milker }',
    '\n  - { date: 2026-03-02, by: Orla Venn, kind: first, gait: 2, found: { a: { state: open, width: 9, length: 9, tool: ruler } } }\n  - { date: 2026-04-02, by: Orla Venn, kind: recheck, gait: 0, found: { a: { state: healed } } }',
  );
  expect(over).toContain(
    'minor: All is healed and she has not been lame since 2 April 2026, but the lameness episode has no end.',
  );
  expect(over.some((one) => one.includes('No day to see her again'))).toBe(false);
  expect(over).toContain(
    'worth closing: No training is on file for Orla Venn, who lifted feet at 2 visits, last on 2 April 2026.',
  );
});
