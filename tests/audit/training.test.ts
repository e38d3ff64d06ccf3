import { expect, test } from 'vitest';
import { trainingOn } from '../../src/audit/facts/worker.js';

const business = {
  people: [
    { name: 'Orla Venn', training: 'certificate', 'valid-to': '2026-02-28' },
    { name: 'Sib Marrable', training: 'in training' },
    { name: 'Dob Tansworrel' },
  ],
};

test('training holds through its last day, and a name is known in any case and spacing', () => {
  expect(trainingOn(business, 'Orla Venn', '2026-02-28').standing).toBe('on-file');
  expect(trainingOn(business, 'Orla Venn', '2026-03-01').standing).toBe('run-out');
  expect(trainingOn(business, ' orla  VENN ', '2026-02-28')).toEqual({
    standing: 'on-file',
    training: 'certificate',
    validTo: '2026-02-28',
  });
});

test('training without an end does not run out; none written is none, whoever it is', () => {
  expect(trainingOn(business, 'Sib Marrable', '2199-01-01').standing).toBe('on-file');
  for (const name of ['Dob Tansworrel', 'Nan Thistlewrack', undefined])
    expect(trainingOn(business, name, '2026-01-01')).toEqual({ standing: 'not-on-file' });
  expect(trainingOn({}, 'Orla Venn', '2026-01-01')).toEqual({ standing: 'not-on-file' });
});
