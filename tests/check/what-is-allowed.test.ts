import { describe, expect, it } from 'vitest';
import { findingsOf } from './findings-of.js';

const wall = '{ code: WL, foot: LH, claw: outer, site: white line rear, line: heel }';
const ulcer = '{ code: SU, foot: LH, claw: outer, site: sole-heel junction }';
const skin = '{ code: DD, foot: RH, site: skin behind heels }';

/** Two visits in 2026 with more keys each. */
const visits = (lesion: string, first: string, second: string) =>
  findingsOf(`
lesions: { a: ${lesion} }
visits:
  - { date: 2026-01-06, by: Orla Venn, kind: first, ${first} }
  - { date: 2026-02-03, by: Orla Venn, ${second} }`);

const onDay = (today: string) =>
  findingsOf(`visits: [{ date: 2026-02-03, by: Orla Venn, kind: routine }]`, { today });

const onOneDay = (second: string) =>
  findingsOf(`
visits:
  - { date: 2026-02-03, by: Orla Venn, kind: routine }
  - { date: 2026-02-03, ${second} }`);

const course = (lesion: string, first: string, second: string) =>
  visits(lesion, `found: { a: ${first} }`, `kind: recheck, found: { a: ${second} }`);

const secondVisit = (keys: string) => visits(wall, 'found: { a: { state: open } }', keys);

const endedSound = (lesion: string, found: string) =>
  findingsOf(`
episodes: [{ lame-since: 2025-12-28, ended: 2026-01-06, result: sound }]
lesions: { a: ${lesion} }
visits:
  - { date: 2026-01-06, by: Orla Venn, kind: first, found: { a: ${found} } }
  - { date: 2026-06-02, by: Orla Venn, kind: routine, found: { a: ${lesion === skin ? '{ stage: M2 }' : '{ state: open }'} } }`);

const blockEvents = (...each: string[]) =>
  findingsOf(`
visits:
${each.map((event, i) => `  - { date: 2026-0${i + 1}-06, by: Orla Venn, kind: recheck, blocks: [{ foot: LH, claw: inner, event: ${event} }] }`).join('\n')}`);

it('says nothing of a record in order', () => {
  expect(
    findingsOf(`
tag: UK 000123 402086
electronic: "999000000402086"
born: 2020-08-21
calvings: [2022-09-02, 2023-09-30, 2024-10-19, 2025-11-04]
dried-off: [2025-09-01]
due-to-calve: 2026-12-01
episodes:
  - { lame-since: 2025-03-01, ended: 2025-06-01, result: sound }
  - { lame-since: 2025-12-28, told-by: milker }
lesions:
  a: ${wall}
  b: { code: HFH, foot: RF, claw: outer, site: dorsal wall, line: dorsal }
  c: ${skin}
marks:
  m1: { foot: LH, claw: inner, line: dorsal, groove-from: 2025-11-04 }
visits:
  - date: 2026-01-06
    at: "10:40"
    by: Orla Venn
    kind: first
    gait: 2
    condition: 2.75
    feet: { LH: { lifted: true, signs: [heat] }, RH: { lifted: true } }
    found:
      a: { state: open, top: 17, top-found: seen, wall: 43, tool: tape, width: 9, signs: [undermined] }
      b: { state: open, top: 30, top-found: higher, wall: 77, wall-at: beside, tool: calliper, infected: true }
      c: { stage: M2, length: 22, width: 18, tool: ruler }
      m1: { distance: 12, tool: calliper }
    trimmed: [LH, RF]
    cut-back: [a]
    blocks: [{ foot: LH, claw: inner, event: fitted, material: plastic }]
    wraps: [{ foot: RH, event: fitted }]
    products: [{ product: "as on the label", class: medicine, lesion: c, on: 2026-01-06, until: 2026-01-08, milk-hours: 36, meat-days: 0, prescribed-by: R. Amble }]
    photos: [{ file: photos/2086-lh.jpg, foot: LH, view: sole, when: after }]
    vet: { asked: 2026-01-06, why: heat above the foot }
    ask-farm: [{ what: wrap off, by: 2026-01-09 }]
    recheck: 2026-02-03
  - date: 2026-01-06
    at: "17:05"
    by: Petra Slade
    kind: report
    vet-answer: { to: 2026-01-06, by: R. Amble, reply: seen }
  - date: 2026-01-09
    by: Petra Slade
    kind: report
    gait: 1
    on-block: true
    found: { a: { signs: [heat] } }
    wraps: [{ foot: RH, event: removed, on: 2026-01-08 }]
    farm-did: [{ what: wrap off, on: 2026-01-08 }]
  - { date: 2026-01-20, by: Orla Venn, kind: missed, why: not in the pen }
  - date: 2026-02-03
    by: Orla Venn
    kind: recheck
    found:
      a: { state: open, top: 11, top-found: seen, wall: 43, tool: tape, ran-up: true, code: WLA }
      b: { lifted: false }
      c: { stage: M4, state: covered }
    feet: { RF: { lifted: false } }
    blocks: [{ foot: LH, claw: inner, event: removed, carrying-claw: bruised }]
    amended: [{ date: 2026-02-05, by: Orla Venn, why: tool corrected }]
`),
  ).toEqual([]);
});

describe('products', () => {
  const used = (more: string, wraps = 'wraps: [{ foot: RH, event: fitted }]') =>
    visits(
      skin,
      'found: { a: { stage: M2 } }',
      `kind: recheck, found: { a: { stage: M2 } }, ${wraps}, products: [{ product: gel, lesion: a, ${more} }]`,
    );

  it('ask for the vet’s days only of a medicine with 0 days, under a wrap, that nobody prescribed', () => {
    expect(used('class: medicine, meat-days: 0')).toEqual(['warning zero-days-under-wrap']);
    expect(used('class: not sure, milk-hours: 0')).toEqual(['warning zero-days-under-wrap']);
    expect(used('class: medicine, meat-days: 0, prescribed-by: R. Amble')).toEqual([]);
    expect(used('class: medicine, milk-days: 2, meat-days: 3')).toEqual([]);
    expect(used('class: not a medicine, meat-days: 0')).toEqual([]);
    expect(used('class: medicine, meat-days: 0', 'wraps: [{ foot: LH, event: fitted }]')).toEqual([]);
    expect(used('class: medicine, meat-days: 0', 'trimmed: [RH]')).toEqual([]);
  });

  it('are called no medicine only where their substance is none', () => {
    expect(used('class: not a medicine, active: tylosin tartrate')).toEqual(['warning medicine-called-none']);
    expect(used('class: not a medicine, active: Sulphadiazine')).toEqual(['warning medicine-called-none']);
    expect(used('class: not a medicine, active: tar')).toEqual([]);
    expect(used('class: medicine, active: tylosin tartrate, meat-days: 3')).toEqual([]);
  });
});

describe('days', () => {
  it('may lie ahead for a recheck, a calving due, a task and the end of a course', () => {
    expect(
      visits(
        wall,
        'found: { a: { state: open } }',
        `kind: recheck, found: { a: { state: open } }, recheck: 2026-06-01, ask-farm: [{ what: short walk, by: 2027-01-10 }],
         products: [{ product: as on the label, until: 2027-01-01 }]`,
      ),
    ).toEqual([]);
  });

  it('count today as a day that has come', () => {
    expect(onDay('2026-02-03')).toEqual([]);
    expect(onDay('2026-02-02')).toEqual(['error visit-after-today']);
  });

  it('may hold two people, and any number of reports', () => {
    expect(onOneDay('by: Petra Slade, kind: routine')).toEqual([]);
    expect(onOneDay('by: Orla Venn, kind: report')).toEqual([]);
    expect(onOneDay('by: orla venn, kind: routine')).toEqual(['error visited-twice']);
  });
});

describe('a lesion', () => {
  it('may open again when it was only covered, and dermatitis may return', () => {
    expect(course(ulcer, '{ state: covered }', '{ state: open }')).toEqual([]);
    expect(course(wall, '{ state: covered }', '{ state: open }')).toEqual([]);
    expect(course(skin, '{ stage: M0 }', '{ stage: M2 }')).toEqual([]);
    expect(course(skin, '{ state: healed }', '{ state: open }')).toEqual([]);
  });

  it('is judged by its name of the day', () => {
    expect(course(wall, '{ state: open, top: 12 }', '{ state: open, code: WLA, top: 14 }')).toEqual([]);
    expect(course(skin, '{ stage: M2 }', '{ stage: M2, code: ID }')).toEqual([
      'error stage-not-for-code',
      'error code-of-another-family',
    ]);
  });

  it('needs no state where it, its foot or no foot at all was lifted, or where it is joined', () => {
    expect(secondVisit('kind: recheck, found: { a: { lifted: false } }')).toEqual([]);
    expect(
      secondVisit('kind: recheck, feet: { LH: { lifted: false } }, found: { a: { signs: [heat] } }'),
    ).toEqual([]);
    expect(
      secondVisit('kind: recheck, feet: { RH: { lifted: false } }, found: { a: { signs: [heat] } }'),
    ).toEqual(['error state-missing']);
    expect(secondVisit('kind: report, found: { a: { signs: [heat] } }')).toEqual([]);
  });

  it('wants claw and line only once it has a top', () => {
    const bare = '{ code: WL, foot: LH }';
    expect(course(bare, '{ state: open }', '{ state: covered }')).toEqual([]);
    expect(course(bare, '{ state: open }', '{ state: open, top: 12 }')).toEqual([
      'error claw-missing',
      'error line-missing',
    ]);
  });
});

describe('an episode that ended sound', () => {
  it('leaves nothing open, infected or active, and what is found later does not count', () => {
    expect(endedSound(wall, '{ state: covered }')).toEqual([]);
    expect(endedSound(skin, '{ stage: M4 }')).toEqual([]);
    expect(endedSound(wall, '{ state: lasting }')).toEqual([]);
    expect(endedSound(wall, '{ state: open }')).toEqual(['error sound-with-open-lesion']);
    expect(endedSound(wall, '{ state: covered, infected: true }')).toEqual(['error sound-with-open-lesion']);
    expect(endedSound(skin, '{ stage: M4.1 }')).toEqual(['error sound-with-open-lesion']);
  });
});

describe('a sign', () => {
  const onSecond = (keys: string) => secondVisit(`found: { a: { state: open } }, ${keys}`);

  it('is gone at any lift of its foot, whether `lifted` is written or not', () => {
    expect(onSecond('kind: recheck, feet: { LH: { gone: [heat] } }')).toEqual([]);
    expect(onSecond('kind: recheck, feet: { LH: { lifted: true, signs: [pus], gone: [heat] } }')).toEqual([]);
    expect(secondVisit('kind: recheck, found: { a: { state: open, signs: [pus], gone: [smell] } }')).toEqual(
      [],
    );
    expect(secondVisit('kind: report, feet: { LH: { gone: [] } }, found: { a: { gone: [] } }')).toEqual([]);
  });

  it('of the foot may be seen while the lesion’s own is gone', () => {
    expect(
      secondVisit(
        'kind: recheck, feet: { LH: { signs: [pus] } }, found: { a: { state: open, gone: [pus] } }',
      ),
    ).toEqual([]);
  });

  it('is not gone without a hand on that foot, nor where it is seen', () => {
    expect(secondVisit('kind: report, found: { a: { gone: [heat] } }')).toEqual([
      'error gone-without-lifting',
    ]);
    expect(secondVisit('kind: missed, why: x, feet: { LH: { gone: [heat] } }')).toEqual([
      'error gone-without-lifting',
    ]);
    expect(
      secondVisit('kind: recheck, feet: { LH: { lifted: false } }, found: { a: { gone: [heat] } }'),
    ).toEqual(['error gone-without-lifting']);
    expect(onSecond('kind: recheck, feet: { LH: { signs: [heat], gone: [heat] } }')).toEqual([
      'error seen-and-gone',
    ]);
  });

  it('of the animal may be reported by anybody', () => {
    expect(secondVisit('kind: report, signs: [down, off feed]')).toEqual([]);
  });
});

describe('what the vet is asked about', () => {
  const asked = (about: string) =>
    secondVisit(`kind: report, vet: { asked: 2026-02-03, why: worse, about: ${about} }`);

  it('is a foot, a lesion, a mark, a sign of either kind or how she walks', () => {
    expect(asked('[LH, a, pus, off feed, lame]')).toEqual([]);
    expect(asked('[]')).toEqual([]);
  });

  it('is nothing else', () => {
    expect(asked('[lh]')).toEqual(['error about-unknown']);
    expect(asked('[b, money]')).toEqual(['error about-unknown', 'error about-unknown']);
    expect(
      findingsOf(`
marks: { m1: { foot: LH, claw: inner, line: dorsal } }
visits:
  - { date: 2026-01-06, by: Orla Venn, kind: first, found: { m1: { distance: 9 } }, vet: { asked: 2026-01-06, why: worse } }
  - { date: 2026-01-09, by: Petra Slade, kind: report,
      vet-answer: { to: 2026-01-06, by: R. Amble, reply: seen, about: [m1, m2], closes: true } }`),
    ).toEqual(['error about-unknown']);
  });
});

describe('blocks', () => {
  it('may be replaced, lost and fitted again, and found on from somebody else', () => {
    expect(blockEvents('fitted', 'checked', 'replaced', 'lost', 'fitted', 'removed')).toEqual([]);
    expect(blockEvents('already on', 'removed')).toEqual([]);
    expect(blockEvents('fitted', 'worn', 'fitted')).toEqual([]);
    expect(blockEvents('fitted', 'lost', 'removed')).toEqual(['warning block-not-on']);
  });
});

it('leaves scores alone where the farm file itself cannot be read', () => {
  expect(
    findingsOf('visits: [{ date: 2026-02-03, by: Orla Venn, kind: routine, gait: 9 }]', { farm: undefined }),
  ).toEqual([]);
});
