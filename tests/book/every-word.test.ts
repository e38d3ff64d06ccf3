import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { composeAnnex } from '../../src/book/annex.js';
import { composeBook } from '../../src/book/compose-book.js';
import type { CowSheet } from '../../src/book/cow-sheet.js';
import type { FarmRecord, Practice } from '../../src/record/practice.js';
import {
  found as foundSchema,
  footFinding,
  type Visit,
  visit as visitSchema,
} from '../../src/record/visit.js';
import { untold, type Words, wordsOf } from '../../src/reference/words.js';
import { dayInShort } from '../../src/words/day-and-place.js';
import { textOf } from '../laws/outputs-of-a-day.js';
import { anyTroubledPractice, today as troubledDay } from '../laws/any-trouble.js';
import { plain } from '../words/plain.js';
import { anyBusyFarm, practiceWith, today } from './busy-cows.js';
import { fullFarm, fullPractice } from './full-practice.js';
import { expectedText, type Leaf, leaves } from './recorded-values.js';

/** Lower case and one blank for any: a row begins its sentences with capitals. */
const closeUp = (text: string) => untold(text).replaceAll(/\s+/g, ' ').toLowerCase();

/** The ways a row may say a value: a day near it by day and month. */
function waysOf(words: Words, leaf: Leaf): string[] {
  const said = expectedText(words, leaf);
  if (said === undefined) return [];
  if (leaf.key === 'on-block') return [said, leaf.value === true ? 'on block' : 'off block'];
  const day = String(leaf.value);
  if (!/^\d{4}-\d\d-\d\d$/.test(day)) return [said];
  const month = day.slice(5, 7);
  const short = words.say(`calendar.short-month.${month}`);
  return [said, dayInShort(words, day), said.replace(words.say(`calendar.month.${month}`), short)]; // prettier-ignore
}

const numbers = new Set(['top', 'wall', 'width', 'length']);
const reached = new Set<string>();
const keysSeen = new Set<string>();

/** What a sheet neither says of a visit nor counts among those it leaves to the annex. */
function notSaid(
  words: Words,
  sheet: CowSheet,
  visits: readonly Visit[],
  inAnnex: readonly string[],
): string[] {
  const { rows, lead, shortened = '', columns } = sheet.back;
  const isWhole = (at: number) => rows[at] !== undefined && rows[at].by !== '';
  const whole = rows.filter(({ by }) => by !== '').length;
  const [short, dropped] = [rows.length - whole, visits.length - rows.length];
  if (short > 0) reached.add('shortened');
  if (dropped > 0) reached.add('dropped');
  if (short === 0 && dropped === 0) reached.add('whole');
  if (sheet.banners.length > 1) reached.add('two banners');
  if (sheet.onScreen.story) reached.add('story on screen');
  if (sheet.overleaf.story) reached.add('story overleaf');
  const counts = [
    ...(short > 0 ? [words.say('cow.back.shortened', { count: short })] : []),
    ...(dropped > 0 ? [words.say('cow.back.dropped', { count: dropped })] : []),
  ].filter((count) => !shortened.includes(count));
  const pictures = closeUp(textOf([sheet.pictures, sheet.overleaf.pictures, sheet.onScreen.pictures]));
  const missing = visits.toReversed().flatMap((visit, at) => {
    const row = rows[at];
    const text = closeUp(
      [row?.day, row?.by, ...(row?.cells ?? []), lead, columns.map(({ head }) => head)].join(' | '),
    );
    const annex = closeUp(inAnnex[visits.length - 1 - at]!);
    return leaves(JSON.parse(JSON.stringify(visit)), 'visit', '', {}).flatMap((leaf) => {
      for (const key of leaf.path.matchAll(/[a-z-]+/g)) keysSeen.add(key[0]);
      const full = { ...leaf, path: leaf.path.replace(/^visit/, `animal.visits[${visits.length - 1 - at}]`) };
      const ways = waysOf(words, full).map(closeUp);
      if (ways.length === 0) return [];
      const who = `${sheet.number} ${visit.date} ${leaf.path}: ${ways[0]}`;
      const here = [];
      if (!annex.includes(ways[0]!)) here.push(`annex, ${who}`);
      // A picture is in its strip, or its name does in the annex alone; the row says how many there are.
      const isPicture = leaf.path.includes('.photos');
      const mustSay = isWhole(at)
        ? !isPicture
        : row !== undefined && !row.report && leaf.path.includes('.found') && numbers.has(leaf.key);
      // A plain recheck has no word of its own, a report is grey, as the heading says.
      const isPlain = leaf.path === 'visit.kind' && (leaf.value === 'recheck' || (leaf.value === 'report' && row?.report)); // prettier-ignore
      if (mustSay && !isPlain && !ways.some((way) => text.includes(way))) here.push(`sheet, ${who}`);
      if (isPicture && leaf.key === 'caption' && isWhole(at) && !pictures.includes(ways[0]!) && !annex.includes(ways[0]!)) here.push(`pictures, ${who}`); // prettier-ignore
      return here;
    });
  });
  return [...counts, ...missing];
}

function notSaidOn(practice: Practice, farm: FarmRecord, day: string): string[] {
  const book = plain(composeBook(practice, farm, day));
  const annex = plain(composeAnnex(practice, farm, day, { read: () => undefined }));
  const words = wordsOf(book.language);
  return farm.cases.flatMap(({ slug, animal }) => {
    const id = `animal-${slug}`;
    const sheet = book.cows.find((one) => one.id === id)!;
    const hers = annex.animals.find((one) => one.id === id)!;
    const texts = animal.visits.map((_, at) => textOf([hers.log.visits[at], hers.pictures]));
    return notSaid(words, sheet, animal.visits, texts);
  });
}

test('every word recorded of a visit is on her sheet, or the sheet counts the visit among those it shortens or leaves to the annex, which has it whole', () => {
  fc.assert(
    fc.property(
      fc.constantFrom('A4' as const, 'Letter' as const).chain((paper) => anyBusyFarm(paper, 3)),
      (farm) => {
        expect(notSaidOn(practiceWith(farm), farm, today)).toEqual([]);
      },
    ),
    { seed: 20260616, numRuns: 40, endOnFailure: true },
  );
  expect([...reached].toSorted()).toEqual(['dropped', 'shortened', 'story on screen', 'story overleaf', 'two banners', 'whole']); // prettier-ignore
}, 240_000);

test('the same of whatever trouble an animal came to, and of the record with every key filled', () => {
  fc.assert(
    fc.property(anyTroubledPractice, (practice) => {
      expect(notSaidOn(practice, practice.farms[0]!, troubledDay)).toEqual([]);
    }),
    { seed: 20260616, numRuns: 60, endOnFailure: true },
  );
  for (const [at] of fullFarm.cases[0]!.animal.visits.entries()) {
    const { animal, ...one } = fullFarm.cases[0]!;
    const visits = animal.visits.slice(at, at + 1);
    const farm = { ...fullFarm, cases: [{ ...one, animal: { ...animal, visits } }] };
    expect(notSaidOn({ ...fullPractice, farms: [farm] }, farm, '2026-03-10')).toEqual([]);
  }
  expect(notSaidOn(fullPractice, fullFarm, '2026-03-10')).toEqual([]);
}, 240_000);

test('between them they filled every key of a visit, of a finding and of a foot', () => {
  const keys = [visitSchema, foundSchema, footFinding].flatMap(({ shape }) => Object.keys(shape));
  expect(keys.filter((key) => !keysSeen.has(key))).toEqual([]);
});
