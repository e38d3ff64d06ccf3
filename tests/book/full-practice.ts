import { animal, type Animal } from '../../src/record/animal.js';
import { business } from '../../src/record/business.js';
import { farm } from '../../src/record/farm.js';
import type { CaseRecord, FarmRecord, Practice, RecordSource } from '../../src/record/practice.js';

const source = (file: string): RecordSource => ({ file, placeOf: () => ({ line: 1, column: 1 }) });

/** An invented animal with every key of the format filled at least once. */
export const fullAnimal: Animal = animal.parse({
  casefile: 1,
  animal: '0312',
  tag: 'UK 000123 400312',
  electronic: '999000000400312',
  breed: 'Oddering Red',
  born: '2019-05-17',
  calvings: ['2021-08-02', '2022-09-13', '2023-10-24', '2024-11-05'],
  'calved-before': 1,
  'dried-off': ['2024-08-29'],
  'due-to-calve': '2026-12-19',
  handling: 'kicks to the left; wants two people',
  earlier: [{ animal: 'K77', farm: 'harrowmere', until: '2022-02-03' }],
  episodes: [
    {
      'lame-since': '2025-01-04',
      'told-by': 'relief milker',
      ended: '2025-04-06',
      'told-in-writing': '2025-04-07',
      result: 'sound',
      amended: [{ date: '2025-04-09', by: 'Dob Tansworrel', why: 'ended a day later than written' }],
    },
    { 'lame-since': '2026-01-15', 'told-by': 'Nan at the gate' },
  ],
  lesions: {
    a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear', line: 'heel' },
    b: { code: 'HFH', foot: 'RF', claw: 'inner', site: 'dorsal wall', line: 'dorsal', 'again-of': 'd' },
    c: { code: 'DD', foot: 'RH', site: 'skin behind heels' },
    d: { code: 'HFH', foot: 'RF', claw: 'inner', site: 'dorsal wall', line: 'dorsal' },
    e: { code: 'WL', foot: 'LH', claw: 'outer', site: 'abaxial wall', line: 'abaxial' },
    u: {
      code: 'SU',
      foot: 'LF',
      claw: 'inner',
      site: 'sole',
      amended: [{ date: '2026-01-23', by: 'Nan Thistlewrack', why: 'written under the right foot' }],
    },
  },
  marks: {
    m1: {
      foot: 'LH',
      claw: 'inner',
      line: 'dorsal',
      amended: [{ date: '2026-01-24', by: 'Orla Venn', why: 'notch is on the other claw' }],
    },
    m2: { foot: 'RH', claw: 'outer', line: 'dorsal', 'groove-from': '2024-11-05' },
  },
  amended: [{ date: '2026-01-25', by: 'P. Wexmarrow', why: 'tag was read upside down' }],
  visits: [
    {
      date: '2025-01-07',
      by: 'Dob Tansworrel',
      kind: 'first',
      found: { d: { state: 'open', top: 61, wall: 79, tool: 'photo', 'top-found': 'seen' } },
    },
    {
      date: '2025-04-03',
      by: 'Dob Tansworrel',
      kind: 'recheck',
      gait: 0,
      found: { d: { state: 'healed' } },
    },
    {
      date: '2026-01-20',
      at: '10:40',
      by: 'Orla Venn',
      kind: 'first',
      gait: 2,
      'gait-by': 'Sib Marrable',
      'on-block': false,
      condition: 2.75,
      weight: 655,
      signs: ['off feed', 'feverish'],
      feet: {
        LH: { lifted: true, signs: ['heat', 'swollen heel'], note: 'warm to the hand above the heel' },
        LF: { lifted: false },
        RH: { lifted: true, gone: ['smell', 'not bearing'] },
      },
      found: {
        a: {
          state: 'open',
          top: 17,
          'top-found': 'seen',
          wall: 43,
          'wall-at': 'beside',
          'wall-tool': 'calliper',
          tool: 'tape',
          width: 9,
          depth: 6,
          signs: ['undermined', 'loose horn'],
          gone: ['pus', 'bleeding'],
          note: 'black tract running forward',
        },
        b: { state: 'open', top: 31, wall: 78, tool: 'ruler', 'wall-lowered': true, 'top-found': 'felt' },
        c: { stage: 'M2', length: 22, width: 18, tool: 'ruler' },
        e: { state: 'open', top: 24, wall: 58, tool: 'eye', 'top-found': 'higher' },
        u: { state: 'open', length: 16, width: 11, depth: 3, tool: 'ruler', signs: ['proud flesh'] },
        m1: { distance: 13.5, tool: 'calliper' },
        m2: { distance: 71, tool: 'ruler' },
      },
      trimmed: ['LH', 'RF'],
      'cut-back': ['a'],
      blocks: [
        {
          foot: 'LH',
          claw: 'inner',
          event: 'fitted',
          material: 'plastic',
          on: '2026-01-20',
          note: 'set back a little',
        },
      ],
      wraps: [{ foot: 'RH', event: 'fitted', on: '2026-01-20', note: 'light, over the heel' }],
      products: [
        {
          product: 'as on the label of the farm’s own tin',
          active: 'salicylic acid',
          class: 'medicine',
          batch: 'K118',
          amount: '2 g',
          route: 'topical',
          lesion: 'c',
          on: '2026-01-20',
          until: '2026-01-21',
          'milk-days': 2,
          'meat-days': 5,
          'given-by': 'Nan Thistlewrack',
          'prescribed-by': 'P. Wexmarrow',
          cost: 3.2,
          note: 'kept in the office',
        },
        { product: 'foot spray from the shelf', class: 'not sure', 'milk-hours': 36 },
        { product: 'hoof gel', class: 'not a medicine', 'milk-milkings': 3, 'milk-days-after-calving': 17 },
      ],
      'pain-relief': 'asked',
      photos: [
        {
          file: 'photos/0312-lh-sole.jpg',
          foot: 'LH',
          claw: 'outer',
          view: 'sole',
          when: 'after',
          caption: 'tract opened',
        },
      ],
      vet: { asked: '2026-01-20', why: 'heat above the heel', about: ['LH', 'a', 'swollen heel', 'lame'] },
      'ask-farm': [
        { what: 'block watch', by: '2026-01-27' },
        { what: 'score her walk', by: '2026-02-03' },
      ],
      'tools-disinfected': true,
      'saw-expected': false,
      recheck: '2026-02-17',
      note: 'Lifted second.\nQuiet in the crush.',
      amended: [{ date: '2026-01-22', by: 'Orla Venn', why: 'width was written under length' }],
    },
    {
      date: '2026-01-27',
      by: 'Nan Thistlewrack',
      kind: 'report',
      'vet-answer': {
        to: '2026-01-20',
        by: 'P. Wexmarrow',
        reply: 'seen on 21 January, nothing opened',
        about: ['LH', 'm1', 'off feed'],
        closes: true,
        treated: false,
        does: [{ what: 'block off', on: '2026-01-29' }],
      },
      'farm-did': [{ what: 'block watch', on: '2026-01-26' }],
      blocks: [{ foot: 'LH', claw: 'inner', event: 'lost', on: 'unknown' }],
    },
    { date: '2026-02-17', by: 'Orla Venn', kind: 'missed', why: 'still in the far field' },
    {
      date: '2026-03-03',
      by: 'Orla Venn',
      kind: 'recheck',
      gait: 1,
      'on-block': true,
      found: {
        a: { code: 'WLA', state: 'open', top: 14, wall: 43, tool: 'tape', infected: true, 'ran-up': true },
        b: { state: 'open', top: 30, tool: 'ruler', 'opened-further': true },
        c: { stage: 'M4.1' },
        e: { state: 'open', joined: 'a' },
        u: { lifted: false },
        m1: { distance: 20.5, tool: 'calliper' },
      },
      blocks: [
        { foot: 'LH', claw: 'inner', event: 'fitted', material: 'wood' },
        { foot: 'RF', claw: 'outer', event: 'removed', 'carrying-claw': 'bruised' },
      ],
    },
  ],
});

const fullCase: CaseRecord = {
  slug: '0312',
  animal: fullAnimal,
  narrative: '## What Nan says\n\nShe stands **square** on the mat.\n',
  source: source('cases/quernholt/0312.md'),
};

export const fullFarm: FarmRecord = {
  slug: 'quernholt',
  farm: farm.parse({
    farm: 'Quernholt',
    holding: '00/000/0123',
    address: 'Quernholt, Nether Oddering',
    contact: { name: 'Nan Thistlewrack', email: 'nan@quernholt.example', phone: '01632 960123' },
    vet: {
      practice: 'Ossgrain Veterinary Practice',
      name: 'P. Wexmarrow',
      phone: '01632 960177',
      email: 'desk@ossgrain.example',
    },
    herd: [
      { from: '2024-04-01', cows: 196, housing: 'grazed' },
      { from: '2024-11-01', cows: 204, housing: 'mixed' },
    ],
    hemisphere: 'north',
    'gait-scale': [{ scale: 'nz-0-3' }, { from: '2025-06-01', scale: 'uk-0-3' }],
    'condition-scale': 'uk-1-5',
    'milkings-a-day': 2,
    'milk-litres': 29.5,
    paper: 'A4',
    language: 'en-GB',
    send: 'both',
    'next-visit': '2026-03-31',
    'every-weeks': 4,
    'staff-languages': ['es', 'pl', 'ro'],
    health: ['ringworm in the heifers'],
    intervals: { 'gait-rescore': 15, 'block-off': 29 },
    footbath: [
      {
        from: '2025-10-01',
        to: '2026-03-30',
        product: 'copper sulphate, own mix',
        form: 'pentahydrate',
        strength: 4.5,
        litres: 221,
        'cows-per-fill': 198,
        'times-a-week': 3,
        amended: [{ date: '2026-03-01', by: 'Nan Thistlewrack', why: 'litres were of the old bath' }],
      },
    ],
    'slurry-hectares': 118,
    'gait-rounds': [
      {
        date: '2026-01-21',
        by: 'Dob Tansworrel',
        scored: 201,
        counts: { 0: 117, 1: 55, 2: 25, 3: 4 },
        amended: [{ date: '2026-01-28', by: 'Dob Tansworrel', why: 'one cow was counted twice' }],
      },
    ],
    plan: {
      date: '2025-11-12',
      with: 'P. Wexmarrow',
      file: 'foot-health-plan-2025.pdf',
      amended: [{ date: '2025-11-15', by: 'P. Wexmarrow', why: 'dated by the draft' }],
    },
    amended: [{ date: '2025-12-02', by: 'Orla Venn', why: 'condition scale was left at another' }],
  }),
  narrative: 'Cubicles on mats.\n',
  source: source('cases/quernholt/farm.md'),
  cases: [fullCase],
};

export const fullPractice: Practice = {
  business: business.parse({
    business: 'Quillfen Foot Trimming',
    trimmer: 'Marra Quillfen',
    people: [{ name: 'Orla Venn', training: 'certificate of 2021', 'valid-to': '2028-03-31' }],
    email: 'office@quillfen.example',
    phone: '01632 960140',
    address: 'The Old Smithy, Nether Oddering',
    'reply-to': 'answers@quillfen.example',
    language: 'en-GB',
    intervals: { 'wrap-off': 4 },
    'keep-years': 6,
    dates: 'day-first',
    prices: { currency: 'GBP', visit: 45, block: 14.5, wrap: 4, 'milk-litre': 0.38 },
  }),
  narrative: 'An invented business.\n',
  farms: [fullFarm],
};

/** A farm with the same details and other cases. */
export function farmWith(cases: readonly CaseRecord[]): FarmRecord {
  return { ...fullFarm, cases };
}

export function caseOf(slug: string, record: unknown, narrative = ''): CaseRecord {
  return { slug, animal: animal.parse(record), narrative, source: source(`cases/quernholt/${slug}.md`) };
}
