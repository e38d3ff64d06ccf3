import * as fc from 'fast-check';
import type { Animal } from '../../src/record/animal.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { Found, Visit } from '../../src/record/visit.js';
import type { Practice } from '../../src/record/practice.js';
import {
  aboutWords,
  animalSigns,
  farmTasks,
  feet,
  type Foot,
  signs,
  vetTasks,
} from '../../src/record/words.js';
import { anyPractice } from '../money/any-business.js';

export const today = '2026-06-16';

/** A visit, or one that hangs on its day and on the last question to the vet before it. */
type What = Partial<Visit> | ((date: string, asked: string | undefined) => Partial<Visit>);

/** What happened to one animal, each so many days ago; `alone`: and nothing else in those days, or before. */
interface Story {
  readonly visits: readonly (readonly [daysAgo: number, what: What])[];
  readonly lesions?: readonly (keyof typeof more)[];
  readonly animal?: Partial<Animal>;
  readonly alone?: true | 'and before';
}

/** Lesions beside the three that every animal here is declared with. */
const more = {
  b: { code: 'WL', foot: 'LH', claw: 'outer', line: 'abaxial' },
  g: { code: 'WL', foot: 'RF', claw: 'outer', line: 'dorsal' },
  again: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel', 'again-of': 'a' },
  foul: { code: 'IP', foot: 'RF' },
  toe: { code: 'TN', foot: 'LF', claw: 'outer' },
  thin: { code: 'TS', foot: 'LH', claw: 'inner' },
  split: { code: 'HFA', foot: 'LF', claw: 'outer', line: 'axial' },
} satisfies Animal['lesions'];

const ruler = { state: 'open', wall: 60, tool: 'ruler' } as const;
const tops = (...mm: number[]): Found[] => mm.map((top) => ({ ...ruler, top }));
const widths = (...mm: number[]): Found[] => mm.map((width) => ({ state: 'open', width, tool: 'calliper' }));

/** Findings of one lesion at visits so many days apart, the last of them so many days ago. */
function course(lesion: string, ...courses: readonly Found[][]): fc.Arbitrary<Story> {
  return fc
    .tuple(fc.constantFrom(...courses), fc.constantFrom(14, 28), fc.nat(40), fc.boolean())
    .map(([founds, apart, last, walks]) => ({
      alone: true,
      ...(lesion in more ? { lesions: [lesion as keyof typeof more] } : {}),
      visits: founds.map((found, at) => [
        last + (founds.length - 1 - at) * apart,
        { found: { [lesion]: found }, ...(walks ? { gait: 1, 'on-block': false } : {}) },
      ]),
    }));
}

const gaps = (lesion: string) =>
  course(
    lesion,
    tops(20),
    tops(20, 26),
    tops(20, 31, 40),
    tops(20, 21),
    tops(20, 5),
    tops(38, 20, 4),
    tops(20, 41),
    tops(9, 0),
    tops(0, 0),
    tops(8, 8, 8, 8, 8),
    tops(14, 15, 16, 17),
    tops(20, 18),
    tops(33, 4.1),
    [...tops(20), { ...ruler, top: 12, 'opened-further': true }],
    [...tops(20), { state: 'open', 'ran-up': true }],
    [...tops(20), { state: 'open', 'top-found': 'higher' }],
    [...tops(20), { state: 'open', top: 24, 'top-found': 'higher', signs: ['pus'] }],
    [
      { ...ruler, top: 20, width: 9 },
      { ...ruler, top: 26, width: 18 },
    ],
    [20, 26].map((top) => ({ ...ruler, top, tool: 'eye' })),
    [...tops(20), { ...ruler, top: 26, infected: true }],
    [...tops(20), { state: 'lasting' }],
    [...tops(20), { state: 'covered' }],
    [...tops(20), { ...ruler, top: 24, joined: 'b' }],
    [{ ...ruler, top: 24, joined: 'b' }],
    [...tops(5), { ...ruler, top: 8, signs: ['pus'] }],
    [{ ...ruler, top: 10, signs: ['exposed corium'] }, { ...ruler, top: 14, signs: ['exposed corium'] }], // prettier-ignore
  );

const measured = fc.oneof(
  { weight: 4, arbitrary: gaps('a') },
  { weight: 4, arbitrary: gaps('g') },
  course('split', tops(20), tops(20, 26), tops(20, 26, 31)),
  course('again', [{ state: 'open' }], tops(20)),
  course('b', [{ state: 'healed' }], [{ state: 'open' }], tops(20)),
  {
    weight: 3,
    arbitrary: course(
      'u',
      widths(16),
      widths(20, 10),
      widths(20, 21),
      widths(20, 30),
      widths(20, 21, 21),
      widths(16, 16),
      widths(40, 6),
      [...widths(16), { state: 'covered' as const }, ...widths(6)],
      [...widths(20), { state: 'open', width: 30, tool: 'calliper', 'opened-further': true }],
      [16, 12].map((width) => ({ state: 'open', width, tool: 'eye' })),
      [{ state: 'open', signs: ['proud flesh'] }, { state: 'open', signs: ['exposed corium'] }], // prettier-ignore
      [{ state: 'healed' }],
    ),
  },
  course('c', [{ stage: 'M2' }, { stage: 'M4' }], [{ stage: 'M1' }, { stage: 'M2' }], [{ stage: 'M2' }, { stage: 'M0' }, { stage: 'M1' }], [{ stage: 'M0' }]), // prettier-ignore
  course('foul', [{ state: 'present' }], [{ state: 'present' }, { state: 'healed' }]),
  course('toe', [{ state: 'open' }], [{ state: 'open', signs: ['necrosis'] }], [{ state: 'healed' }]),
  course('thin', [{ state: 'present' }]),
);

const some = <T>(of: readonly T[], maxLength: number) =>
  fc.uniqueArray(fc.constantFrom(...of), { maxLength });
const anyAbout = some([...aboutWords, 'a', 'u'], 3);
const inner = { foot: 'LH', claw: 'inner' } as const;

/** Signs, scores, questions and answers in any order, whatever they come to. */
const anyVisit: fc.Arbitrary<What> = fc
  .record(
    {
      plain: fc.record(
        {
          kind: fc.constantFrom('recheck', 'recheck', 'routine', 'report', 'missed'),
          gait: fc.nat(3),
          'on-block': fc.boolean(),
          signs: some(animalSigns, 2),
          feet: fc.dictionary(
            fc.constantFrom(...feet),
            fc.record(
              { lifted: fc.constantFrom(true, true, false), signs: some(signs, 3), gone: some(signs, 6) },
              { requiredKeys: [] },
            ),
            { maxKeys: 2 },
          ),
          found: fc.record(
            {
              a: fc.record(
                {
                  state: fc.constant('open'),
                  top: fc.integer({ min: 3, max: 40 }),
                  tool: fc.constantFrom('ruler', 'eye'),
                  signs: some(signs, 2),
                  gone: some(signs, 3),
                },
                { requiredKeys: ['state'] },
              ),
              u: fc.record(
                {
                  state: fc.constantFrom('open', 'covered'),
                  width: fc.integer({ min: 4, max: 20 }),
                  tool: fc.constantFrom('ruler', 'eye'),
                },
                { requiredKeys: ['state'] },
              ),
            },
            { requiredKeys: [] },
          ),
          'cut-back': fc.constant<string[]>(['a']),
          trimmed: fc.constant<Foot[]>(['LH', 'RH']),
          blocks: fc.constantFrom('fitted', 'removed', 'lost', 'checked').map((event) => [{ ...inner, event }]), // prettier-ignore
          wraps: fc.constantFrom('fitted', 'removed').map((event) => [{ foot: 'RH', event }]),
          'pain-relief': fc.constantFrom('asked', 'given'),
        },
        { requiredKeys: ['kind'] },
      ),
      recheck: fc.integer({ min: 1, max: 40 }),
      ask: fc.tuple(fc.constantFrom(...farmTasks), fc.nat(40)),
      did: fc.tuple(fc.constantFrom(...farmTasks), fc.nat(3)),
      vet: anyAbout,
      answer: fc.record(
        { about: anyAbout, closes: fc.boolean(), does: fc.tuple(fc.constantFrom(...vetTasks), fc.nat(20)) },
        { requiredKeys: [] },
      ),
    },
    { requiredKeys: ['plain'] },
  )
  .map(({ plain, recheck, ask, did, vet, answer }) => (date, asked) => {
    const { does, ...said } = answer ?? {};
    const his = does ? { does: [{ what: does[0], on: addDays(date, does[1]) }] } : {};
    // What nobody lifted nobody measured.
    const isTold = plain.kind === 'report' || plain.kind === 'missed';
    const nothing = { found: undefined, trimmed: undefined, 'cut-back': undefined };
    return {
      ...({ ...plain, ...(isTold ? nothing : {}) } as Partial<Visit>),
      ...(recheck === undefined ? {} : { recheck: addDays(date, recheck) }),
      ...(ask ? { 'ask-farm': [{ what: ask[0], by: addDays(date, ask[1]) }] } : {}),
      ...(did ? { 'farm-did': [{ what: did[0], on: addDays(date, -did[1]) }] } : {}),
      ...(vet ? { vet: { asked: date, why: 'to look at her', about: vet } } : {}),
      ...(answer && asked
        ? { 'vet-answer': { to: asked, by: 'P. Wexmarrow', reply: 'seen', ...said, ...his } }
        : {}),
    };
  });

const anything: fc.Arbitrary<Story> = fc
  .array(fc.tuple(fc.nat(60), anyVisit), { minLength: 1, maxLength: 4 })
  .map((visits) => ({ visits }));

/** One sign, or some that go together, and what was done about it since. */
const sign: fc.Arbitrary<Story> = fc
  .tuple(
    fc.constantFrom<Partial<Visit>>(
      ...(['bone', 'toe turned up', 'not bearing', 'swollen above foot', 'necrosis'] as const).map((one) => ({ feet: { LH: { lifted: true, signs: [one] } } })), // prettier-ignore
      { feet: { RH: { lifted: true, signs: ['heat', 'swollen coronet'] } } },
      { feet: { LH: { lifted: true, signs: ['pus', 'swollen heel'] } } },
      { feet: { RH: { lifted: true, signs: ['swollen above foot'] } }, wraps: [{ foot: 'RH', event: 'fitted' }] }, // prettier-ignore
      { found: { a: { ...ruler, top: 0, signs: ['pus'] } }, gait: 2, 'on-block': false },
      { found: { a: { ...ruler, top: 14, 'top-found': 'higher', signs: ['pus'] } }, 'cut-back': ['a'] },
      ...animalSigns.map((one) => ({ kind: 'report' as const, signs: [one] })),
    ),
    fc.array(
      fc.oneof(
        anyVisit,
        fc.constantFrom<What>(
          { gait: 0, 'on-block': false, feet: { LH: { lifted: true }, RH: { lifted: true } } },
          { gait: 1, 'on-block': true, feet: { LH: { lifted: true }, RH: { lifted: true } } },
          { feet: { LH: { lifted: true, gone: [...signs] }, RH: { lifted: true, gone: [...signs] } } },
          { found: { a: { ...ruler, top: 16, signs: ['pus'] } } },
          { kind: 'report', note: 'looks fine' },
        ),
      ),
      { maxLength: 2 },
    ),
    fc.integer({ min: 16, max: 40 }),
    fc.nat(14),
  )
  .map(([first, after, from, last]) => ({
    alone: true,
    visits: [
      [after.length === 0 ? last : from, first] as const,
      ...after.map((what, at) => [last + (after.length - 1 - at) * 8, what] as const),
    ].filter(([days], at, all) => at === 0 || days < all[at - 1]![0]),
  }));

const whole: Partial<Visit> = { gait: 0, 'on-block': false, feet: { RF: { lifted: true } } };
const question = (days: number, about: string[]): Partial<Visit> => ({
  kind: 'report',
  vet: { asked: addDays(today, -days), why: 'to look at her', about },
});
const answer = (to: number, closes: boolean): Partial<Visit> => ({
  kind: 'report',
  'vet-answer': { to: addDays(today, -to), by: 'the authority', reply: 'nothing found', closes },
});

/** What stops work on a farm, with the asking as far as it got. */
const stops: fc.Arbitrary<Story> = fc
  .tuple(
    fc.constantFrom<Partial<Visit>>(
      { feet: { RF: { lifted: true, signs: ['blisters'] } } },
      { kind: 'report', feet: { RF: { signs: ['mouth sores'] } } },
      { signs: ['maggots'] },
    ),
    fc.integer({ min: 0, max: 5 }),
  )
  .map(([first, got]) => ({
    alone: true,
    visits: [
      [30, { found: { a: { ...ruler, top: 20 } }, blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }],
      [20, first],
      ...(got < 1 ? [] : [[19, question(19, ['blisters', 'mouth sores', 'maggots'])] as const]),
      ...(got < 2 ? [] : [[12, answer(19, got > 2)] as const]),
      ...(got < 4 ? [] : [[4, whole] as const]),
    ],
  }));

/** How she walked, off the block and on it. */
const walks: fc.Arbitrary<Story> = fc.constantFrom<Story>(
  { visits: [[20, { gait: 1, 'on-block': false }], [3, { gait: 3 }]] },
  { visits: [[30, { gait: 2, 'on-block': false, found: { a: { ...ruler, top: 20 } } }], [10, { gait: 2, 'on-block': false }]] },
  { visits: [[6, { gait: 1, 'on-block': false, trimmed: ['LH'] }], [2, { gait: 2, 'on-block': false, kind: 'report' }]] },
  { visits: [[14, { gait: 3, 'on-block': false }], [2, { gait: 2, 'on-block': false }]] },
  { visits: [[9, { gait: 2, 'on-block': false, feet: { LF: { lifted: true } } }]] },
  { visits: [[21, { gait: 2, 'on-block': false }], [20, { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }], [6, { gait: 1 }]] },
  { visits: [[20, { gait: 2 }], [19, { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }], [6, { gait: 2 }]] },
  { visits: [[20, { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }], [8, { gait: 2, blocks: [{ foot: 'LH', claw: 'inner', event: 'lost', on: 'unknown' }] }]] },
  { visits: [[40, { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }], [21, { blocks: [{ foot: 'LH', claw: 'inner', event: 'removed' }] }]] },
  { visits: [[130, { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }], found: { a: { ...ruler, top: 20 } } }], [5, { gait: 1, 'on-block': true }]] },
).map((story) => ({ ...story, alone: true })); // prettier-ignore

/** What somebody was asked to do. */
const askedFor: fc.Arbitrary<Story> = fc.constantFrom<Story>(
  { visits: [[9, { found: { u: { state: 'open', width: 12, tool: 'ruler', signs: ['exposed corium'] } }, 'ask-farm': [{ what: 'keep out of footbath', by: '2026-06-10' }] }]] },
  { visits: [[6, { 'ask-farm': [{ what: 'short walk', by: '2026-06-12' }, { what: 'wrap off', by: '2026-06-13' }], wraps: [{ foot: 'RH', event: 'fitted' }] }]] },
  { visits: [[6, { wraps: [{ foot: 'RH', event: 'fitted' }], vet: { asked: '2026-06-10', why: 'the wrap' } }], [4, { kind: 'report', 'vet-answer': { to: '2026-06-10', by: 'P. Wexmarrow', reply: 'coming', does: [{ what: 'wrap off', on: '2026-06-17' }, { what: 'score her walk', on: '2026-06-14' }] } }]] },
  { visits: [[3, { gait: 2, 'pain-relief': 'asked' }]] },
  { visits: [[4, { vet: { asked: '2026-06-12', why: 'to look at her' }, found: { a: { ...ruler, top: 20 } } }]] },
  { visits: [[12, { vet: { asked: '2026-06-04', why: 'to look at her' }, found: { a: { ...ruler, top: 20 } } }]] },
  { visits: [[5, { kind: 'report', note: 'lame' }]] },
  { visits: [[2, { products: [{ product: 'x', active: 'ketoprofen', class: 'medicine', 'milk-days': 3, 'meat-days': 9 }] }]], animal: { calvings: ['2026-02-01'] } },
  { visits: [[3, { found: { a: { ...ruler, top: 20, infected: true } } }]] },
  { visits: [[30, { found: { a: { ...ruler, top: 20 }, u: { state: 'open', width: 12 }, c: { stage: 'M2' }, toe: { state: 'open' } }, gait: 2 }]], lesions: ['toe'] },
  ...[today, '2026-06-17', '2026-06-23', '2026-07-21'].map((recheck): Story => ({ visits: [[20, { found: { a: { ...ruler, top: 20 } }, recheck }]] })),
  { visits: [[20, { found: { a: { ...ruler, top: 20, signs: ['pus'] } }, 'cut-back': ['a'] }], [2, { found: { a: { ...ruler, top: 25, signs: ['pus'] } } }]] },
  { visits: [[9, { found: { a: { ...ruler, top: 20 }, thin: { state: 'present' } } }]], lesions: ['thin'] },
  { visits: [[60, { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }]], animal: { episodes: [{ ended: '2026-05-20', result: 'lost to follow-up' }] } },
  { visits: [[60, { gait: 0 }]], animal: { episodes: [{ ended: '2026-05-20', result: 'recovered, not lame' }] } },
  ...(['sound', 'put down'] as const).map((result): Story => ({ visits: [[60, { gait: 0 }]], animal: { episodes: [{ ended: '2026-05-20', result }] } })),
).map((story) => ({ ...story, alone: true })); // prettier-ignore

const anyStory = fc.oneof(
  { weight: 6, arbitrary: measured },
  { weight: 2, arbitrary: anything },
  { weight: 3, arbitrary: sign },
  { weight: 1, arbitrary: stops },
  { weight: 1, arbitrary: walks },
  { weight: 2, arbitrary: askedFor },
);

/** Two animals ill within a fortnight, or a day too far apart, with the asking as far as it got. */
const bothSick: fc.Arbitrary<Story[][]> = fc
  .tuple(fc.constantFrom('slobbering', 'feverish'), fc.integer({ min: 8, max: 24 }), fc.nat(3))
  .map(([seen, days, got]) => [
    [
      {
        alone: true,
        visits: [
          [40, { found: { a: { ...ruler, top: 20 } } }],
          [days, { kind: 'report', signs: [seen] }],
          ...(got < 1 ? [] : [[7, question(7, ['slobbering', 'feverish'])] as const]),
          ...(got < 2 ? [] : [[1, answer(7, got > 2)] as const]),
        ],
      },
    ],
    [
      {
        alone: true,
        visits: [
          [40, { found: { a: { ...ruler, top: 20 } } }],
          [8, { kind: 'report', signs: ['slobbering'] }],
          ...(got < 1 ? [] : [[3, { gait: 0, 'on-block': false }] as const]),
        ],
      },
    ],
  ]);

/** Two suddenly lame that walk well again: no sign is left on either, and nobody has said that work may go on. */
const bothLame: Story[][] = [15, 12].map((ago) => [
  { alone: 'and before', visits: [[40, { gait: 0, 'on-block': false }], [ago, { kind: 'report', gait: 3, 'on-block': false }], [2, { gait: 0, 'on-block': false }]] },
]); // prettier-ignore
const bothIll = fc.oneof({ weight: 3, arbitrary: bothSick }, { weight: 2, arbitrary: fc.constant(bothLame) });

function troubled(animal: Animal, stories: readonly Story[], isOpen: boolean): Animal {
  const drawn = new Map(stories.flatMap(({ visits }) => visits.map(([days, what]) => [days, what] as const)));
  const starts = addDays(today, -Math.max(...drawn.keys()));
  const isAlone = stories.some(({ alone }) => alone);
  const isFirst = stories.some(({ alone }) => alone === 'and before');
  const before = animal.visits.filter(({ date }) => !isFirst && (!isAlone || date < starts));
  let asked: string | undefined;
  const told = [...drawn]
    .toSorted(([a], [b]) => b - a)
    .map(([ago, what]): Visit => {
      const date = addDays(today, -ago);
      const visit = typeof what === 'function' ? what(date, asked) : what;
      asked = visit.vet?.asked ?? asked;
      return { date, by: 'Orla Venn', kind: 'recheck', ...visit };
    });
  const days = new Set(told.map(({ date }) => date));
  const lesions = stories.flatMap((one) => one.lesions ?? []);
  const { episodes, ...hers } = animal;
  return {
    ...hers,
    ...(episodes && !isOpen ? { episodes } : {}),
    ...Object.assign({}, ...stories.map((one) => one.animal ?? {})),
    lesions: { ...animal.lesions, ...Object.fromEntries(lesions.map((name) => [name, more[name]])) },
    visits: [...before.filter(({ date }) => !days.has(date)), ...told].toSorted((a, b) =>
      a.date < b.date ? -1 : a.date > b.date ? 1 : 0,
    ),
  };
}

/** `anyPractice`, its animals in any trouble that a rule knows of, and its farm about to be visited, or not, or here or abroad. */
export const anyTroubledPractice: fc.Arbitrary<Practice> = fc
  .tuple(
    anyPractice({ currency: 'GBP' }),
    fc.oneof(
      {
        weight: 11,
        arbitrary: fc.array(fc.array(anyStory, { minLength: 1, maxLength: 2 }), {
          minLength: 2,
          maxLength: 2,
        }),
      },
      { weight: 2, arbitrary: bothIll },
    ),
    fc.array(fc.constantFrom(true, true, true, false), { minLength: 2, maxLength: 2 }),
    fc.record(
      {
        'next-visit': fc.constantFrom('2026-06-10', today, '2026-06-17', '2026-06-23', '2026-07-21'),
        language: fc.constantFrom('en-GB', 'en-US'),
      },
      { requiredKeys: [] },
    ),
  )
  .map(([practice, stories, open, known]) => {
    const [farm, ...others] = practice.farms;
    const { 'next-visit': _, ...rest } = farm!.farm;
    const cases = farm!.cases.map((one, at) => ({
      ...one,
      animal: troubled(one.animal, stories[at]!, open[at]!),
    }));
    return { ...practice, farms: [{ ...farm!, farm: { ...rest, ...known }, cases }, ...others] };
  });
