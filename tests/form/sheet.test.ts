import { expect, test } from 'vitest';
import {
  composeBlankSheet,
  composeSheet,
  dueOnSheet,
  sheetDays,
} from '../../src/form/sheet/compose-sheet.js';
import { keysOnLines, keysOnSheet, type SheetForm, sheetRows } from '../../src/form/sheet/sheet-parts.js';
import { renderSheet, sheetLayout, type SheetItem, type SheetSide } from '../../src/form/sheet/sheet-page.js';
import { visitForm } from '../../src/form/visit-form.js';
import { bareName, type Field } from '../../src/form/field.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { keysWithin, type VisitPlace } from '../../src/record/key.js';
import { animal as animalSchema, type Animal } from '../../src/record/animal.js';
import { fixtureEvents, signs } from '../../src/record/words.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { wordsOf } from '../../src/reference/words.js';
import { farmWith } from '../growth/invented-practice.js';
import { quernholt } from '../schedule/a-case.js';
import { animal, made } from './made-for.js';

const today = '2026-06-16';
const { practice } = readPractice(nodeCaseFiles, 'cases', { today });
const pooled = pooledOn(practice, today);
const farms = practice.farms.map((farm) => ({
  farm,
  work: farm.cases.map((record) =>
    workOutCase(farm, record, {
      business: practice.business,
      today,
      prior: pooled.priors.priorOf(farm.slug, record.slug),
    }),
  ),
}));

function answersIn(field: Field): string[] {
  if (field.kind === 'answer') return [bareName(field.name)];
  return (field.kind === 'group' ? field.fields : field.entries).flatMap(answersIn);
}

const partsOfSheet = ['urgent', 'walk', 'block', 'wrap', 'arrival', 'lesion', 'new', 'mark', 'after', 'on', 'new-mark', 'product', 'care', 'photos', 'next', 'visit'] as const; // prettier-ignore
/** Every key as the record declares it, with where it is on paper. */
const declared = keysWithin(animalSchema).map(
  ([way, { sheet }]) => [way.replace(/^visits\./, ''), sheet] as const,
);
const said = (what: string) => declared.flatMap(([way, sheet]) => (sheet === what ? [way] : []));
const placed = new Set([
  ...partsOfSheet.flatMap((part) => keysOnSheet(part)),
  ...said('each'),
  ...said('lines'),
]);

const form = visitForm(made, new Map());
const inForm = new Set([...form.fields.values(), ...form.declared].flatMap(answersIn));

test('every key of a visit’s form has its place on the sheet or is written in words on its lines, and one added to the record does not compile without', () => {
  expect(inForm.size).toBeGreaterThan(80);
  // A groove is found later and declared at the desk.
  expect([...inForm].filter((name) => !placed.has(name))).toEqual(['marks.groove-from']);
  expect([...placed].filter((name) => !inForm.has(name))).toEqual([]);
  // @ts-expect-error a key of a visit that does not say where it stands on the sheet does not compile
  const without: VisitPlace = { form: 'walk 9', more: 99, log: 'about' };
  expect(without.sheet).toBeUndefined();
});

test('what has no place of its own is named above the lines it is written on', () => {
  const says = composeBlankSheet(undefined, 'en-GB', 'A4', today).leaves[0]!.sides.at(-1)!.lines!.says;
  expect(keysOnLines().length).toBeGreaterThan(8);
  for (const way of keysOnLines()) {
    const words = wordsOf('en-GB');
    const key = [`key.${way}.sheet`, `key.${way.split('.').at(-1)}.sheet`].find((one) => words.has(one));
    expect(key, way).toBeDefined();
    expect(says, way).toContain(words.say(key!));
  }
});

/** The words of a closed list that are ticked somewhere, and whether the others have a line. */
function ticked(key: string): { words: string[]; others: boolean } {
  const at = Object.entries(sheetLayout.words).filter(([way]) => way.endsWith(` ${key}`));
  return {
    words: [...new Set(at.flatMap(([, words]) => words))],
    others: at.some(([way]) =>
      sheetRows(
        { words: wordsOf('en-GB'), animal, form, scale: undefined },
        way.split(' ')[0] as 'lesion',
        way.startsWith('new') ? form.newLesions[0] : 'a',
      )
        .flat()
        .some(({ boxes, line, other }) => boxes.length > 0 && line === 'rest' && other !== ''),
    ),
  };
}

test('where not all words of a list are ticked, the others have a line; what happens to a block or wrap is all ticked', () => {
  for (const list of ['blocks.event', 'wraps.event'])
    expect(ticked(list).words.toSorted(), list).toEqual([...fixtureEvents].toSorted());
  for (const list of ['found.signs', 'lesions.code', 'photos.view', 'signs']) expect(ticked(list).others, list).toBe(true); // prettier-ignore
  for (const word of ticked('found.signs').words) expect(signs).toContain(word);
});

const sheetOf = (of: Animal): SheetForm => ({
  words: wordsOf('en-GB'),
  animal: of,
  form: visitForm({ ...made, animal: of }, new Map()),
  scale: 'mobility score',
});

test('each lesion and mark has a place for all that fits it, and for nothing else', () => {
  const found = form.fields.get('found');
  const groups = found?.kind === 'group' ? found.fields : [];
  const elsewhere = new Set([...said('lines'), ...said('each')]);
  for (const group of groups) {
    if (form.newLesions.includes(group.key) || group.key === form.newMark) continue;
    const isMark = group.key.startsWith('m');
    const rows = sheetRows(sheetOf(animal), isMark ? 'mark' : 'lesion', group.key);
    const fields = answersIn(group).filter((key) => !elsewhere.has(key)).length;
    // Loose horn taken off is a box of the lesion's own.
    expect(rows.flat().length, group.key).toBe(fields + (isMark || !hasState(group) ? 0 : 1));
  }
});

function hasState(group: Field): boolean {
  return group.kind === 'group' && group.fields.some(({ key }) => key === 'state');
}

/** All that a side says and its drawings, as text. */
const textOf = (side: SheetSide) => JSON.stringify({ ...side, kicker: '', about: { ...side.about, handling: '', identity: '' } }); // prettier-ignore

test('no side before the last shows a reading, a range, a standing, a sign seen or an earlier score; the last shows them', () => {
  let told = 0;
  for (const { farm, work } of farms) {
    const page = composeSheet({ farm, language: 'en-GB', work, day: today, today });
    for (const [at, leaf] of page.leaves.entries()) {
      const { record, growth } = work[at]!;
      const before = leaf.sides.slice(0, -1);
      expect(before.some(({ after }) => after)).toBe(false);
      for (const side of before.map(textOf))
        expect(side.replaceAll(/<svg[^>]*>|of \d+|UK 0–3|\d{1,2} [A-Z][a-z]{2}\b/g, '')).not.toMatch(
          /\d mm|should read|\d to \d|scored \d|base64|"value"|gone"/,
        );
      const back = leaf.sides.at(-1)!;
      const next = growth.lesions.find((line) => line.nextReading(today) && !line.heldNow);
      if (next && back.after?.rows.some(({ expected }) => expected.includes('should read'))) told += 1;
      expect(leaf.sides[0]!.heading).toContain(record.animal.animal);
    }
  }
  expect(told).toBeGreaterThan(3);
});

test('a front is the same whatever was read before: readings, signs, scores and pictures change the back alone', () => {
  const of = (top: number, gait: number, more: object): SheetSide[] => {
    const visits: Animal['visits'] = [
      { date: '2026-05-05', by: 'Orla Venn', kind: 'first', gait, found: { a: { state: 'open', top, wall: 43, tool: 'tape', ...more } } }, // prettier-ignore
    ];
    const farm = farmWith('quernholt', { '2041': { ...animal, lesions: { a: animal.lesions['a']! }, marks: {}, visits } }, quernholt); // prettier-ignore
    const work = workOutCase(farm, farm.cases[0]!, { business: {}, today, prior: publishedPrior });
    return [...composeSheet({ farm, language: 'en-GB', work: [work], day: today, today }).leaves[0]!.sides];
  };
  const [front, back] = of(12, 2, {});
  const [other, behind] = of(20, 3, { signs: ['pus'], width: 9 });
  expect(other).toEqual(front);
  expect(behind).not.toEqual(back);
  expect(behind!.after!.items.flatMap(({ ring }) => ring)).toContain('pus');
});

test('up to two lesions are two sides, more are four, and the number is always even', () => {
  const base = animal.lesions['a']!;
  const sidesWith = (count: number): readonly SheetSide[] => {
    const names = ['a', 'b', 'c', 'd', 'e', 'f'].slice(0, count);
    const lesions = Object.fromEntries(names.map((name) => [name, base]));
    const found = Object.fromEntries(
      names.map((name) => [name, { state: 'open' as const, top: 12, wall: 43 }]),
    );
    const visits: Animal['visits'] = [{ date: '2026-05-05', by: 'Orla Venn', kind: 'first', found }];
    const farm = farmWith('quernholt', { '2041': { ...animal, lesions, visits } }, quernholt);
    const work = workOutCase(farm, farm.cases[0]!, { business: {}, today, prior: publishedPrior });
    const { sides } = composeSheet({ farm, language: 'en-GB', work: [work], day: today, today }).leaves[0]!;
    const lesionParts = sides.flatMap(({ parts: all }) => all).filter(({ kind }) => kind === 'lesion');
    // Each of hers, and one slot for something new.
    expect(lesionParts).toHaveLength(count + 1);
    expect(sides.filter(({ after }) => after)).toHaveLength(1);
    return sides;
  };
  expect([0, 1, 2, 4, 6].map((count) => sidesWith(count).length)).toEqual([2, 2, 2, 4, 4]);
  expect(sidesWith(4).map(({ side }) => side)).toEqual(['1 of 4', '2 of 4', '3 of 4', '4 of 4']);
});

test('a block or wrap that is on her is printed and only what became of it is asked', () => {
  const blocks = [
    { foot: 'LH' as const, claw: 'inner' as const, event: 'fitted' as const, material: 'wood' as const },
  ];
  const of = (more: object) => {
    const visits: Animal['visits'] = [{ date: '2026-05-05', by: 'Orla Venn', kind: 'first', ...more }];
    const farm = farmWith('quernholt', { '2041': { ...animal, visits } }, quernholt);
    const work = workOutCase(farm, farm.cases[0]!, { business: {}, today, prior: publishedPrior });
    const [front] = composeSheet({ farm, language: 'en-GB', work: [work], day: today, today }).leaves[0]!
      .sides;
    return front!.parts.filter(({ heading }) => heading.startsWith('On '));
  };
  const [on, ...others] = of({ blocks });
  expect(others).toEqual([]);
  expect(on!.rows[0]![0]).toMatchObject({ label: 'Block of wood, LH inner, since 5 May', boxes: ['still on', 'worn', 'lost', 'taken off'] }); // prettier-ignore
  expect(of({}).flatMap(({ rows }) => rows.flat().map(({ boxes }) => boxes))).toEqual([
    ['not ours'],
    ['not ours'],
  ]);
});

test('a sheet of one lesion has about a hundred boxes to tick', () => {
  const { farm, work } = farms.find((one) => one.farm.slug === 'quernholt')!;
  const { leaves } = composeSheet({ farm, language: 'en-GB', work, day: today, today });
  const boxes = (items: readonly SheetItem[]) => items.reduce((sum, item) => sum + item.boxes.length, 0);
  for (const { id, sides } of leaves) {
    const all = sides.flatMap(({ parts: rows, after }) => [...rows.flatMap((part) => part.rows.flat()), ...(after?.items ?? [])]); // prettier-ignore
    expect(boxes(all), id).toBeGreaterThan(80);
    expect(boxes(all), id).toBeLessThanOrEqual(115);
  }
});

test('which animals: what is due up to the next visit, soonest first, or all that are open', () => {
  const { farm, work } = farms.find((one) => one.farm.slug === 'quernholt')!;
  const days = sheetDays(farm.farm, today, {});
  expect(days.visit).toBe(farm.farm['next-visit']);
  const due = dueOnSheet(work, days, false);
  expect(due.length).toBeGreaterThan(3);
  for (const { due: items } of due)
    expect(
      items.some(({ who, standing, by }) => who === 'trimmer' && standing !== 'done' && by <= days.to),
    ).toBe(true);
  const open = work.filter(({ standing }) => !standing.closed);
  const all = dueOnSheet(work, days, true);
  expect(all.slice(0, due.length)).toEqual(due);
  expect(new Set(all)).toEqual(new Set(open));
  expect(dueOnSheet(work, { from: '2026-06-20', to: '2026-06-19', visit: today }, false)).toEqual([]);
  expect(sheetDays({ farm: 'x' }, today, {})).toEqual({ to: '2026-06-23', visit: today });
  expect(sheetDays({ farm: 'x', 'next-visit': '2026-06-01' }, today, { to: '2026-07-01' })).toEqual({
    to: '2026-07-01',
    visit: today,
  });
});

test('a blank sheet asks who she is, and its file holds no script', () => {
  const page = composeBlankSheet(undefined, 'en-GB', 'A4', today);
  const labels = page.leaves[0]!.sides.flatMap(({ parts }) =>
    parts.flatMap(({ rows }) => rows.flat().map(({ label }) => label)),
  );
  for (const label of ['Number', 'Official tag', 'Breed', 'Handling', 'Lame since', 'Score, and its scale'])
    expect(labels).toContain(label);
  const html = renderSheet(page);
  expect(html).toContain('default-src &#39;none&#39;');
  expect(html).not.toMatch(/<script|https?:/);
  expect(renderSheet(page)).toBe(html);
});
