import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readPractice } from '../../src/casefile/read-practice.js';
import type { AnimalReading } from '../../src/note/note-reading.js';
import { noteWords } from '../../src/note/note-words.js';
import { readNote } from '../../src/note/read-note.js';
import type { FarmRecord } from '../../src/record/practice.js';
import type { Lesion } from '../../src/record/lesion.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';

/** Notes of invented people on invented farms, with what a colleague who knows the cows would write down of each. */
interface Voices {
  readonly today: string;
  readonly files: Readonly<Record<string, string>>;
  readonly notes: readonly {
    readonly note: string;
    /** By `farm/animal day`: `found.a.top=24`, `blocks[LH].event=removed`, `found[SU,LH].length=8`. */
    readonly facts: Readonly<Record<string, readonly string[]>>;
    /** `farm/animal day path` or `… path=value`: what must not be written. */
    readonly never: readonly string[];
    /** Words that no key stands for and that must be in the visit all the same. */
    readonly keep: readonly string[];
  }[];
}

const several = new Set(['signs', 'trimmed', 'cut-back', 'event', 'what']);

/** Every value that is at a path of a draft. */
function valuesAt(
  farms: readonly FarmRecord[],
  { draft, declares = {}, farm, animal }: AnimalReading,
  path: string,
): unknown[] {
  const record = farms.find(({ slug }) => slug === farm)?.cases.find(({ slug }) => slug === animal);
  const lesions: Readonly<Record<string, Lesion>> = { ...record?.animal.lesions, ...declares };
  let here: unknown[] = [draft];
  for (const [, key = '', inside] of path.matchAll(/([^.[\]]+)(?:\[([^\]]*)\])?/g)) {
    const filters = (inside ?? '').split(',').filter(Boolean);
    here = here.flatMap((value) => {
      const there = (value as Record<string, unknown> | undefined)?.[key];
      if (there === undefined) return [];
      if (Array.isArray(there))
        return there.filter((entry) => filters.every((one) => Object.values(entry as object).includes(one)));
      if (inside === undefined) return [there];
      return Object.entries(there as object)
        .filter(([name]) => filters.every((one) => Object.values(lesions[name] ?? {}).includes(one)))
        .map(([, found]) => found as unknown);
    });
  }
  return here;
}

function isSame(value: unknown, wanted: string, path: string): boolean {
  if (/^-?[\d.]+$/.test(wanted) && typeof value === 'number') return Math.abs(value - Number(wanted)) < 0.11;
  return path.endsWith('product') ? String(value).includes(wanted) : String(value) === wanted;
}

const plain = (text: string): string => text.toLowerCase().replaceAll(/[^a-z0-9]+/g, ' ');

describe.each([
  ['other-voices.json', 200, 0.95, 0.9],
  // By writers who had not seen the reader: adversarial, and partly not to be understood.
  ['further-voices.json', 600, 0.88, 0.75],
])('notes in other voices: %s', (file, many, understood, unasked) => {
  const voices = JSON.parse(readFileSync(new URL(file, import.meta.url), 'utf8')) as Voices;
  const { practice } = readPractice(caseFilesInMemory(voices.files), 'cases', { today: voices.today });
  const { farms } = practice;
  const context = { today: voices.today, farms, business: practice.business };
  const measure = (change: (note: string) => string) =>
    voices.notes.map(({ note: written, facts, never, keep }) => {
      const note = change(written);
      const { animals } = readNote(note, context);
      const of = (whom: string, day: string): AnimalReading[] =>
        animals.filter(({ farm, animal, date }) => `${farm}/${animal} ${date}` === `${whom} ${day}`);
      const told = Object.entries(facts).flatMap(([where, all]) => {
        const [whom = '', day = ''] = where.split(' ');
        return all.map((fact) => {
          const cut = fact.indexOf('=', fact.lastIndexOf(']') + 1);
          const [path, wanted] = [fact.slice(0, cut), fact.slice(cut + 1)];
          const there = of(whom, day).flatMap((one) => valuesAt(farms, one, path));
          const right = there.some((value) => isSame(value, wanted, path));
          const wrong = !right && there.length > 0 && !several.has(path.split('.').at(-1)!);
          return { says: `${where} ${fact}`, right, wrong };
        });
      });
      const broken = never.filter((one) => {
        const [whom = '', day = '', ...rest] = one.split(' ');
        const [path = '', value] = rest.join(' ').split(/=(?=[^\]]*$)/);
        const there = of(whom, day).flatMap((reading) => valuesAt(farms, reading, path));
        return value === undefined ? there.length > 0 : there.some((found) => isSame(found, value, path));
      });
      const lost = keep.filter(
        (words) => !animals.some((one) => plain(JSON.stringify(one.draft ?? {})).includes(plain(words))),
      );
      return { told, broken, lost, animals };
    });
  const measured = measure((note) => note);
  const facts = measured.flatMap(({ told }) => told);

  test('nothing is written wrongly, and nothing that is denied, meant for later or another cow’s', () => {
    expect(facts.filter(({ wrong }) => wrong).map(({ says }) => says)).toEqual([]);
    expect(measured.flatMap(({ broken }) => broken)).toEqual([]);
  });

  test('words that stand for no key are in the visit', () => {
    expect(measured.flatMap(({ lost }) => lost)).toEqual([]);
  });

  test('of so many facts so many of a hundred are drafted', () => {
    expect(facts.length).toBeGreaterThan(many);
    expect(facts.filter(({ right }) => right).length / facts.length).toBeGreaterThanOrEqual(understood);
  });

  test('so many visits of a hundred need no answer', () => {
    const all = measured.flatMap(({ animals }) => animals);
    expect(all.filter(({ draft, questions }) => draft && questions.length === 0).length / all.length).toBeGreaterThan(unasked); // prettier-ignore
  });

  test('typed with a slip in one long word of three, in small letters, capitals or without commas, nothing more is written wrongly', () => {
    const numbers = new Set(Object.values(noteWords.numbers).flat());
    const told = [3, 5, 7, 11].flatMap((start) => {
      let seed = start;
      const next = (below: number): number => {
        seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
        return Math.floor((seed / 2_147_483_648) * below);
      };
      const slip = (word: string): string => {
        if (numbers.has(word.toLowerCase()) || next(3) > 0) return word;
        const at = 1 + next(word.length - 2);
        const letter = String.fromCodePoint(97 + next(26));
        const ways = [word.slice(0, at) + word.slice(at + 1), word.slice(0, at) + letter + word.slice(at), word.slice(0, at) + letter + word.slice(at + 1), word.slice(0, at) + word[at + 1] + word[at] + word.slice(at + 2)];
        return ways[next(4)]!;
      };
      const whole = [(text: string) => text.toLowerCase(), (text: string) => text.toUpperCase(), (text: string) => text.replaceAll(', ', ' ')][next(3)]!;
      return measure((note) => whole(note.replaceAll(/[a-z]{5,}/gi, slip))).flatMap((one) => one.told);
    });
    const share = (which: 'right' | 'wrong'): number => told.filter((one) => one[which]).length / told.length;
    expect(share('right')).toBeGreaterThan(0.75);
    expect(share('wrong'), told.filter(({ wrong }) => wrong).map(({ says }) => says).join('\n')).toBeLessThan(0.01);
  }, 60_000); // prettier-ignore
});
