import { expect, test } from 'vitest';
import { waitingOf, runsInPeriod } from '../../src/audit/facts/run-in-period.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import type { Animal } from '../../src/record/animal.js';
import type { FarmRecord } from '../../src/record/practice.js';
import type { Visit } from '../../src/record/visit.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { cow, quernholt, visit } from '../schedule/a-case.js';

const today = '2026-06-16';

function waiting(visits: readonly Visit[], more: Partial<Animal> = {}) {
  const record = {
    slug: '2041',
    animal: cow(visits, more),
    narrative: '',
    source: { file: 'x', placeOf: () => ({ line: 1, column: 1 }) },
  };
  const farm: FarmRecord = { ...record, slug: 'quernholt', farm: quernholt, cases: [record] };
  const work = workOutCase(farm, record, { business: {}, today, prior: publishedPrior });
  const [run] = runsInPeriod(farm, [work], { from: '2026-01-01', to: '2026-12-31' }, today);
  return waitingOf(run!);
}

const found = { a: { state: 'open' as const } };
const since = (day: string, more = {}) => ({ episodes: [{ 'lame-since': day, ...more }] });

test('hours are given only where both times were written', () => {
  const told = visit('2026-01-03', { kind: 'report', at: '22:30' });
  const lifted = visit('2026-01-04', { kind: 'first', found, at: '07:00' });
  expect(waiting([told, lifted], since('2026-01-03'))).toMatchObject({ days: 1, hours: 8.5 });
  const { at: _, ...untimed } = told;
  const { at: __, ...untimedLift } = lifted;
  expect(waiting([untimed, lifted], since('2026-01-03'))).not.toHaveProperty('hours');
  expect(waiting([told, untimedLift], since('2026-01-03'))).toMatchObject({
    days: 1,
  });
  // The report of another day says nothing of when she was first seen.
  expect(waiting([told, lifted], since('2026-01-02'))).not.toHaveProperty('hours');
});

test('a lift written as before the sight of the same day makes no hours', () => {
  const visits = [
    visit('2026-01-03', { kind: 'first', found, at: '07:00' }),
    visit('2026-01-03', { kind: 'report', at: '22:30' }),
  ];
  expect(waiting(visits, since('2026-01-03'))).toMatchObject({ days: 0 });
  expect(waiting(visits, since('2026-01-03'))).not.toHaveProperty('hours');
});

test('a score at the lift is no first sight; a report that scored her lame is', () => {
  expect(waiting([visit('2026-01-05', { kind: 'first', gait: 3, found })])).toEqual({
    lifted: { day: '2026-01-05', by: 'Orla Venn' },
  });
  const report = visit('2026-01-02', { kind: 'report', gait: 2, by: 'milker' });
  expect(waiting([report, visit('2026-01-05', { kind: 'first', found })])).toMatchObject({
    seen: { day: '2026-01-02', from: 'reported', by: 'milker' },
    days: 3,
  });
  const sound = visit('2026-01-02', { kind: 'report', gait: 1 });
  expect(waiting([sound, visit('2026-01-05', { kind: 'first', found })])).not.toHaveProperty('seen');
});

test('a visit that only says which feet stayed down lifts none, nor does a report', () => {
  const visits = [
    visit('2026-01-05', { kind: 'first', feet: { LH: { lifted: false } } }),
    visit('2026-01-06', { kind: 'report' }),
    visit('2026-01-09', { kind: 'recheck', found }),
  ];
  expect(waiting(visits, since('2026-01-04'))).toMatchObject({ days: 5, lifted: { day: '2026-01-09' } });
  expect(waiting(visits.slice(0, 2), since('2026-01-04'))).toEqual({
    seen: { day: '2026-01-04', from: 'written' },
  });
});
