import { describe, expect, it } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import type { Animal } from '../../src/record/animal.js';
import type { Practice } from '../../src/record/practice.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, herd, visit } from '../herd/invented-herd.js';

const today = '2026-06-16';
const calved = { calvings: ['2025-11-01'] };

function bookOf(visits: readonly Partial<Visit>[], more: Partial<Animal> = {}) {
  const animal = cow(
    '12',
    visits.map((one) => visit(one.date ?? '2026-06-02', one)),
    { ...calved, ...more },
  );
  const farm = herd('quernholt', [animal], { farm: 'Quernholt', 'milkings-a-day': 2 });
  const practice: Practice = { business: {}, narrative: '', farms: [farm] };
  return composeBook(practice, farm, today);
}

function pageOf(visits: readonly Partial<Visit>[], more: Partial<Animal> = {}) {
  const book = bookOf(visits, more);
  return book.cows[0]!;
}

const withheld = { date: '2026-06-10', products: [{ product: 'x', 'milk-days': 0, 'meat-days': 20 }] };
const sentences = {
  walk: 'is not fit to travel',
  block: 'No cow travels lame',
  calving: 'last tenth of pregnancy',
  slaughter: 'Under withdrawal she does not go for slaughter',
} as const;

describe('whether she travels', () => {
  it.each<[string, Partial<Visit>[], Partial<Animal>, (keyof typeof sentences)[]]>([
    ['sound, and nothing else', [{ gait: 0 }], {}, []],
    ['lame', [{ gait: 2 }], {}, ['walk', 'block']],
    ['on a block', [{ gait: 0, blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }], {}, ['block']],
    ['pain relief two days ago', [{ date: '2026-06-14', gait: 0, 'pain-relief': 'given', products: [{ product: 'x', 'milk-days': 0, 'meat-days': 0 }] }], {}, ['block']],
    ['pain relief three days ago', [{ date: '2026-06-13', gait: 0, 'pain-relief': 'given', products: [{ product: 'x', 'milk-days': 0, 'meat-days': 0 }] }], {}, []],
    ['due in 28 days', [{ gait: 0 }], { calvings: ['2025-06-01'], 'due-to-calve': '2026-07-14' }, ['calving']],
    ['due in 29 days', [{ gait: 0 }], { calvings: ['2025-06-01'], 'due-to-calve': '2026-07-15' }, []],
    ['calved a week ago', [{ gait: 0 }], { calvings: ['2026-06-09'] }, ['calving']],
    ['calved eight days ago', [{ gait: 0 }], { calvings: ['2026-06-08'] }, []],
    ['under withdrawal', [withheld], {}, ['slaughter']],
    ['withdrawal not known', [{ products: [{ product: 'x' }] }], {}, ['slaughter']],
  ])('%s', (_, visits, more, said) => {
    const text = pageOf(visits, more).cautions?.items.join(' ') ?? '';
    expect(Object.keys(sentences).filter((key) => text.includes(sentences[key as keyof typeof sentences]))).toEqual(said);
  }); // prettier-ignore

  it('a closed case under withdrawal is not for slaughter, and its page says so', async () => {
    const closed = { episodes: [{ ended: '2026-06-12', result: 'sound' as const }] };
    expect(pageOf([withheld], closed).cautions?.items.join(' ')).toContain(sentences.slaughter);
    expect(await renderBook(bookOf([withheld], closed))).toContain(sentences.slaughter);
    expect(pageOf([{ gait: 2 }], closed).cautions).toBeUndefined();
  });
});

describe('left under withdrawal', () => {
  const left = (result: 'sold' | 'culled' | 'died', more: object = {}) => ({
    episodes: [{ ended: '2026-06-12', result, ...more }],
  });
  const said = (...of: Parameters<typeof pageOf>) =>
    pageOf(...of).banners.flatMap(({ items }) =>
      items.map(({ lead = '', text }) => `${lead} ${text}`.trim()),
    );

  it('is in a banner on her page, with what was withheld and what was still on her feet', async () => {
    const blocked: Partial<Visit> = { ...withheld, blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] };
    expect(said([blocked], left('sold'))).toEqual([
      'Sold on 12 June 2026 while milk or meat was, or may have been, under withdrawal, with no record that the new keeper was told in writing: the days, and any block or wrap still on.',
      'Meat to Tue 30 June; clear Wed 1 July',
      'A block was still on: left hind, inner claw.',
    ]);
    expect(await renderBook(bookOf([blocked], left('sold')))).toContain('Left under withdrawal');
  });

  it('says that the new keeper was told, that a carcass is not for food, that the abattoir must be told', () => {
    expect(said([withheld], left('sold', { 'told-in-writing': '2026-06-12' }))[0]).toBe(
      'Sold on 12 June 2026 while milk or meat was, or may have been, under withdrawal. The new keeper was told in writing on 12 June 2026.',
    );
    expect(said([withheld], left('died'))[0]).toContain('not for food');
    expect(said([withheld], left('culled'))[0]).toContain('tell the vet and the abattoir');
  });

  it('is not said of one that left clear', () => {
    expect(said([{ ...withheld, date: '2026-05-10' }], left('culled'))).toEqual([]);
  });
});
