import { expect, test } from 'vitest';
import { composeBlankSheet, composeSheet } from '../../src/form/sheet/compose-sheet.js';
import { dueOnSheet, sheetDays } from '../../src/form/sheet/due-on-sheet.js';
import { lastPictures } from '../../src/form/sheet/last-picture.js';
import { renderSheet } from '../../src/form/sheet/render-sheet.js';
import { sheetRowsOf, sheetRows } from '../../src/form/sheet/sheet-items.js';
import { sheetLayout } from '../../src/form/sheet/sheet-page.js';
import { visitForm } from '../../src/form/visit-form.js';
import { bareName, type Field } from '../../src/form/field.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { keysWithin, type VisitPlace } from '../../src/record/key.js';
import { animal as animalSchema } from '../../src/record/animal.js';
import { fixtureEvents, signs } from '../../src/record/words.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { wordsOf } from '../../src/reference/words.js';
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

/** Every key that has its place on paper, or is left out with the reason. */
const declared = keysWithin(animalSchema).map(
  ([way, place]) => [way.replace(/^visits\./, ''), place] as const,
);
const leftOut = new Set(declared.flatMap(([way, { sheet }]) => (sheet === 'none' ? [way] : [])));
const named = ['visit', 'walk', 'off', 'on', 'products', 'care', 'photos', 'next', 'lesion', 'met', 'mark', 'new-mark', 'after']; // prettier-ignore
const inGrids = declared.flatMap(([way, { sheet }]) => (sheet === 'grid' ? [way] : []));
const placed = new Set([
  ...named.flatMap((part) => sheetRows(part).flat()).map(bareName),
  ...inGrids,
  ...leftOut,
]);

const form = visitForm(made, new Map());
const inForm = [...form.fields.values(), ...form.declared].flatMap(answersIn);

test('every key of a visit’s form has its place on the sheet, and one added to the record does not compile without', () => {
  expect(inForm.length).toBeGreaterThan(100);
  expect([...new Set(inForm)].filter((name) => !placed.has(name))).toEqual([]);
  // @ts-expect-error a key of a visit that does not say where it stands on the sheet does not compile
  const without: VisitPlace = { form: 'walk 9', more: 99, log: 'about' };
  expect(without.sheet).toBeUndefined();
});

test('no place is kept for a key that is none', () => {
  const known = new Set(inForm);
  const noField = ['amended', 'lesions.amended', 'marks.amended', 'photos.file'];
  expect([...placed].filter((name) => !known.has(name))).toEqual(expect.arrayContaining(noField));
  expect([...placed].filter((name) => !known.has(name))).toHaveLength(noField.length);
});

test('where the words of a list are parted, every word stands in one part', () => {
  const { words } = sheetLayout;
  expect([...words['found.signs']!, ...words['feet.signs']!].toSorted()).toEqual([...signs].toSorted());
  for (const what of ['blocks', 'wraps'])
    expect([...words[`${what}.0.event`]!, ...words[`${what}.1.event`]!].toSorted()).toEqual(
      [...fixtureEvents].toSorted(),
    );
});

test('each lesion and mark has a place for all that fits it, and for nothing else', () => {
  const sheet = { words: wordsOf('en-GB'), animal, form, scale: 'mobility score' };
  const found = form.fields.get('found');
  const groups = found?.kind === 'group' ? found.fields : [];
  for (const group of groups) {
    if (form.newLesions.includes(group.key) || group.key === form.newMark) continue;
    const isMark = group.key.startsWith('m');
    const rows = sheetRowsOf(sheetRows(isMark ? 'mark' : 'lesion'), sheet, group.key);
    const fields = answersIn(group).filter((key) => !leftOut.has(key)).length;
    // Loose horn taken off is a box of the lesion's own.
    expect(rows.flat().length, group.key).toBe(fields + (isMark || !hasState(group) ? 0 : 1));
  }
});

function hasState(group: Field): boolean {
  return group.kind === 'group' && group.fields.some(({ key }) => key === 'state');
}

test('the front of a sheet tells no reading, no range and no standing; the back tells them', () => {
  let told = 0;
  for (const { farm, work } of farms) {
    const page = composeSheet({ farm, language: 'en-GB', work, day: today, today, pictures: new Map() });
    for (const [at, leaf] of page.leaves.entries()) {
      const { record, growth } = work[at]!;
      const before = leaf.sides
        .slice(0, -1)
        .map((side) =>
          JSON.stringify({ ...side, kicker: '', about: { ...side.about, handling: '', identity: '' } }),
        );
      for (const side of before)
        expect(
          side.replaceAll(
            /\d{1,2} [A-Z][a-z]+ \d{4}|of \d+|UK 0–3|US 1–3|\bM\d(?:\.1)?|"\d"|\d week|m\d/g,
            '',
          ),
        ).not.toMatch(/\d mm|should read|\d to \d/);
      const back = leaf.sides.at(-1)!;
      expect(back.after).toBeDefined();
      expect(leaf.sides.slice(0, -1).every(({ after }) => after === undefined)).toBe(true);
      const next = growth.lesions.find((line) => line.nextReading(today) && !line.heldNow);
      if (next && back.after?.rows.some(({ expected }) => expected.includes('should read'))) told += 1;
      expect(leaf.sides[0]!.heading).toBe(record.animal.animal);
    }
  }
  expect(told).toBeGreaterThan(3);
});

test('more lesions than a page holds go on to a page of their own, each told where it belongs', () => {
  const { farm, work } = farms.find((one) => one.farm.slug === 'quasselbrook')!;
  const page = composeSheet({ farm, language: 'en-US', work, day: today, today, pictures: new Map() });
  expect(page.paper).toBe('Letter');
  const long = page.leaves.find(({ sides }) => sides.length === 3)!;
  expect(long.sides.map(({ side }) => side)).toEqual(['1 of 3', '2 of 3', '3 of 3']);
  expect(long.sides.flatMap(({ parts }) => parts).filter(({ lesion }) => lesion)).toHaveLength(4);
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

test('the last picture is the latest, and of one day that of the foot that leads', () => {
  const visits = [
    { date: '2026-01-06', by: 'x', kind: 'first' as const, photos: [{ file: 'a.jpg', foot: 'LH' as const }] },
    {
      date: '2026-02-06',
      by: 'x',
      kind: 'recheck' as const,
      photos: [
        { file: 'b.jpg', foot: 'RF' as const },
        { file: 'c.jpg', foot: 'LH' as const, when: 'before' as const },
        { file: 'd.jpg', foot: 'LH' as const, when: 'after' as const },
      ],
    },
  ];
  expect(lastPictures({ ...animal, visits }, 'a').map(({ photo }) => photo.file)).toEqual([
    'd.jpg',
    'c.jpg',
    'b.jpg',
    'a.jpg',
  ]);
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
