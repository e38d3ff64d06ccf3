import { expect, test } from 'vitest';
import { wordingOf } from '../../src/form/asking/ask-question.js';
import { isAsked, type Question, visitQuestions } from '../../src/keep/questions.js';
import type { Found } from '../../src/record/visit.js';
import { wordsOf } from '../../src/reference/words.js';
import { fullAnimal } from '../book/full-practice.js';

const questions = visitQuestions(fullAnimal);
const pathOf = ({ path }: { readonly path: readonly string[] }) => path.join('.');

test('each lesion still followed is asked after by what its kind can show, in the words that fit it', () => {
  const own = (name: string) => questions.filter((q) => q.name === name).map((q) => q.path.at(-1));
  expect(own('b')).toEqual(['state', 'top', 'top-found', 'wall', 'tool', 'signs']);
  expect(own('c')).toEqual(['stage', 'signs']);
  expect(own('m1')).toEqual(['distance', 'tool']);
  expect(own('d'), 'healed').toEqual([]);
  expect(own('e'), 'runs into another').toEqual([]);
  const state = questions.find((q) => pathOf(q) === 'found.u.state');
  expect(state?.wanted).toEqual({ kind: 'word', words: ['open', 'covered', 'healed'] });
});

test('whether a sign is gone is asked of those of the last look alone', () => {
  const last = (found: Found) =>
    visitQuestions({ ...fullAnimal, visits: [...fullAnimal.visits, { date: '2026-03-09', by: 'x', kind: 'recheck', found: { a: found } }] }); // prettier-ignore
  const gone = (all: readonly Question[]) => all.filter((q) => pathOf(q) === 'found.a.gone').map((q) => q.wanted); // prettier-ignore
  expect(gone(questions)).toEqual([]);
  expect(gone(last({ state: 'open' }))).toEqual([]);
  expect(gone(last({ state: 'open', signs: ['pus', 'smell'] }))).toEqual([
    { kind: 'list', of: { kind: 'word', words: ['pus', 'smell'] } },
  ]);
});

test('of what is healed, or has no length, nothing more is asked', () => {
  const measured = questions.filter((q) => q.name === 'b');
  const askedOf = (found: object) =>
    measured.filter((q) => isAsked(q, { found: { b: found } })).map((q) => q.path.at(-1));
  expect(askedOf({ state: 'healed' })).toEqual(['state']);
  expect(askedOf({ state: 'open' })).toEqual(['state', 'top', 'wall', 'signs']);
  expect(askedOf({ state: 'open', top: 21 })).toEqual(['state', 'top', 'top-found', 'wall', 'tool', 'signs']);
});

test('every question has its wording', () => {
  const words = wordsOf('en-GB');
  expect(questions.filter((question) => !words.has(wordingOf(words, question)))).toEqual([]);
});
