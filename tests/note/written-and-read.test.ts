import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readNote } from '../../src/note/read-note.js';
import { withoutEmpty } from '../../src/note/same-visit.js';
import { writeNote } from '../../src/note/write/write-note.js';
import {
  found,
  type Found,
  blockEvent,
  type FootFinding,
  footFinding,
  productUse,
  visit,
  wrapEvent,
  type Visit,
} from '../../src/record/visit.js';
import * as words from '../../src/record/words.js';
import { noteContext, twoFarms } from './two-farms.js';

const context = noteContext('2026-06-16');
const record = twoFarms()[0]!.cases[0]!;
const of = { farm: 'quernholt', slug: record.slug, animal: record.animal };

const day = fc
  .integer({ min: 0, max: 900 })
  .map((days) => new Date(Date.UTC(2024, 0, 1 + days)).toISOString().slice(0, 10));
const text = fc.oneof(
  fc.string({ minLength: 1, unit: 'grapheme' }),
  fc.constantFrom(
    'top 21',
    'say "so"',
    'back\\slash',
    'two\nlines',
    '“curly” it’s',
    '> quoted',
    'block off. wall 43',
    '👨‍🌾',
    ' ',
    'a\u00a0b',
    '-- ',
  ),
);
const mm = fc.integer({ min: 0, max: 800 }).map((quarters) => quarters / 4);
const yes = fc.boolean();
const number = fc.integer({ min: 0, max: 4000 }).map((tenths) => tenths / 10);
const some = <T>(all: readonly T[]) =>
  fc.uniqueArray(fc.constantFrom(...all), { minLength: 1, maxLength: 4 });
const oneOf = <T>(all: readonly T[]) => fc.constantFrom(...all);
const eventDay = fc.oneof(day, fc.constant('unknown'));

/** A value for every key of the schema; a key that is added to the schema and not here fails the test below. */
const foundKeys = {
  state: oneOf(words.lesionStates), stage: oneOf(words.ddStages), top: mm, 'top-found': oneOf(words.topFoundWords), wall: mm,
  'wall-at': fc.constant('beside'), 'wall-lowered': yes, 'wall-tool': oneOf(words.tools), width: mm, length: mm, depth: mm,
  distance: mm, tool: oneOf(words.tools), signs: some(words.signs), gone: some(words.signs), code: oneOf(words.lesionCodes), infected: yes,
  'ran-up': yes, 'opened-further': yes, joined: oneOf(['b', 'wall']), lifted: yes, note: text,
}; // prettier-ignore
const blockKeys = {
  foot: oneOf(words.feet), claw: oneOf(words.claws), event: oneOf(words.fixtureEvents), material: oneOf(words.blockMaterials),
  on: eventDay, 'carrying-claw': oneOf(words.carryingClawWords), note: text,
}; // prettier-ignore
const wrapKeys = { foot: oneOf(words.feet), event: oneOf(words.fixtureEvents), on: eventDay, note: text };
const productKeys = {
  product: text, active: text, class: oneOf(words.productClasses), batch: text, amount: text, route: text, lesion: oneOf(['a', 'b']),
  on: day, until: day, 'milk-days': number, 'milk-hours': number, 'milk-milkings': number,
  'milk-days-after-calving': number, 'meat-days': number,
  'given-by': text, 'prescribed-by': text, cost: number, note: text,
}; // prettier-ignore
const footKeys = { lifted: yes, signs: some(words.signs), gone: some(words.signs), note: text };
const task = oneOf(words.farmTasks);
const about = some([...words.aboutWords, 'a', 'wall', 'm1']);
const answerKeys = {
  to: day,
  by: text,
  reply: text,
  about,
  closes: yes,
  treated: yes,
  does: fc.array(fc.record({ what: oneOf(words.vetTasks), on: day }), { maxLength: 3 }),
};

const wallGap = fc.record(pick(foundKeys, ['state', 'top', 'top-found', 'wall', 'wall-at', 'wall-lowered', 'wall-tool', 'width', 'depth', 'tool', 'signs', 'gone', 'code', 'infected', 'ran-up', 'opened-further', 'joined', 'lifted', 'note']), { requiredKeys: [] }); // prettier-ignore
const gapState = wallGap.map(({ state, ...gap }) =>
  state === undefined ? gap : { ...gap, state: state === 'present' ? ('open' as const) : state },
);
const ulcer = fc.record({ ...pick(foundKeys, ['length', 'width', 'depth', 'tool', 'signs', 'gone', 'code', 'infected', 'lifted', 'note']), state: oneOf(['open', 'covered', 'healed']) }, { requiredKeys: [] }); // prettier-ignore
const skin = fc.record(
  pick(foundKeys, ['stage', 'length', 'width', 'tool', 'signs', 'gone', 'lifted', 'note']),
  {
    requiredKeys: [],
  },
);
const markFound = fc.record(pick(foundKeys, ['distance', 'tool', 'lifted', 'note']), {
  requiredKeys: ['distance'],
});

const block = fc.record(blockKeys, { requiredKeys: ['foot', 'claw', 'event'] }).map(({ 'carrying-claw': carrying, ...rest }) =>
  carrying !== undefined && ['removed', 'lost', 'replaced'].includes(rest.event) ? { ...rest, 'carrying-claw': carrying } : rest); // prettier-ignore

const visitKeys = {
  date: day,
  at: fc.tuple(fc.integer({ min: 0, max: 23 }), fc.integer({ min: 0, max: 59 })).map((two) => two.map((n) => String(n).padStart(2, '0')).join(':')),
  by: text, kind: oneOf(words.visitKinds), why: text, gait: oneOf([0, 1, 2, 3]), 'gait-by': text, 'on-block': yes,
  condition: fc.integer({ min: 4, max: 20 }).map((quarters) => quarters / 4), weight: number, signs: some(words.animalSigns),
  feet: fc.record({ LF: fc.record(footKeys, { requiredKeys: [] }), RH: fc.record(footKeys, { requiredKeys: [] }) }, { requiredKeys: [] }),
  found: fc.record({ a: gapState, wall: gapState, b: ulcer, c: skin, m1: markFound }, { requiredKeys: [] }),
  trimmed: some(words.feet), 'cut-back': some(['a', 'b']), blocks: fc.array(block, { maxLength: 3 }),
  wraps: fc.array(fc.record(wrapKeys, { requiredKeys: ['foot', 'event'] }), { maxLength: 2 }),
  products: fc.array(fc.record(productKeys, { requiredKeys: ['product'] }), { maxLength: 2 }),
  'pain-relief': oneOf(words.painReliefWords), vet: fc.record({ asked: day, why: text, about }, { requiredKeys: ['asked', 'why'] }),
  'vet-answer': fc.record(answerKeys, { requiredKeys: ['to', 'by', 'reply'] }),
  'ask-farm': fc.array(fc.record({ what: task, by: day }), { maxLength: 3 }),
  'farm-did': fc.array(fc.record({ what: task, on: day }), { maxLength: 3 }),
  'tools-disinfected': yes, 'saw-expected': yes, recheck: day, note: text,
  amended: fc.array(fc.record({ date: day, by: text, why: text }), { maxLength: 2 }),
}; // prettier-ignore

function pick<T extends object, K extends keyof T>(from: T, keys: readonly K[]): Pick<T, K> {
  return Object.fromEntries(keys.map((key) => [key, from[key]])) as Pick<T, K>;
}

/** No sign is both seen and gone, and none is gone where no foot was lifted: a note asks about the one and keeps the other as a note. */
function asRecorded(given: Visit): Visit {
  const isLifting = given.kind !== 'report' && given.kind !== 'missed';
  const one = <T extends Found | FootFinding>({ gone = [], ...rest }: T) => {
    const left = isLifting ? gone.filter((sign) => !rest.signs?.includes(sign)) : [];
    return left.length > 0 ? { ...rest, gone: left } : rest;
  };
  const each = (group: object) =>
    Object.fromEntries(Object.entries(group).map(([name, finding]) => [name, one(finding as Found)]));
  return {
    ...given,
    ...(given.feet ? { feet: each(given.feet) } : {}),
    ...(given.found ? { found: each(given.found) } : {}),
  };
}

function readBack(noted: Visit) {
  const written = writeNote(of, noted);
  return { written, reading: readNote(written, context) };
}

test('any visit without photos comes back as it was written', () => {
  fc.assert(
    fc.property(fc.record(visitKeys, { requiredKeys: ['date', 'by', 'kind'] }), (given) => {
      const noted = asRecorded(given as Visit);
      const { written, reading } = readBack(noted);
      const [only, ...more] = reading.animals;
      expect({ more, asked: only?.questions, heading: reading.questions }, written).toEqual({
        more: [],
        asked: [],
        heading: [],
      });
      expect(only?.draft, written).toEqual(withoutEmpty(noted));
    }),
    { numRuns: 120 },
  );
});

describe('each value of each key comes back', () => {
  const base: Visit = { date: '2026-06-15', by: 'Orla Venn', kind: 'recheck' };
  const lists: readonly (readonly [string, readonly Visit[]])[] = [
    ['state', ['open', 'covered', 'healed', 'lasting'].map((state) => ({ ...base, found: { a: { state: state as 'open' } } }))],
    ['stage', words.ddStages.map((stage) => ({ ...base, found: { c: { stage } } }))],
    ['top-found', words.topFoundWords.map((how) => ({ ...base, found: { a: { state: 'open', top: 9, 'top-found': how } } }))],
    ['tool', words.tools.map((tool) => ({ ...base, found: { a: { state: 'open', top: 9, tool, wall: 42, 'wall-tool': tool } } }))],
    ['signs', words.signs.map((sign) => ({ ...base, feet: { LH: { signs: [sign] } }, found: { a: { state: 'open', signs: [sign] } } }))],
    ['gone', words.signs.map((sign) => ({ ...base, feet: { LH: { gone: [sign] } }, found: { a: { state: 'open', gone: [sign] } } }))],
    ['signs of the animal', words.animalSigns.map((sign) => ({ ...base, signs: [sign] }))],
    ['about', [...words.aboutWords, 'a', 'wall', 'm1'].map((item) => ({ ...base, vet: { asked: '2026-06-15', why: 'worse', about: [item] }, 'vet-answer': { to: '2026-06-15', by: 'P. Wexmarrow', reply: 'seen', about: [item] } }))],
    ['closes', [true, false].map((closes) => ({ ...base, 'vet-answer': { to: '2026-06-15', by: 'P. Wexmarrow', reply: 'seen', closes } }))],
    ['kind', words.visitKinds.map((kind) => ({ ...base, kind }))],
    ['event', words.fixtureEvents.map((event) => ({ ...base, blocks: [{ foot: 'LF', claw: 'outer', event }], wraps: [{ foot: 'RH', event }] }))],
    ['carrying-claw', words.carryingClawWords.map((claw) => ({ ...base, blocks: [{ foot: 'LF', claw: 'outer', event: 'removed', 'carrying-claw': claw }] }))],
    ['material', words.blockMaterials.map((material) => ({ ...base, blocks: [{ foot: 'LF', claw: 'inner', event: 'fitted', material }] }))],
    ['class', words.productClasses.map((one) => ({ ...base, products: [{ product: 'x', class: one }] }))],
    ['pain-relief', words.painReliefWords.map((word) => ({ ...base, 'pain-relief': word }))],
    ['what', words.farmTasks.map((what) => ({ ...base, 'ask-farm': [{ what, by: '2026-06-20' }], 'farm-did': [{ what, on: '2026-06-02' }] }))],
    ['vet does', words.vetTasks.map((what) => ({ ...base, 'vet-answer': { to: '2026-06-02', by: 'x', reply: 'y', does: [{ what, on: '2026-06-20' }] } }))],
    ['code', words.lesionCodes.map((code) => ({ ...base, found: { a: { state: 'open', code } } }))],
  ]; // prettier-ignore
  test.each(lists)('%s', (_, all) => {
    for (const noted of all) {
      const { written, reading } = readBack(noted);
      expect(reading.animals[0]?.questions, written).toEqual([]);
      expect(reading.animals[0]?.draft, written).toEqual(noted);
    }
  });
});

test('every key of the schemas is among those tried, but for the photos', () => {
  const tried = [visitKeys, foundKeys, footKeys, blockKeys, wrapKeys, productKeys, answerKeys].map((keys) =>
    Object.keys(keys).sort(),
  );
  const known = [visit, found, footFinding, blockEvent, wrapEvent, productUse, visit.shape['vet-answer'].unwrap()].map(({ shape }) =>
    Object.keys(shape).filter((key) => key !== 'photos').sort()); // prettier-ignore
  expect(tried).toEqual(known);
});

test('a photo is left out: a note carries none', () => {
  const noted: Visit = {
    date: '2026-06-15',
    by: 'Orla Venn',
    kind: 'recheck',
    photos: [{ file: 'photos/x.jpg' }],
  };
  expect(writeNote(of, noted)).not.toContain('photo');
});

test('a case opened and lesions first met are read back as they were written, and open nothing twice', () => {
  const noted: Visit = {
    date: '2026-06-16',
    by: 'Orla Venn',
    kind: 'first',
    found: { a: { state: 'open' } },
  };
  const lesions = {
    a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear', line: 'heel' },
    d: { code: 'DD', foot: 'RH', 'again-of': 'c' },
  } as const;
  const opens = { animal: '25, "00"', tag: 'UK 000123 402500' };
  const cow = { farm: 'quernholt', slug: '25-00', animal: {}, opens, lesions };
  const [reading] = readNote(writeNote(cow, noted), context).animals;
  expect(reading).toMatchObject({
    animal: '25-00',
    called: opens.animal,
    tag: opens.tag,
    opens: true,
    declares: lesions,
    draft: noted,
    questions: [],
  });
  const [hers] = readNote(writeNote({ ...of, lesions: { d: lesions.d } }, noted), context).animals;
  expect(hers).toMatchObject({ animal: of.slug, declares: { d: lesions.d }, draft: noted, questions: [] });
  expect(hers).not.toHaveProperty('opens');
  // Somebody changed the line into no lesion: it is read as a person's words, and nothing is taken for certain.
  const changed = writeNote({ ...of, lesions: { d: lesions.d } }, noted).replace('code DD', 'code XX');
  expect(readNote(changed, context).animals.every(({ declares }) => declares?.['d'] === undefined)).toBe(
    true,
  );
});
