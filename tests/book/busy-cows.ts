import * as fc from 'fast-check';
import { addDays } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import type { Farm } from '../../src/record/farm.js';
import type { CaseRecord, FarmRecord, Practice } from '../../src/record/practice.js';
import type { Found, Visit } from '../../src/record/visit.js';
import {
  blockMaterials,
  farmTasks,
  painReliefWords,
  productClasses,
  tools,
  topFoundWords,
} from '../../src/record/words.js';

export const today = '2026-06-16';

/** Gaps on two lines of one claw and on another foot, an ulcer on a foot of its own, skin of a third. */
const lesions = {
  a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear', line: 'heel' },
  e: { code: 'WL', foot: 'LH', claw: 'outer', site: 'abaxial wall', line: 'abaxial' },
  b: { code: 'HFH', foot: 'RF', claw: 'inner', site: 'dorsal wall', line: 'dorsal' },
  u: { code: 'SU', foot: 'LF', claw: 'outer', site: 'sole' },
  c: { code: 'DD', foot: 'RH', site: 'skin behind heels' },
  foul: { code: 'IP', foot: 'RF' },
} satisfies Animal['lesions'];
type Name = keyof typeof lesions;

const people = fc.constantFrom('Orla Venn', 'Marra Quillfen', 'Nan Thistlewrack, who milks at weekends');
const phrases = [
  'Dry above it.',
  'Grit packed up under the wall again; taken off until it held tight all round.',
  'kicks left',
  'née Quill',
  'Stood on the mat as if nothing were wrong, then dipped on the way back to the straw.',
  'a <b> & "c"',
  'heat: above the heel',
  'no smell',
  'ungewöhnlichlangeswortohnetrennstelleundohneleerzeichen',
  'WWW MMM 0000000',
];
const short = fc.constantFrom(...phrases);
const text = fc.oneof(
  { weight: 3, arbitrary: short },
  fc.array(short, { minLength: 2, maxLength: 9 }).map((some) => some.join(' ')),
);
const some = <T>(of: readonly T[], maxLength: number) =>
  fc.uniqueArray(fc.constantFrom(...of), { minLength: 1, maxLength });
const half = (max: number) => fc.integer({ min: 4, max: max * 2 }).map((halves) => halves / 2);

/** What a trimmer sees on most days; what stops work, and what is the vet's that day, are drawn apart. */
const signs = ['loose horn', 'undermined', 'white line stretched', 'soft horn', 'crumbly horn', 'smell', 'heat', 'exposed corium'] as const; // prettier-ignore
const more = {
  signs: some(signs, 4),
  gone: some(signs, 2),
  note: text,
  depth: fc.integer({ min: 1, max: 9 }),
};
const measured = { tool: fc.constantFrom(...tools), ...more };
const gap = fc.record(
  {
    state: fc.constantFrom('open' as const, 'open' as const, 'covered' as const),
    top: half(40),
    'top-found': fc.constantFrom(...topFoundWords),
    wall: fc.constantFrom(43, 58.5),
    'wall-at': fc.constant('beside' as const),
    'wall-lowered': fc.boolean(),
    'wall-tool': fc.constantFrom(...tools),
    width: half(20),
    'ran-up': fc.constant(true),
    'opened-further': fc.constant(true),
    infected: fc.constant(true),
    ...measured,
  },
  { requiredKeys: ['state'] },
);
/** What may be found of each; where there is no entry she was not lifted there. */
const anyFound: Record<Name, fc.Arbitrary<Found>> = {
  a: gap,
  e: gap,
  b: gap,
  u: fc.record(
    { state: fc.constantFrom('open' as const, 'covered' as const), length: fc.constant(21), width: half(20), ...measured },
    { requiredKeys: ['state'] },
  ),
  c: fc.record(
    { stage: fc.constantFrom('M1' as const, 'M2' as const, 'M3' as const, 'M4' as const, 'M4.1' as const), length: fc.constant(22), width: half(20), tool: measured.tool, note: text }, // prettier-ignore
    { requiredKeys: ['stage'] },
  ),
  foul: fc.record(
    { state: fc.constantFrom('present' as const, 'healed' as const), signs: more.signs, note: text },
    { requiredKeys: ['state'] },
  ),
}; // prettier-ignore

const foot = fc.constantFrom('LH' as const, 'RH' as const, 'LF' as const, 'RF' as const);
const days = (date: string, max: number) => fc.nat(max).map((count) => addDays(date, count));
const isPast = (day: string) => (day > today ? today : day);

/** Any key of a visit to a cow with these lesions; `much`: most of them at once. */
function anyVisit(date: string, names: readonly Name[], asked: string | undefined): fc.Arbitrary<Visit> {
  const product = fc.record(
    {
      product: fc.constantFrom('as on the label of the farm’s own tin', 'hoof gel', 'as on the label'),
      active: fc.constantFrom('tar', 'salicylic acid', 'ketoprofen'),
      class: fc.constantFrom(...productClasses),
      batch: fc.constantFrom('K118', '12E5'),
      amount: fc.constantFrom('2 g', 'as the vet wrote'),
      route: fc.constantFrom('topical', 'intramuscular'),
      lesion: fc.constantFrom(...names),
      on: fc.constant(date),
      until: fc.constant(isPast(addDays(date, 2))),
      'milk-days': fc.nat(8),
      'milk-days-after-calving': fc.nat(5),
      'meat-days': fc.nat(40),
      'given-by': people,
      'prescribed-by': people,
      cost: fc.nat(9999).map((cents) => cents / 100),
      note: text,
    },
    { requiredKeys: ['product'] },
  );
  const told = {
    date: fc.constant(date),
    by: people,
    gait: fc.nat(3),
    'gait-by': people,
    'on-block': fc.boolean(),
    signs: fc.constantFrom([], ['off feed' as const]),
    products: fc.array(product, { maxLength: 2 }),
    'farm-did': fc.array(fc.record({ what: fc.constantFrom(...farmTasks), on: fc.constant(date) }), { minLength: 1, maxLength: 2 }), // prettier-ignore
    ...(asked
      ? {
          'vet-answer': fc.record(
            { to: fc.constant(asked), by: fc.constant('P. Wexmarrow'), reply: text, closes: fc.boolean(), treated: fc.boolean(), does: fc.constant([{ what: 'block off' as const, on: isPast(addDays(date, 1)) }]) }, // prettier-ignore
            { requiredKeys: ['to', 'by', 'reply'] },
          ),
        }
      : {}),
    amended: fc.constant([{ date: isPast(addDays(date, 3)), by: 'Orla Venn', why: 'width was under length' }]), // prettier-ignore
    note: text,
  };
  const lifted = {
    ...told,
    kind: fc.constantFrom('first' as const, 'recheck' as const, 'routine' as const),
    at: fc.constantFrom('10:40', '09:05'),
    condition: fc.constantFrom(2.75, 3),
    weight: fc.constantFrom(655, 702.5),
    feet: fc.record(
      { LH: fc.record({ lifted: fc.constant(true), signs: more.signs, note: text }, { requiredKeys: ['lifted'] }), RF: fc.record({ lifted: fc.constant(false) }), RH: fc.record({ lifted: fc.constant(true), gone: more.gone }) }, // prettier-ignore
      { requiredKeys: [] },
    ),
    found: fc.record(Object.fromEntries(names.map((name) => [name, anyFound[name]])), { requiredKeys: [] }),
    trimmed: some(['LH', 'RH', 'LF', 'RF'] as const, 4),
    'cut-back': some(names, 2),
    blocks: fc.array(
      fc.record(
        { foot: fc.constant('LH' as const), claw: fc.constant('inner' as const), event: fc.constantFrom('fitted' as const, 'checked' as const, 'worn' as const, 'replaced' as const, 'lost' as const, 'removed' as const), material: fc.constantFrom(...blockMaterials), on: fc.constantFrom(date, 'unknown'), note: text }, // prettier-ignore
        { requiredKeys: ['foot', 'claw', 'event'] },
      ),
      { minLength: 1, maxLength: 2 },
    ),
    wraps: fc.array(
      fc.record({ foot, event: fc.constantFrom('fitted' as const, 'removed' as const), on: fc.constant(date), note: text }, { requiredKeys: ['foot', 'event'] }), // prettier-ignore
      { minLength: 1, maxLength: 1 },
    ),
    'pain-relief': fc.constantFrom(...painReliefWords),
    photos: fc.constant([{ file: `photos/${date}.jpg`, foot: 'LH' as const, claw: 'outer' as const, view: 'sole' as const, when: 'after' as const, caption: 'tract opened' }]), // prettier-ignore
    vet: fc.record({ asked: fc.constant(date), why: text, about: fc.constant([names[0]!]) }, { requiredKeys: ['asked', 'why'] }), // prettier-ignore
    'ask-farm': fc.array(fc.record({ what: fc.constantFrom(...farmTasks), by: days(date, 20) }), { minLength: 1, maxLength: 3 }), // prettier-ignore
    'tools-disinfected': fc.boolean(),
    'saw-expected': fc.boolean(),
    recheck: days(addDays(date, 7), 40),
  };
  const required = { requiredKeys: ['date', 'by', 'kind'] as ('date' | 'by' | 'kind')[] };
  const work = fc.record(lifted, required);
  return fc.oneof(
    { weight: 4, arbitrary: work },
    // As a trimmer writes on most days: what was measured, what was done, a few words.
    {
      weight: 6,
      arbitrary: fc.record({ ...pick(lifted, ['date', 'by', 'kind', 'gait', 'found', 'trimmed', 'recheck']), note: short }), // prettier-ignore
    },
    { weight: 2, arbitrary: fc.record({ ...told, kind: fc.constant('report' as const) }, required) }, // prettier-ignore
    { weight: 1, arbitrary: fc.record({ date: told.date, by: told.by, kind: fc.constant('missed' as const), why: text }) }, // prettier-ignore
  ) as fc.Arbitrary<Visit>;
}

function pick<T extends object>(from: T, keys: readonly (keyof T)[]): Record<string, fc.Arbitrary<unknown>> {
  return Object.fromEntries(keys.map((key) => [key, from[key]])) as Record<string, fc.Arbitrary<unknown>>;
}

const paragraph = fc.array(short, { minLength: 3, maxLength: 14 }).map((said) => said.join(' '));
const story = fc.oneof(
  fc.constant(''),
  paragraph,
  fc
    .array(fc.oneof(paragraph, paragraph.map((said) => `## Heading\n\n- ${said}\n- ${said}`)), { minLength: 2, maxLength: 6 }) // prettier-ignore
    .map((all) => `${all.join('\n\n')}\n`),
); // prettier-ignore

/** Left under withdrawal, or with it not known. */
const leaving: Partial<Visit> = {
  kind: 'report',
  products: [{ product: 'as on the label', active: 'ketoprofen', class: 'medicine', 'meat-days': 28 }],
};

const ways = ['plain', 'plain', 'plain', 'left', 'stopped', 'sound'] as const;

/** A cow with up to 30 visits, up to 4 lesions, a story of any length, and sometimes what stops work or that she left under withdrawal. */
const anyBusyCow: fc.Arbitrary<Pick<CaseRecord, 'animal' | 'narrative'> & { readonly way: (typeof ways)[number] }> = fc
  .record({
    names: fc.uniqueArray(fc.constantFrom(...(Object.keys(lesions) as Name[])), { minLength: 1, maxLength: 4 }),
    count: fc.oneof(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 5, max: 14 }), fc.integer({ min: 14, max: 30 })),
    apart: fc.integer({ min: 3, max: 28 }),
    ends: fc.nat(20),
    way: fc.constantFrom(...ways),
    handling: fc.option(short, { nil: undefined }),
    narrative: story,
  })
  .chain(({ names, count, apart, ends, way, handling, narrative }) => {
    const on = Array.from({ length: count }, (_, at) => addDays(today, -ends - (count - 1 - at) * apart));
    return fc.tuple(...on.map((day, at) => anyVisit(day, names, at > 0 ? on[at - 1] : undefined))).map((drawn) => {
      const visits = answered(drawn);
      const last = visits.at(-1)!;
      return {
        way,
        narrative,
        animal: {
          casefile: 1,
          animal: '',
          breed: 'Oddering Red',
          calvings: ['2022-09-13', '2023-10-24', '2024-11-05'],
          ...(handling === undefined ? {} : { handling }),
          ...(way === 'left' || way === 'sound'
            ? { episodes: [{ 'lame-since': visits[0]!.date, ended: today, result: way === 'left' ? 'culled' : 'sound' }] } // prettier-ignore
            : {}),
          lesions: Object.fromEntries(names.map((name) => [name, lesions[name]])),
          visits: [
            ...visits.slice(0, -1),
            { ...last, ...(way === 'left' ? { ...leaving, found: undefined, trimmed: undefined } : {}), ...(way === 'stopped' ? { feet: { RF: { lifted: true, signs: ['blisters'] } } } : {}) }, // prettier-ignore
          ].map((visit) => JSON.parse(JSON.stringify(visit)) as Visit),
        },
      };
    });
  }); // prettier-ignore

/**
 * As farms are: what was asked before the last visits has been answered and reported at the next, what was asked at them
 * may still be open.
 */
function answered(visits: readonly Visit[]): Visit[] {
  return visits.map(({ 'vet-answer': answer, 'farm-did': did, ...visit }, at) => {
    const { vet, 'ask-farm': asked } = visits[at - 1] ?? {};
    const isOld = at < visits.length - 2;
    const reply = answer ?? { to: '', by: 'P. Wexmarrow', reply: 'seen, nothing opened' };
    return {
      ...visit,
      ...(vet && (isOld || answer) ? { 'vet-answer': { ...reply, to: vet.asked, closes: isOld } } : {}),
      ...(asked && (isOld || did) ? { 'farm-did': asked.map(({ what }) => ({ what, on: visit.date })) } : {}),
    };
  });
}

/** A farm of such cows; work has stopped on one in a few. */
export const anyBusyFarm = (paper: Farm['paper'], most: number): fc.Arbitrary<FarmRecord> =>
  fc
    .record({
      cows: fc.array(anyBusyCow, { minLength: most, maxLength: most }),
      visit: fc.constantFrom('2026-06-23', '2026-07-21', undefined),
      language: fc.constantFrom('en-GB' as const, 'en-US' as const),
      isStopped: fc.constantFrom(false, false, true),
    })
    .map(({ cows, visit, language, isStopped }) => ({
      slug: 'quernholt',
      narrative: '',
      source,
      farm: {
        farm: 'Quernholt',
        'gait-scale': 'uk-0-3',
        'condition-scale': 'uk-1-5',
        'milkings-a-day': 2,
        vet: { practice: 'Ossgrain Veterinary Practice', name: 'P. Wexmarrow', phone: '01632 960177' },
        language,
        ...(paper ? { paper } : {}),
        ...(visit ? { 'next-visit': visit } : {}),
      },
      cases: cows
        .filter(({ way }) => isStopped || way !== 'stopped')
        .map(({ animal, narrative }, at) => ({
          slug: String(2001 + at),
          narrative,
          source,
          animal: { ...animal, animal: String(2001 + at) },
        })),
    }));

const source = { file: 'cases/quernholt/2001.md', placeOf: () => ({ line: 1, column: 1 }) };

export function practiceWith(farm: FarmRecord): Practice {
  return {
    business: { business: 'Quillfen Foot Trimming', trimmer: 'Marra Quillfen', phone: '01632 960140' },
    narrative: '',
    farms: [farm],
  };
}
