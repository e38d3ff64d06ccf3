import { expect, test } from 'vitest';
import { animalsPage } from '../../src/form/list-pages.js';
import { identityOf } from '../../src/form/known-of-animal.js';
import { composeSheet } from '../../src/form/sheet/compose-sheet.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { wordsOf } from '../../src/reference/words.js';
import { farmWith } from '../growth/invented-practice.js';
import { cow, quernholt, visit } from '../schedule/a-case.js';

const today = '2026-06-10';
const words = wordsOf('en-GB');
const gap = { a: { state: 'open' as const, top: 17 } };

/** What the phone's list, her visit's form and the sheet say of a cow due to calve that day. */
function said(due: string, recheck: string, more: object = {}): readonly string[] {
  const animal = cow([visit('2026-06-02', { found: gap, recheck })], { 'due-to-calve': due, ...more });
  const farm = farmWith('quernholt', { '2041': animal }, quernholt);
  const work = workOutCase(farm, farm.cases[0]!, { business: {}, today, prior: publishedPrior });
  const list = animalsPage(words, { record: farm, work: [work], inbox: { open: [] } }, today);
  const sheet = composeSheet({
    farm,
    language: 'en-GB',
    work: [work],
    day: today,
    today,
  });
  return [
    list.groups.flatMap(({ links }) => links.flatMap(({ lines }) => lines)).join(' '),
    identityOf(words, work).join(' '),
    sheet.leaves[0]!.sides[0]!.about!.handling.join(' '),
  ];
}

const asks =
  /Near calving: due to calve .*Agree with the farm or vet.*no belly strap, and do not tilt her on her side\./;

test('close to calving today or at her next lift: the list on the phone, her form and the sheet say so', () => {
  for (const text of said('2026-06-30', '2026-06-12')) expect(text).toMatch(asks);
  for (const text of said('2026-07-10', '2026-06-23')) expect(text).toMatch(asks);
});

test('further off, or calved, none of them does', () => {
  for (const text of said('2026-07-10', '2026-06-12')) expect(text).not.toMatch(/calving/);
  for (const text of said('2026-06-12', '2026-06-12', { calvings: ['2026-06-08'] }))
    expect(text).not.toMatch(/calving/);
});
