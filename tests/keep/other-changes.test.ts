import { expect, test } from 'vitest';
import { addPicture } from '../../src/keep/add-picture.js';
import { declareLesion, declareMark, addVisit } from '../../src/keep/add-visit.js';
import { closeCase, reopenCase, moveAnimal, renumber } from '../../src/keep/move-animal.js';
import { addFootbath, addGaitRound, startBusiness, startFarm } from '../../src/keep/farm-entries.js';
import { openCase } from '../../src/keep/open-case.js';
import { animalText } from '../casefile/generated-cases.js';
import { after, changeOf, farmIn, keepingOf, messageOf } from './kept-in-memory.js';

const file = 'cases/quernholt/2086.md';

test('a case is opened with identity, lesions and a first visit, and reads back', () => {
  const keeping = keepingOf();
  const visits = [
    {
      date: '2026-03-03',
      by: 'Orla Venn',
      kind: 'first' as const,
      found: { u: { state: 'open' as const, width: 9 } },
    },
  ];
  const draft = {
    animal: '0312',
    tag: 'UK 000123 400312',
    lesions: { u: { code: 'SU' as const, foot: 'LH' as const, claw: 'outer' as const } },
    visits,
  };
  const done = after(keeping, openCase(keeping, 'quernholt', '0312', draft));
  expect(farmIn(done, 'quernholt')?.cases.find(({ slug }) => slug === '0312')?.animal).toEqual({
    casefile: 1,
    ...draft,
  });
  expect(done.text(file)).toBe(animalText);
});

test('a case is never opened over a file, nor under a name no file may have', () => {
  const keeping = keepingOf();
  const draft = { animal: '2086', lesions: {}, visits: [] };
  expect(messageOf(openCase(keeping, 'quernholt', '2086', draft))).toMatch(
    /already exists.*quernholt\/2086-2/,
  );
  expect(messageOf(openCase(keeping, 'quernholt', 'K 7', draft))).toContain('`k-7` would do');
  expect(messageOf(openCase(keeping, 'quernholt', 'farm', draft))).toContain('cannot be the name');
  expect(messageOf(openCase(keeping, 'quernhold', '7', draft))).toMatch(
    /Did you mean `quernholt`.*growdown farm/,
  );
});

test('a lesion and a mark are declared behind the others, the group begun where there is none', () => {
  const keeping = keepingOf();
  const lesion = after(keeping, declareLesion(keeping, 'quernholt', '2086', 'b', { code: 'DD', foot: 'RH' }));
  const added = '  b: { code: DD, foot: RH }\n';
  expect(lesion.text(file)).toBe(animalText.replace('visits:', `${added}visits:`));
  const mark = after(
    lesion,
    declareMark(lesion, 'quernholt', '2086', 'm1', { foot: 'LH', claw: 'inner', line: 'dorsal' }),
  );
  expect(mark.text(file)).toContain(`${added}marks:\n  m1: { foot: LH, claw: inner, line: dorsal }\nvisits:`);
  expect(messageOf(declareLesion(mark, 'quernholt', '2086', 'm1', { code: 'DD', foot: 'RH' }))).toContain(
    'declared in',
  );
});

test('a visit brings its new lesion with it', () => {
  const keeping = keepingOf();
  const visit = {
    date: '2026-02-03',
    by: 'Orla Venn',
    kind: 'recheck' as const,
    found: { b: { stage: 'M2' as const } },
  };
  expect(messageOf(addVisit(keeping, 'quernholt', '2086', visit))).toContain('record/found-undeclared');
  const done = after(
    keeping,
    addVisit(keeping, 'quernholt', '2086', visit, { lesions: { b: { code: 'DD', foot: 'RH' } } }),
  );
  expect(Object.keys(farmIn(done, 'quernholt')!.cases[0]!.animal.lesions)).toEqual(['a', 'b']);
});

test('an episode is ended, once, and the next begun', () => {
  const keeping = keepingOf();
  const end = { ended: '2026-06-01', result: 'lost to follow-up' as const };
  const closed = after(keeping, closeCase(keeping, 'quernholt', '2086', end));
  expect(farmIn(closed, 'quernholt')!.cases[0]!.animal.episodes).toEqual([end]);
  expect(messageOf(closeCase(closed, 'quernholt', '2086', end))).toContain('ended 2026-06-01 already');
  const again = after(closed, reopenCase(closed, 'quernholt', '2086', { 'lame-since': '2026-09-01' }));
  expect(farmIn(again, 'quernholt')!.cases[0]!.animal.episodes).toEqual([
    end,
    { 'lame-since': '2026-09-01' },
  ]);
  const twice = after(
    again,
    closeCase(again, 'quernholt', '2086', { ended: '2026-10-01', result: 'culled' }),
  );
  expect(farmIn(twice, 'quernholt')!.cases[0]!.animal.episodes?.[1]).toEqual({
    'lame-since': '2026-09-01',
    ended: '2026-10-01',
    result: 'culled',
  });
  expect(messageOf(reopenCase(keeping, 'quernholt', '2086', {}))).toContain('is open');
});

test('an end that contradicts the record is refused with its place', () => {
  const keeping = keepingOf();
  expect(
    messageOf(closeCase(keeping, 'quernholt', '2086', { ended: '2026-06-01', result: 'sound' })),
  ).toContain('record/sound-with-open-lesion');
});

test('a new number renames the file and keeps the old number; a name that is taken is not written over', () => {
  const keeping = keepingOf({ 'cases/quernholt/41.md': animalText.replace('2086', '41') });
  const done = after(
    keeping,
    renumber(keeping, 'quernholt', '2086', { number: '3001', until: '2026-03-01' }),
  );
  expect(done.files.look(file)).toBeUndefined();
  expect(done.text('cases/quernholt/3001.md')).toBe(
    animalText.replace(
      'animal: "2086"\n',
      'animal: "3001"\nearlier:\n  - { animal: "2086", until: 2026-03-01 }\n',
    ),
  );
  expect(messageOf(renumber(keeping, 'quernholt', '2086', { number: '41', until: '2026-03-01' }))).toContain(
    'already exists',
  );
});

test('a move leaves the records where they were made and opens a file where she is', () => {
  const keeping = keepingOf();
  const done = after(
    keeping,
    moveAnimal(keeping, 'quernholt', '2086', { farm: 'harrowmere', number: '7', on: '2026-03-01' }),
  );
  expect(farmIn(done, 'quernholt')!.cases[0]!.animal.episodes).toEqual([
    { ended: '2026-03-01', result: 'moved' },
  ]);
  expect(farmIn(done, 'quernholt')!.cases[0]!.animal.visits).toHaveLength(1);
  expect(farmIn(done, 'harrowmere')!.cases[0]!.animal).toMatchObject({
    animal: '7',
    earlier: [{ animal: '2086', farm: 'quernholt', until: '2026-03-01' }],
    lesions: { a: { code: 'WL' } },
    visits: [],
  });
  expect(
    messageOf(moveAnimal(done, 'quernholt', '2086', { farm: 'harrowmere', number: '7', on: '2026-03-01' })),
  ).toContain('already exists');
});

test('which lesion came back where goes along, where both are still followed', () => {
  const twice = (first: string) =>
    keepingOf({
      [file]: animalText
        .replace('visits:', '  c: { code: DD, foot: RH }\n  d: { code: DD, foot: RH, again-of: c }\nvisits:')
        .replace('    pain-relief', `      c: { stage: ${first} }\n      d: { stage: M2 }\n    pain-relief`),
    });
  const arrived = (keeping: ReturnType<typeof keepingOf>) => {
    const moved = moveAnimal(keeping, 'quernholt', '2086', {
      farm: 'harrowmere',
      number: '7',
      on: '2026-03-01',
    });
    return farmIn(after(keeping, moved), 'harrowmere')!.cases[0]!.animal.lesions;
  };
  const d = { code: 'DD', foot: 'RH' };
  expect(arrived(twice('M4'))).toMatchObject({ c: d, d: { ...d, 'again-of': 'c' } });
  const healed = arrived(twice('M0'));
  expect(Object.keys(healed)).toEqual(['a', 'd']);
  expect(healed['d']).toEqual(d);
});

test('what is on her feet and may be withheld goes along; what is over does not', () => {
  const keeping = keepingOf();
  const visits = [
    {
      date: '2026-01-20',
      by: 'Orla Venn',
      kind: 'recheck' as const,
      blocks: [
        { foot: 'RH' as const, claw: 'outer' as const, event: 'fitted' as const, material: 'wood' as const },
        { foot: 'LF' as const, claw: 'inner' as const, event: 'fitted' as const },
      ],
      wraps: [{ foot: 'RH' as const, event: 'fitted' as const }],
      products: [
        { product: 'short', 'milk-days': 2, 'meat-days': 5, cost: 4 },
        { product: 'long', 'milk-days': 4, 'meat-days': 60, until: '2026-01-22' },
        { product: 'open', 'milk-days': 1, 'given-by': 'Ivo Marl', note: 'held by Ivo' },
      ],
    },
    {
      date: '2026-02-10',
      by: 'Ivo Marl',
      kind: 'report' as const,
      blocks: [
        { foot: 'RH' as const, claw: 'outer' as const, event: 'checked' as const },
        { foot: 'LF' as const, claw: 'inner' as const, event: 'lost' as const, on: '2026-02-09' },
      ],
      wraps: [{ foot: 'RH' as const, event: 'removed' as const }],
    },
  ];
  const draft = { animal: '0312', lesions: {}, visits };
  const opened = after(keeping, openCase(keeping, 'quernholt', '0312', draft));
  const to = { farm: 'harrowmere', number: undefined, on: '2026-03-01' };
  const done = after(opened, moveAnimal(opened, 'quernholt', '0312', to));
  expect(farmIn(done, 'harrowmere')!.cases.map(({ animal }) => animal.visits)).toEqual([
    [
      {
        date: '2026-03-01',
        by: 'Orla Venn',
        kind: 'report',
        blocks: [{ foot: 'RH', claw: 'outer', event: 'already on', material: 'wood', on: '2026-01-20' }],
        products: [
          { product: 'long', 'milk-days': 4, 'meat-days': 60, until: '2026-01-22', on: '2026-01-20' },
          { product: 'open', 'milk-days': 1, on: '2026-01-20' },
        ],
      },
    ],
  ]);
});

const jpeg = Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1);

test('a picture gets a clear name, one of its own, and its entry under the visit', () => {
  const keeping = keepingOf();
  const shows = { foot: 'LH' as const, view: 'abaxial wall' as const, when: 'after' as const };
  const draft = { bytes: jpeg, date: undefined, shows };
  const one = after(keeping, addPicture(keeping, 'quernholt', '2086', draft));
  const two = after(one, addPicture(one, 'quernholt', '2086', draft));
  expect(farmIn(two, 'quernholt')!.cases[0]!.animal.visits[0]!.photos).toEqual([
    { file: 'photos/2086-2026-01-06-lh-abaxial-wall.jpg', ...shows },
    { file: 'photos/2086-2026-01-06-lh-abaxial-wall-2.jpg', ...shows },
  ]);
  expect([...two.files.read('cases/quernholt/photos/2086-2026-01-06-lh-abaxial-wall-2.jpg')]).toEqual([
    ...jpeg,
  ]);
  expect(
    messageOf(
      addPicture(keeping, 'quernholt', '2086', {
        ...draft,
        bytes: new TextEncoder().encode('no picture at all'),
      }),
    ),
  ).toContain('not a picture');
  expect(messageOf(addPicture(keeping, 'quernholt', '2086', { ...draft, date: '2026-02-02' }))).toContain(
    'the last is of 2026-01-06',
  );
});

test('a farm, a business, a gait round and a footbath are begun and added by their day', () => {
  const keeping = keepingOf();
  const farm = after(keeping, startFarm(keeping, 'oxwold', { farm: 'Oxwold', 'gait-scale': 'uk-0-3' }));
  expect(farm.text('cases/oxwold/farm.md')).toBe('---\nfarm: "Oxwold"\ngait-scale: uk-0-3\n---\n');
  expect(messageOf(startFarm(keeping, 'quernholt', { farm: 'Quernholt' }))).toContain('already exists');
  const business = after(farm, startBusiness(farm, { trimmer: 'Orla Venn' }));
  expect(business.text('cases/business.md')).toBe('---\ntrimmer: Orla Venn\n---\n');
  let now = after(
    business,
    addGaitRound(business, 'quernholt', { date: '2026-05-01', counts: { 0: 130, 1: 51 } }),
  );
  now = after(now, addGaitRound(now, 'quernholt', { date: '2026-02-01', counts: { 0: 120, 3: 4 } }));
  now = after(now, addFootbath(now, 'quernholt', { from: '2026-01-01', product: 'copper sulphate' }));
  const read = farmIn(now, 'quernholt')!.farm;
  expect(read['gait-rounds']?.map(({ date }) => date)).toEqual(['2026-02-01', '2026-05-01']);
  expect(read.footbath).toEqual([{ from: '2026-01-01', product: 'copper sulphate' }]);
});

test('what looks wrong between farms is reported where an animal is new, and other farms are not in the way of a visit', () => {
  const tagged = animalText.replace('animal: "2086"\n', 'animal: "2086"\ntag: UK 000123 402086\n');
  const keeping = keepingOf({ [file]: tagged, 'cases/harrowmere/9.md': 'no case file' });
  const draft = { animal: '7', tag: 'UK 000123 402086', lesions: {}, visits: [] };
  const [first] = changeOf(openCase(keepingOf({ [file]: tagged }), 'harrowmere', '7', draft)).remarks;
  expect(first?.id).toBe('record/tag-on-two-farms');
  const visit = { date: '2026-02-03', by: 'Orla Venn', kind: 'recheck' as const };
  expect(changeOf(addVisit(keeping, 'quernholt', '2086', visit)).remarks).toEqual([]);
});
