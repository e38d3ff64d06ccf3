import { expect, test } from 'vitest';
import { handWorkedFarm } from './hand-worked-farm.js';
import { packOf, rowsOf, textOf } from './read-pack.js';

const pack = packOf(handWorkedFarm, 'oddfold', '2026-01-01..2026-03-31', '2026-05-01');

test('the period at a glance is what a hand counts', () => {
  const shares = rowsOf(pack, 'summary').map((row) => [row['measure'], row['share'], row['share_of']]);
  expect(shares).toEqual([
    // 101, 102, 103 and 105 lame; 107 has trouble in a foot and was never lame.
    ['lame', '4', '5'],
    // 103 was lame when she was lifted, and nobody wrote since when.
    ['seen', '3', '4'],
    ['lifted', '4', '4'],
    ['waited', '3', '4'],
    // Due in the quarter: 3 February kept; 3 March lifted a week later; 26 January missed. 5 January: over by then.
    ['rechecks', '1', '3'],
    ['ended', '2', '4'],
    // Lame and lifted: 101 on 6 January, 102 on 12 January, 103 on 31 March, of which the last says nothing.
    ['pain-relief', '2', '3'],
    ['medicines', '1', '2'],
    ['referrals', '1', '2'],
    // Orla's training ran out on 28 February, and she lifted none after it. Sib's has no end.
    ['trained', '7', '7'],
    ['scorers', '1', '1'],
    ['tools', '4', '7'],
  ]);
  expect(rowsOf(pack, 'summary')[3]!['note']).toBe('days: 2, 4, 17');
  expect(rowsOf(pack, 'summary')[11]!['note']).toBe('1 recorded as not disinfected; 2 not recorded');
  expect(rowsOf(pack, 'summary')[4]!['note']).toBe(
    '1 lifted later; 1 missed without one; not counted: 1 over by then',
  );
});

test('each lameness episode: seen, lifted, days and hours between, outcome', () => {
  const told = rowsOf(pack, 'lame-animals').map((row) =>
    [
      'animal',
      'first_seen_lame',
      'first_seen_by',
      'first_seen_from',
      'first_lifted',
      'days_between',
      'hours_between',
      'outcome',
      'ended',
      'rechecks_kept',
      'rechecks_kept_of',
    ].map((name) => row[name]),
  );
  expect(told).toEqual([
    ['105', '2025-11-01', 'milker', 'written', '2025-11-05', '4', '', 'sold', '2026-01-01', '', ''],
    ['101', '2025-12-20', 'milker', 'written', '2026-01-06', '17', '', 'sound', '2026-04-20', '1', '2'],
    // 06:40 on the 10th to 08:10 on the 12th.
    ['102', '2026-01-10', 'Farm Hand', 'reported', '2026-01-12', '2', '49.5', 'open', '', '0', '1'],
    ['107', '', '', 'not-lame', '2026-02-14', '', '', 'open', '', '', ''],
    ['103', '', '', 'not-written', '2026-03-31', '', '', 'open', '', '', ''],
  ]);
  expect(rowsOf(pack, 'lame-animals')[1]).toMatchObject({
    tag: 'UK 000123 100101',
    lesions: 'white line disease (WL), left hind, outer claw: white line, rear part',
    done: '4 visits with a foot lifted | trimmed at 1 | loose horn off at 1 | 1 block put on | 3 products used',
    pain_relief: '6 January 2026: asked for',
    first_lame_score: '2 (UK 0–3)',
  });
  expect(rowsOf(pack, 'lame-animals')[4]!['pain_relief']).toBe('31 March 2026: lame, and not recorded');
});

test('rechecks: kept, lifted later with the reason, missed, over by then', () => {
  const told = rowsOf(pack, 'rechecks').map((row) =>
    ['animal', 'due', 'standing', 'lifted', 'days_late', 'why_missed', 'result'].map((name) => row[name]),
  );
  expect(told).toEqual([
    ['105', '2026-01-05', 'ended', '', '', '', 'sold'],
    ['102', '2026-01-26', 'missed', '', '', '', ''],
    ['101', '2026-02-03', 'kept', '2026-02-03', '', '', ''],
    ['101', '2026-03-03', 'kept-late', '2026-03-10', '7', 'calving that morning', ''],
  ]);
});

test('gait rounds: lame and severe of those scored, scored of the herd, the range of chance', () => {
  expect(rowsOf(pack, 'gait-rounds')).toEqual([
    {
      date: '2026-01-20',
      scale: 'uk-0-3',
      scored_by: 'Sib  marrable',
      training_standing: 'on-file',
      training: 'in training',
      training_valid_to: '',
      lame: '12',
      lame_of: '80',
      lame_percent: '15',
      // Wilson: (12 + 1.92) ÷ (80 + 3.84) = 0.166, and 0.078 to each side of it.
      lame_range: '95\u00a0% confidence interval 9 to 24\u00a0%',
      severe: '3',
      severe_of: '80',
      severe_percent: '4',
      scored: '80',
      scored_of: '100',
      scored_percent: '80',
      cows_by_score: '0: 50 | 1: 18 | 2: 9 | 3: 3',
    },
  ]);
});

test('medicines: each period as written, no clear day where another is not known, and what is missing; nothing is asked of what is none', () => {
  expect(
    rowsOf(pack, 'medicines').map((row) =>
      ['product', 'last_day', 'milk_withdrawal', 'milk_clear_from', 'meat_withdrawal', 'missing'].map(
        (name) => row[name],
      ),
    ),
  ).toEqual([
    // The spray beside it has no period, so nobody knows until when her milk is withheld.
    [
      'pain relief',
      '2026-01-08',
      '4 days; not known: treat as under withdrawal, ask the vet',
      '',
      '0, nothing withheld',
      '',
    ],
    [
      "'=spray",
      '2026-01-06',
      'not recorded: treat as under withdrawal and ask the vet',
      '',
      'not recorded: treat as under withdrawal and ask the vet',
      'active substance | batch | amount | route | who gave it | who prescribed it | milk withdrawal | meat withdrawal',
    ],
    [
      'hoof pads',
      '2026-01-06',
      'none recorded; recorded as not a medicine',
      '',
      'none recorded; recorded as not a medicine',
      '',
    ],
  ]);
});

test('people, referrals, visits', () => {
  expect(rowsOf(pack, 'people')).toEqual([
    expect.objectContaining({
      name: 'Orla Venn',
      training_standing: 'on-file',
      lifted_visits: '5',
      animals_lifted: '4',
      tools_disinfected: '3',
      tools_disinfected_of: '5',
      gait_rounds: '0',
    }),
    expect.objectContaining({
      name: 'Sib Marrable',
      training_standing: 'on-file',
      lifted_visits: '2',
      tools_disinfected: '1',
      tools_disinfected_of: '2',
      gait_rounds: '1',
    }),
  ]);
  expect(
    rowsOf(pack, 'referrals').map((row) =>
      ['asked', 'asked_by', 'standing', 'answered', 'days_to_answer'].map((name) => row[name]),
    ),
  ).toEqual([
    ['2026-01-12', 'Orla Venn', 'answered', '2026-01-14', '2'],
    ['2026-02-20', 'Farm Hand', 'awaited', '', ''],
  ]);
  // Eleven visits: nine of the runs, among them two reports, an answer and one missed, and two routine ones.
  expect(rowsOf(pack, 'visits').map(({ animal, date }) => `${animal} ${date}`)).toEqual([
    '101 2026-01-06',
    '102 2026-01-10',
    '102 2026-01-12',
    '102 2026-01-14',
    '101 2026-02-03',
    '107 2026-02-14',
    '108 2026-02-14',
    '102 2026-02-20',
    '101 2026-03-03',
    '101 2026-03-10',
    '103 2026-03-31',
  ]);
});

test('the gaps an auditor would find, each once, with its grade', () => {
  const told = rowsOf(pack, 'gaps').map(({ about, grade, what }) => `${about} ${grade}: ${what}`);
  for (const gap of [
    '102 serious: The recheck set for 26 January 2026 was not kept, and the reason is not recorded.',
    '103 serious: The day she was first seen lame is not recorded; she was scored lame on 31 March 2026.',
    '103 worth closing: She was lame on 31 March 2026 (2) with nothing recorded on pain relief.',
    '103 worth closing: No day to see her again was set at or since the last lift on 31 March 2026.',
    "101 serious: '=spray of 6 January 2026 has neither milk nor meat withdrawal. Treat as under withdrawal.",
    "101 worth closing: '=spray of 6 January 2026: not recorded: active substance, amount, route, who gave it, who prescribed it.",
    'the farm worth closing: Tools were recorded as not disinfected at 1 of 7 visits with a foot lifted: 31 March 2026.',
    'the farm worth closing: Whether tools were disinfected is not recorded at 2 of 7 visits with a foot lifted: 12 January 2026, 14 February 2026.',
    'the farm worth closing: Nothing of this farm is sealed.',
  ])
    expect(told.filter((one) => one === gap)).toHaveLength(1);
  // Of a run that belongs, also what came before the period; of runs and days that do not belong, none.
  expect(told.filter((one) => /^10[4568] /.test(one))).toEqual([
    '105 worth closing: She was lame on 5 November 2025 (2) with nothing recorded on pain relief.',
  ]);
  // A missed recheck is reported once, not a second time as one that has passed.
  expect(told.filter((one) => one.includes('The recheck set for'))).toHaveLength(1);
  expect(new Set(told).size).toBe(told.length);
  const grades = rowsOf(pack, 'gaps').map(({ grade }) =>
    ['serious', 'worth closing', 'minor'].indexOf(grade!),
  );
  expect(grades).toEqual(grades.toSorted((a, b) => a - b));
});

test('without a ledger the page says plainly that nothing is sealed', () => {
  const text = textOf(pack.files['audit.html']!);
  expect(text).toContain('Nothing is sealed; a seal proves nothing about the time before it.');
  expect(rowsOf(pack, 'written-late')).toEqual([]);
});

test('an empty period, a farm without rounds or plan, and a farm without an animal say so', () => {
  const empty = packOf(handWorkedFarm, 'oddfold', '2024', '2026-05-01');
  const text = textOf(empty.files['audit.html']!);
  expect(text).toContain('Nothing on file falls in this period');
  expect(text).toContain('No whole-herd scoring is on file in this period.');
  expect(rowsOf(empty, 'lame-animals')).toEqual([]);
  expect(rowsOf(empty, 'summary').every((row) => row['share_of'] === '0' && row['share_percent'] === '')).toBe(true); // prettier-ignore
  expect(rowsOf(empty, 'gaps').map(({ what }) => what)).toEqual([
    'No whole-herd scoring is on file in this period.',
    'The plan on file is of 12 November 2025, after the period.',
    'Nothing of this farm is sealed.',
  ]);
  const bare = packOf({ 'cases/bare/farm.md': '---\nfarm: Bare\n---\n' }, 'bare', '2026', '2026-05-01');
  expect(rowsOf(bare, 'gaps')[0]!['what']).toBe('No foot-health plan is on file.');
  expect(textOf(bare.files['audit.html']!)).not.toMatch(/undefined|NaN/);
});
