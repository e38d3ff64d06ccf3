import { isDeepStrictEqual } from 'node:util';
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { readPractice } from '../../src/casefile/read-practice.js';
import { addVisit, placeByDate } from '../../src/keep/add-visit.js';
import type { VisitDraft } from '../../src/keep/visit-draft.js';
import type { Animal } from '../../src/record/animal.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';
import { anyCase, anyVisit, keptTexts } from './any-case.js';
import { difference } from './difference.js';

const today = '2026-11-25';
const farmText =
  '---\nfarm: Quernholt\ngait-scale: uk-0-3\ncondition-scale: uk-1-5\nmilkings-a-day: 2\n---\n';

function filesWith(text: string, slug: string) {
  return caseFilesInMemory({ 'cases/quernholt/farm.md': farmText, [`cases/quernholt/${slug}.md`]: text });
}

function recordOf(text: string, slug: string): Animal | undefined {
  return readPractice(filesWith(text, slug), 'cases', { today }).practice.farms[0]?.cases[0]?.animal;
}

/** True where it was added; false where the checks of the reader refuse it, as they would a file written by hand. */
function addsIt(text: string, slug: string, draft: VisitDraft): boolean {
  const before = recordOf(text, slug);
  if (!before) return false;
  const keeping = { files: filesWith(text, slug), cases: 'cases', today, evenSo: true as const };
  const worked = addVisit(keeping, 'quernholt', slug, draft);
  if (worked.outcome === 'refused') {
    const index = placeByDate(before.visits, draft);
    const byHand = {
      ...before,
      visits: before.visits.toSpliced(index, 0, draft),
    };
    expect(
      recordOf(`---\n${JSON.stringify(byHand)}\n---\n`, slug),
      JSON.stringify(worked.problems),
    ).toBeUndefined();
    return false;
  }
  if (worked.outcome === 'cannot') throw new Error(`${worked.message}\n${text}`);
  const after = new TextDecoder('utf-8', { ignoreBOM: true }).decode(worked.change.files[0]!.after);
  const index = placeByDate(before.visits, draft);
  const expected = {
    ...before,
    visits: before.visits.toSpliced(index, 0, draft),
  };
  const read = recordOf(after, slug);
  if (!isDeepStrictEqual(JSON.parse(JSON.stringify(read ?? {})), JSON.parse(JSON.stringify(expected))))
    expect(read, after).toEqual(expected);
  expect(['', '[]']).toContain(difference(text, after).cut);
  return true;
}

test('any visit into any case in any style: the same record, every other byte as it was', () => {
  let added = 0;
  let tried = 0;
  fc.assert(
    fc.property(anyCase, anyVisit, ({ text }, draft) => {
      if (recordOf(text, '2086') === undefined) return;
      tried += 1;
      if (addsIt(text, '2086', draft)) added += 1;
    }),
    { numRuns: 120, seed: 20261125 },
  );
  expect(tried).toBeGreaterThan(80);
  expect(added / tried).toBeGreaterThan(0.7);
}, 90_000);

test('any visit into files as people keep them', () => {
  let added = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...keptTexts),
      fc.constantFrom('\n', '\r\n'),
      anyVisit,
      (text, eol, draft) => {
        const number = /^animal: "?(\d+)/m.exec(text)![1]!;
        const plain = { ...draft, found: {} };
        if (addsIt(text.replaceAll('\n', eol), number, plain)) added += 1;
      },
    ),
    { numRuns: 40, seed: 20261125 },
  );
  expect(added).toBeGreaterThan(25);
}, 90_000);
