import { expect, it } from 'vitest';
import { codeOn } from '../../src/record/code-of-lesion.js';
import type { Visit } from '../../src/record/visit.js';

const seen = (date: string, code?: 'WLA'): Visit => ({
  date,
  by: 'Orla Venn',
  kind: 'recheck',
  found: { a: code ? { state: 'open', code } : { state: 'open' } },
});

it('keeps the declared code until a finding renames it, from that visit on', () => {
  const visits = [seen('2026-01-06'), seen('2026-02-03', 'WLA'), seen('2026-03-03')];
  const lesion = { code: 'WL', foot: 'LH' } as const;
  expect([-1, 0, 1, 2, 9].map((at) => codeOn('a', lesion, visits, at))).toEqual([
    'WL',
    'WL',
    'WLA',
    'WLA',
    'WLA',
  ]);
});
