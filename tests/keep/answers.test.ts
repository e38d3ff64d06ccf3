import { expect, test } from 'vitest';
import { stepInto } from '../../src/casefile/explain/explain-key.js';
import { wantedBy } from '../../src/casefile/wanted.js';
import { readAnswers } from '../../src/keep/answer/read-answers.js';
import { farm } from '../../src/record/farm.js';
import { visit } from '../../src/record/visit.js';

const from = '2026-02-03';
const read = (key: string, ...typed: string[]) => {
  const wanted = stepInto(wantedBy(visit), key) ?? stepInto(wantedBy(farm), key)!;
  return readAnswers(wanted, typed, { from });
};

test.each([
  ['gait', ['2'], 2],
  ['kind', ['Recheck'], 'recheck'],
  ['recheck', ['4 weeks'], '2026-03-03'],
  ['recheck', ['10d'], '2026-02-13'],
  ['tools-disinfected', ['yes'], true],
  ['trimmed', ['LH, rf'], ['LH', 'RF']],
  ['by', ['Orla Venn'], 'Orla Venn'],
  [
    'found',
    ['a: open, top 21, wall 43, tool ruler, seen, undermined, loose horn', 'c: stage M2'],
    {
      a: {
        state: 'open',
        top: 21,
        wall: 43,
        tool: 'ruler',
        'top-found': 'seen',
        signs: ['undermined', 'loose horn'],
      },
      c: { stage: 'M2' },
    },
  ],
  [
    'found',
    ['a open, signs undermined + pus, ran-up, note "wide, dry"'],
    { a: { state: 'open', signs: ['undermined', 'pus'], 'ran-up': true, note: 'wide, dry' } },
  ],
  [
    'blocks',
    ['LH inner fitted wood', 'LH, inner, removed, carrying-claw bruised'],
    [
      { foot: 'LH', claw: 'inner', event: 'fitted', material: 'wood' },
      { foot: 'LH', claw: 'inner', event: 'removed', 'carrying-claw': 'bruised' },
    ],
  ],
  ['wraps', ['RH, lost, on unknown'], [{ foot: 'RH', event: 'lost', on: 'unknown' }]],
  ['feet', ['lh: signs heat, note "warm"'], { LH: { signs: ['heat'], note: 'warm' } }],
  ['vet', ['heat above the foot, and more'], { why: 'heat above the foot, and more' }],
  [
    'ask-farm',
    ['block watch, by 1 week', 'straw pen, by 2026-02-03'],
    [
      { what: 'block watch', by: '2026-02-10' },
      { what: 'straw pen', by: '2026-02-03' },
    ],
  ],
  [
    'products',
    ['product "spray, blue", medicine, batch K118, milk-days 0'],
    [{ product: 'spray, blue', class: 'medicine', batch: 'K118', 'milk-days': 0 }],
  ],
  [
    'found',
    ['a: open, heat, signs smell, gone pus + bleeding'],
    { a: { state: 'open', signs: ['heat', 'smell'], gone: ['pus', 'bleeding'] } },
  ],
  ['signs', ['down, off feed'], ['down', 'off feed']],
  [
    'vet',
    ['about LH + b + pus, heat above the foot, and more'],
    { about: ['LH', 'b', 'pus'], why: 'heat above the foot, and more' },
  ],
  [
    'vet-answer',
    ['to 2026-01-06, by "R. Amble", closes, reply "work may go on"'],
    { to: '2026-01-06', by: 'R. Amble', closes: true, reply: 'work may go on' },
  ],
  ['found', ['a: open, top 21, ruler'], { a: { state: 'open', top: 21, tool: 'ruler' } }],
  ['herd', ['cows 210, housed'], { cows: 210, housing: 'housed' }],
  ['gait-scale', ['uk-0-3'], 'uk-0-3'],
])('%s %j', (key, typed, expected) => {
  expect(read(key, ...typed)).toEqual({ outcome: 'value', value: expected });
});

test('at a terminal words may be typed by their first letters, alone and in a group; elsewhere they may not', () => {
  const typed = (key: string, text: string) =>
    readAnswers(stepInto(wantedBy(visit), key)!, [text], { from, byFirstLetters: true });
  expect(typed('blocks', 'lh in fit pl')).toEqual({
    outcome: 'value',
    value: [{ foot: 'LH', claw: 'inner', event: 'fitted', material: 'plastic' }],
  });
  expect(typed('pain-relief', 'as')).toEqual({ outcome: 'value', value: 'asked' });
  expect(typed('pain-relief', 'a')).toMatchObject({
    message: '`a` may be asked or advised, expected the one that is meant',
  });
  expect(typed('blocks', 'lh in fit w')).toMatchObject({
    message: expect.stringMatching(/`w` may be `event` or `material`/),
  });
  expect(typed('vet', 'in')).toEqual({ outcome: 'value', value: { why: 'in' } });
  expect(read('pain-relief', 'as').outcome).toBe('trouble');
  expect(read('blocks', 'LH in fitted').outcome).toBe('trouble');
});

test.each([
  ['gait', ['22 mm'], /^the answer is `22 mm`, expected the number alone$/],
  ['gait', ['1', '2'], /given 2 times/],
  ['kind', ['recheque'], /did you mean `recheck`/],
  [
    'recheck',
    ['2026-02-30'],
    /^the answer is `2026-02-30`, expected a day that is in the calendar; a day to come can be given as 4 weeks$/,
  ],
  ['found', ['a: opne'], /did you mean `open`/],
  ['found', ['a: open, gone pus, heat'], /`heat` may be `signs` or `gone`, expected the key before it/],
  ['found', ['a: open, ruler, tape'], /^a: tool is given twice, expected once$/],
  ['gait', ['1,5'], /^the answer is `1,5`, expected a decimal point$/],
  ['found', ['a: open, covered'], /state is given twice/],
  ['found', ['a: open', 'a: covered'], /a is given twice/],
  ['found', ['a: top 2,5'], /`5`/],
  ['feet', ['XX: heat'], /expected LF, RF, LH, RH/],
  ['blocks', ['LH inner'], undefined],
])('%s %j is told what is wrong', (key, typed, expected) => {
  const answer = read(key, ...typed);
  // What is missing from a group is the reader's to say, with its place in the file.
  if (expected === undefined) expect(answer.outcome).toBe('value');
  else expect(answer).toMatchObject({ outcome: 'trouble', message: expect.stringMatching(expected) });
});
