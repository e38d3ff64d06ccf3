import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { readForm } from '../../src/form/read-form.js';
import { valuesOfVisit } from '../../src/form/said-pages.js';
import { visitForm } from '../../src/form/visit-form.js';
import { withoutEmpty } from '../../src/note/same-visit.js';
import { anyDraft } from './any-draft.js';
import { made, today } from './made-for.js';

test('any visit by the record model, filled into its form and read from it, is the same record', () => {
  const keys = new Set<string>();
  fc.assert(
    fc.property(anyDraft, (draft) => {
      const values = valuesOfVisit(draft);
      const read = readForm(visitForm(made, values), values, today);
      expect([...read.troubles]).toEqual([]);
      expect(read.draft).toEqual(withoutEmpty(draft));
      for (const name of values.keys()) keys.add(name.split('.').at(-1) ?? '');
    }),
    { numRuns: 300, seed: 20261125 },
  );
  // What is drawn reaches the rare keys too, or the law would say little.
  for (const key of [
    'wall-at',
    'joined',
    'carrying-claw',
    'milk-milkings',
    'reply',
    'saw-expected',
    'distance',
  ])
    expect(keys).toContain(key);
});

test('a lesion and a mark first met are declared with the visit', () => {
  const values = new Map([
    ['date', ['2026-02-03']],
    ['by', ['Orla Venn ']],
    ['kind', ['recheck']],
    ['lesions.f.code', ['WL']],
    ['lesions.f.foot', ['RH']],
    ['lesions.f.claw', ['outer']],
    ['lesions.f.line', ['heel']],
    ['found.f.state', ['open']],
    ['found.f.top', ['20,5']],
    ['marks.m2.foot', ['RH']],
    ['marks.m2.claw', ['inner']],
    ['marks.m2.line', ['heel']],
    ['found.m2.distance', ['6']],
    ['recheck', ['4 weeks', '']],
  ]);
  const read = readForm(visitForm(made, values), values, today);
  expect([...read.troubles]).toEqual([]);
  expect(read.draft).toEqual({
    date: '2026-02-03',
    by: 'Orla Venn',
    kind: 'recheck',
    found: { f: { state: 'open', top: 20.5 }, m2: { distance: 6 } },
    recheck: '2026-03-03',
  });
  expect(read.declares).toEqual({
    lesions: { f: { code: 'WL', foot: 'RH', claw: 'outer', line: 'heel' } },
    marks: { m2: { foot: 'RH', claw: 'inner', line: 'heel' } },
  });
});

test('what is tapped as being like last time is said again but for its lengths, and what is tapped beside it goes before', () => {
  const read = (...said: (readonly [string, string])[]) => {
    const values = new Map(said.map(([name, value]) => [name, [value]]));
    return readForm(visitForm(made, values), values, today).draft.found;
  };
  const last = ['found.a.last', 'yes'] as const;
  expect(read(last, ['found.a.top', '21'])).toEqual({ a: { state: 'open', top: 21, 'top-found': 'seen', tool: 'tape' } }); // prettier-ignore
  expect(read(last, ['found.a.wall', '43'])).toEqual({ a: { state: 'open', wall: 43, tool: 'tape' } });
  expect(read(last, ['found.a.state', 'healed'])).toEqual({ a: { state: 'healed' } });
  expect(read(last, ['found.a.top', '21'], ['found.a.tool', 'ruler'])).toMatchObject({
    a: { tool: 'ruler' },
  });
  expect(read(['found.a.top', '21'])).toEqual({ a: { top: 21 } });
  // Of what is healed or judged without a tool there is nothing to say again.
  expect(read(['found.e.last', 'yes'], ['found.c.last', 'yes'])).toBeUndefined();
});

test('how she stood is the last word on it, though the tool was read at an earlier visit', () => {
  const covered = { date: '2026-02-03', by: 'Orla Venn', kind: 'recheck', found: { a: { state: 'covered' } } } as const; // prettier-ignore
  const later = { ...made, animal: { ...made.animal, visits: [...made.animal.visits, covered] } };
  const values = new Map([
    ['found.a.last', ['yes']],
    ['found.a.top', ['30']],
  ]);
  expect(readForm(visitForm(later, values), values, today).draft.found).toEqual({
    a: { state: 'covered', top: 30, 'top-found': 'seen', tool: 'tape' },
  });
});

test('a block known to be on her says nothing until something of it is said, and gives way to another', () => {
  const known = { ...made, onHer: { blocks: [{ foot: 'LH', claw: 'inner' }], wraps: [] } };
  const place = [
    ['blocks.0.foot', ['LH']],
    ['blocks.0.claw', ['inner']],
  ] as const;
  const read = (values: Map<string, string[]>) => readForm(visitForm(known, values), values, today);
  const as = (...more: (readonly [string, readonly string[]])[]) =>
    read(new Map([...place, ...more].map(([name, value]) => [name, [...value]])));
  expect(as().draft).toEqual({});
  expect(as(['blocks.0.event', ['']]).draft).toEqual({});
  // Taken off by another visit since the form was drawn.
  const drawn = new Map<string, readonly string[]>([
    ...place,
    ['blocks.0.known', ['yes']],
    ['blocks.0.event', ['']],
  ]);
  const off = readForm(visitForm(made, drawn), drawn, today);
  expect([off.draft, off.troubles.get('blocks.0.event')]).toEqual([{}, undefined]);
  expect(as(['blocks.0.event', ['checked']]).draft.blocks).toEqual([
    { foot: 'LH', claw: 'inner', event: 'checked' },
  ]);
  expect(as(['blocks.0.note', ['loose']]).troubles.get('blocks.0.event')).toBe('nothing, expected an answer');
  const other = { foot: 'RF', claw: 'outer', event: 'fitted' } as const;
  expect(read(new Map(valuesOfVisit({ blocks: [other] }).entries()) as Map<string, string[]>).draft).toEqual({ blocks: [other] }); // prettier-ignore
});

test('a day given as so long before or after the visit is that day', () => {
  const values = new Map([
    ['date', ['2026-06-16']],
    ['farm-did.0.what', ['wrap off']],
    ['farm-did.0.on', ['1 day ago']],
    ['ask-farm.0.what', ['block watch']],
    ['ask-farm.0.by', ['2 weeks']],
  ]);
  const { draft, troubles } = readForm(visitForm(made, values), values, today);
  expect(troubles.get('farm-did.0.on')).toBeUndefined();
  expect(draft).toMatchObject({
    'farm-did': [{ what: 'wrap off', on: '2026-06-15' }],
    'ask-farm': [{ what: 'block watch', by: '2026-06-30' }],
  });
});

test('a case that is opened asks for her number, and takes her tag', () => {
  const blank = { casefile: 1 as const, animal: '', lesions: {}, visits: [] };
  const read = (values: Map<string, string[]>) =>
    readForm(visitForm({ animal: blank, gaitScale: 'uk-0-3', opens: true }, values), values, today);
  expect(read(new Map()).troubles.get('animal')).toBe('nothing, expected an answer');
  expect(read(new Map([['animal', [' 2500 ']], ['tag', ['']]])).opens).toEqual({ animal: '2500' }); // prettier-ignore
  expect(visitForm(made, new Map()).identity).toEqual([]);
});

test('a lesion whose name has changed is asked what fits the new one', () => {
  const values = new Map([
    ['found.d.code', ['SU']],
    ['found.d.state', ['open']],
    ['found.d.length', ['12']],
  ]);
  const read = readForm(visitForm(made, values), values, today);
  expect(read.draft).toEqual({ found: { d: { code: 'SU', state: 'open', length: 12 } } });
  const unfit = new Map([['found.d.state', ['open']]]);
  expect(readForm(visitForm(made, unfit), unfit, today).troubles.get('found.d.state')).toBe(
    '“open”, expected healed, present',
  );
});

test.each([
  ['found.a.top', ['21 mm'], 'the answer is “21 mm”, expected the number alone'],
  ['weight', ['1,500'], 'the answer is “1,500”, expected a decimal point'],
  [
    'date',
    ['2026-02-30'],
    'the answer is “2026-02-30”, expected a day that is in the calendar; a day to come can be given as 4 weeks',
  ],
  ['at', ['25:00'], '“25:00”, expected a time such as 09:30'],
  ['kind', ['visit'], '“visit”, expected first, recheck, routine, report, missed'],
  ['saw-expected', ['yes', 'no'], 'both “yes” and “no”, expected one of them'],
  ['recheck', ['2 weeks', '2026-03-03'], 'both “2 weeks” and “2026-03-03”, expected one of them'],
  ['blocks.0.foot', ['LH'], undefined],
])('%s: %j is distinguished at its field', (name, given, message) => {
  const values = new Map([[name, given]]);
  const { troubles } = readForm(visitForm(made, values), values, today);
  if (message !== undefined) expect(troubles.get(name)).toBe(message);
  else expect(troubles.get('blocks.0.claw')).toBe('nothing, expected an answer');
});
