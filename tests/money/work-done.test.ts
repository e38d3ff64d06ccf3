import { expect, test } from 'vitest';
import { isOurs } from '../../src/money/costs.js';
import { workDone } from '../../src/money/work-done.js';
import { cow, visit } from '../herd/invented-herd.js';

const block = { foot: 'LH', claw: 'inner' } as const;

test('visits with a foot lifted, blocks and wraps fitted, products; by their own days, oldest first', () => {
  const animal = cow('1', [
    visit('2026-01-06', {
      blocks: [{ ...block, event: 'already on' }],
      wraps: [{ foot: 'RH', event: 'fitted' }],
    }),
    visit('2026-01-20', { kind: 'report', by: 'Nan' }),
    visit('2026-01-27', { kind: 'missed', why: 'far field' }),
    visit('2026-02-03', {
      // Fitted the day before it was written down.
      blocks: [{ ...block, event: 'replaced', on: '2026-02-02', material: 'wood' }],
      products: [{ product: 'gel', on: '2026-02-01', 'given-by': 'P. Wexmarrow' }, { product: 'spray' }],
    }),
    visit('2026-07-01'),
  ]);
  expect(
    workDone(animal, 'quernholt', '2026-06-16').map(({ date, what, by }) => `${date} ${what} ${by}`),
  ).toEqual([
    '2026-01-06 visit Orla Venn',
    '2026-01-06 wrap Orla Venn',
    '2026-02-01 product P. Wexmarrow',
    '2026-02-02 block Orla Venn',
    '2026-02-03 visit Orla Venn',
    '2026-02-03 product Orla Venn',
  ]);
});

test('what was done on a farm she came from is not this farm’s; a former number on the same farm changes nothing', () => {
  const visits = [visit('2025-03-01'), visit('2025-05-01'), visit('2026-05-01')];
  const from = (farm: string | undefined) =>
    workDone(
      cow('1', visits, { earlier: [{ ...(farm ? { farm } : {}), animal: '9', until: '2025-05-01' }] }),
      'quernholt',
      '2026-06-16',
    ).map(({ date }) => date);
  expect(from('harrowmere')).toEqual(['2026-05-01']);
  expect(from('quernholt')).toEqual(['2025-03-01', '2025-05-01', '2026-05-01']);
  expect(from(undefined)).toHaveLength(3);
});

test('who is of the business: its trimmer and its people; everybody where it names none', () => {
  const business = { trimmer: 'Marra Quillfen', people: [{ name: 'Dob Tansworrel' }] };
  expect(isOurs(business, ' marra  quillfen ')).toBe(true);
  expect(isOurs(business, 'Dob Tansworrel')).toBe(true);
  expect(isOurs(business, 'P. Wexmarrow')).toBe(false);
  expect(isOurs({}, 'P. Wexmarrow')).toBe(true);
});
