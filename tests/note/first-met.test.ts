import { expect, test } from 'vitest';
import { readNote } from '../../src/note/read-note.js';
import { noteContext } from './two-farms.js';

const context = noteContext('2026-06-16');
const read = (lines: string) => readNote(`Quernholt 15 June\n${lines}`, context).animals;

test.each([
  ['skin by foot and kind', '2117 RH DD M2', { b: { code: 'DD', foot: 'RH' } }, { b: { stage: 'M2' } }],
  [
    'an ulcer by foot, claw and kind',
    '2117 RH outer sole ulcer open 12 x 9 ruler',
    { b: { code: 'SU', foot: 'RH', claw: 'outer' } },
    { b: { state: 'open', length: 12, width: 9, tool: 'ruler' } },
  ],
  [
    'a gap by its site too, which tells the line',
    '2117 RF inner WL white line rear: open, top 12, ruler',
    { b: { code: 'WL', foot: 'RF', claw: 'inner', site: 'white line rear', line: 'heel' } },
    { b: { state: 'open', top: 12, tool: 'ruler' } },
  ],
  [
    'two, each a letter of its own past those she has',
    '2133 LF inner TU open. RF inner claw toe ulcer covered',
    { d: { code: 'TU', foot: 'LF', claw: 'inner' }, e: { code: 'TU', foot: 'RF', claw: 'inner' } },
    { d: { state: 'open' }, e: { state: 'covered' } },
  ],
  [
    'by the word new, beside one of its kind on that claw',
    '2117 new LH outer WL white line fore: open top 9 ruler',
    { b: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line fore', line: 'abaxial' } },
    { b: { state: 'open', top: 9, tool: 'ruler' } },
  ],
  [
    'spoken of again by another of its words',
    '2117 RH DD M2. White line LH outer healed. RH skin: DD smell',
    { b: { code: 'DD', foot: 'RH' } },
    { a: { state: 'healed' }, b: { stage: 'M2', signs: ['smell'] } },
  ],
])('declared where it is certain: %s', (_, lines, declares, found) => {
  const [one] = read(lines);
  expect(one?.questions).toEqual([]);
  expect(one?.declares).toEqual(declares);
  expect(one?.draft?.found).toEqual(found);
  expect(one?.pieces.some(({ as }) => as?.startsWith('a lesion first met, declared as'))).toBe(true);
});

test.each([
  ['no claw', '2117 RH sole ulcer open', 'new-lesion', 'new RH inner SU'],
  ['a word for several kinds', '2117 RH outer ulcer open', 'new-lesion', 'new RH outer BU'],
  ['a gap without its site', '2117 RF inner white line: top 12 ruler', 'new-lesion', 'new RF inner WL white line rear'],
  ['one of its family is on that claw', '2117 LH outer vertical crack dorsal wall open', 'new-lesion', 'lesion a'],
  ['the same on another foot, so that the foot may be a slip', '2117 RH outer WL white line rear top 20', 'new-lesion', 'lesion a'],
  ['called new where skin disease is', '2133 new RH DD M2', 'new-lesion', 'lesion b'],
  ['doubted', '2117 maybe RH DD M2', 'not-sure', ''],
])('asked where it is not: %s', (_, lines, id, choice) => {
  const [one] = read(lines);
  expect(one?.draft?.found).toBeUndefined();
  expect(one?.questions.map((question) => question.id)).toContain(id);
  expect(one?.questions.flatMap(({ choices }) => choices.map(({ text }) => text))).toContain(choice);
}); // prettier-ignore

test('each choice that says new can be put into the note and leads on to certainty', () => {
  let note = 'Quernholt 15 June\n2117 RF white line: open, top 12, ruler';
  for (let turns = 0; turns < 4; turns += 1) {
    const [one] = readNote(note, context).animals;
    const [question] = one?.questions ?? [];
    if (!question) break;
    const choice = question.choices.find(({ text }) => text.includes('new')) ?? question.choices[0];
    note = note.slice(0, question.replace.from) + choice!.text + note.slice(question.replace.to);
  }
  const [one] = readNote(note, context).animals;
  expect(one?.declares).toMatchObject({ b: { code: 'WL', foot: 'RF', claw: 'inner' } });
});

test('a place that had healed and is called new is again of the one that was there', () => {
  const [healed] = readNote('Quernholt 15 June\n2117 LH outer WL healed', context).animals;
  const farms = context.farms.map((farm) => ({
    ...farm,
    cases: farm.cases.map((one) =>
      farm.slug === 'quernholt' && one.slug === '2117'
        ? {
            ...one,
            animal: {
              ...one.animal,
              visits: [...one.animal.visits, healed!.draft!] as typeof one.animal.visits,
            },
          }
        : one,
    ),
  }));
  const [again] = readNote('Quernholt 16 June\n2117 new LH outer WL white line rear open top 20 ruler', {
    ...context,
    farms,
  }).animals;
  expect(again?.declares).toMatchObject({ b: { code: 'WL', 'again-of': 'a' } });
});

test('met on one day and told of on the next in one note, it keeps its name', () => {
  const days = read('2117 RH DD M2\n16 June\n2117 RH DD M4');
  expect(days.map(({ date, declares, draft }) => [date, Object.keys(declares ?? {}), draft?.found])).toEqual([
    ['2026-06-15', ['b'], { b: { stage: 'M2' } }],
    ['2026-06-16', ['b'], { b: { stage: 'M4' } }],
  ]);
});

test.each([
  ['block on LH inner changed for a new wooden one', ['replaced wood']],
  ['block LH inner still on, replaced it with a new wooden block', ['replaced wood']],
  ['block fell off LH inner, left it off', ['lost ']],
])('what was done to one block is one event: %s', (said, events) => {
  const [one] = read(`2117 WL open top 30 wall 58, ruler. ${said}`);
  expect(one?.draft?.blocks?.map(({ event, material = '' }) => `${event} ${material}`)).toEqual(events);
});
