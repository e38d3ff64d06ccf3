import type { z } from 'zod';
import { stepInto } from '../casefile/explain/explain-key.js';
import { animal as animalSchema, type Animal } from '../record/animal.js';
import { type Wanted, wantedBy } from '../casefile/wanted.js';
import { codeOn } from '../record/code-of-lesion.js';
import { type KeyPlace, placesOf } from '../record/key.js';
import { lesion as lesionSchema, mark as markSchema } from '../record/lesion.js';
import {
  type BlockEvent,
  found as foundSchema,
  lastFound,
  visit as visitSchema,
  type WrapEvent,
} from '../record/visit.js';
import type { Claw, Foot, LesionCode, Sign } from '../record/words.js';
import { given } from '../record/given.js';
import { familyOf, type LesionFamily, lesionKinds } from '../reference/lesions.js';

/** One thing to ask of a visit: where its answer goes, what it may be, how it is worded. */
export interface Question {
  /** The key, or keys, in the visit. */
  readonly path: readonly string[];
  /** What the answer may be; of a closed list only the words that fit this lesion. */
  readonly wanted: Wanted;
  /** The key of its wording in the words. */
  readonly use: 'ask' | 'more' | 'what-more' | 'on';
  /** The lesion or mark it is about. */
  readonly name?: string;
  /** Where the one block or wrap on her is, which is meant where an answer does not say. */
  readonly on?: { readonly foot: Foot; readonly claw?: Claw };
  /** What the words of its closed list are called, where those are codes; an answer may be given by these. */
  readonly called?: ReadonlyMap<string, string>;
}

/** The keys of a group that are asked for, in the order of the asking. */
function keysAsked(
  schema: z.core.$ZodType,
  use: 'ask' | 'more',
  fits: (place: KeyPlace) => boolean = () => true,
): string[] {
  const at = (place: KeyPlace): number => Number(place[use] ?? NaN);
  return Object.entries(placesOf(schema))
    .filter(([, place]) => at(place) > 0 && fits(place))
    .toSorted(([, a], [, b]) => at(a) - at(b))
    .map(([key]) => key);
}

/** What is asked of what was found: of a family of lesion, of a mark, or at all. */
export function foundKeys(of?: LesionFamily | 'mark'): string[] {
  return keysAsked(foundSchema, 'ask', (place) => !of || place.of?.split(', ').includes(of) === true);
}

const wantedAt = (path: readonly string[], schema: z.ZodType): Wanted => {
  const wanted = path.reduce<Wanted | undefined>(stepInto, wantedBy(schema));
  if (!wanted) throw new RangeError(`no key ${path.join('.')} in the record`);
  return wanted;
};

/** What to ask of an animal whose case is opened. */
export function animalQuestions(): Question[] {
  return keysAsked(animalSchema, 'ask').map((key) => asked([key], animalSchema));
}

function asked(path: readonly string[], schema: z.ZodType, name?: string): Question {
  return { path, wanted: wantedAt(path, schema), use: 'ask', ...given({ name }) };
}

/** What the codes of lesions are called. */
export const namesOfCodes = new Map<string, string>(
  Object.entries(lesionKinds).map(([code, { name }]) => [code, name]),
);

/** What to ask of a lesion first met, under its name: the code decides whether it is asked for a line. */
export function lesionQuestions(name: string): Question[] {
  return keysAsked(lesionSchema, 'ask').map((key) => ({
    ...asked(['lesions', name, key], animalSchema, name),
    ...(key === 'code' ? { called: namesOfCodes } : {}),
  }));
}

/** What to ask of a mark first met, under its name. */
export function markQuestions(name: string): Question[] {
  return keysAsked(markSchema, 'ask').map((key) => asked(['marks', name, key], animalSchema, name));
}

/**
 * All else a visit may hold, each asked only where it is chosen; `lesions` and `marks` are those first met, which
 * `lesionQuestions` and `markQuestions` ask after.
 */
export function moreQuestions(): Question[] {
  // Lesions and marks, which are the animal's, come before all that is the visit's own.
  return [animalSchema, visitSchema].flatMap((schema) =>
    keysAsked(schema, 'more').map((key) => ({ path: [key], wanted: wantedAt([key], schema), use: 'more' })),
  );
}

/** Asked of every first visit; later, where nothing is unusual, only where more is asked for. */
const rare: ReadonlySet<string> = new Set(['wraps', 'vet']);

/**
 * What to ask at a visit of this animal, in order: the lesions still followed and her marks one by one.
 *
 * The answers, read with `readAnswers`, make a `VisitDraft`. A form asks the same.
 *
 * Checked: tests/keep/questions.test.ts
 */
export function visitQuestions(animal: Animal): Question[] {
  return keysAsked(visitSchema, 'ask').flatMap((key): Question[] => {
    if (key === 'found') return foundQuestions(animal);
    const question = asked([key], visitSchema);
    const [on, ...others] = key === 'blocks' || key === 'wraps' ? fixturesOn(animal, key) : [];
    if (on && others.length === 0) return [{ ...question, use: 'on', on }];
    return on || animal.visits.length === 0 || !rare.has(key) ? [question] : [];
  });
}

/** Where blocks or wraps are on her, by the last word on each place. */
function fixturesOn({ visits }: Animal, key: 'blocks' | 'wraps'): { foot: Foot; claw?: Claw }[] {
  const events = visits.flatMap((visit) => (visit[key] ?? []) as (WrapEvent & Partial<BlockEvent>)[]);
  const last = new Map(events.map((one) => [`${one.foot} ${one.claw}`, one]));
  return [...last.values()]
    .filter(({ event }) => event !== 'removed' && event !== 'lost')
    .map(({ foot, claw }) => ({ foot, ...(claw ? { claw } : {}) }));
}

function foundQuestions(animal: Animal): Question[] {
  const { lesions, marks = {}, visits } = animal;
  return [
    ...Object.entries(lesions)
      .filter(([name]) => isFollowed(animal, name))
      .flatMap(([name, lesion]) => [
        ...lesionFoundQuestions(name, codeOn(name, lesion, visits, visits.length - 1)),
        ...goneQuestion(name, visits.findLast(({ found }) => found?.[name])?.found?.[name]?.signs ?? []),
      ]),
    ...Object.keys(marks).flatMap(markFoundQuestions),
  ];
}

/** Whether signs are gone is asked of those that were there at the last look. */
function goneQuestion(name: string, seen: readonly Sign[]): Question[] {
  const wanted: Wanted = { kind: 'list', of: { kind: 'word', words: seen } };
  return seen.length === 0 ? [] : [{ path: ['found', name, 'gone'], wanted, use: 'ask', name }];
}

/** What to ask of what was found of a lesion, by its kind. */
export function lesionFoundQuestions(name: string, code: LesionCode): Question[] {
  const { family, states } = lesionKinds[code];
  return foundOf(name, foundKeys(family), states);
}

/** What to ask of a mark that was measured. */
export function markFoundQuestions(name: string): Question[] {
  return foundOf(name, foundKeys('mark'));
}

function foundOf(name: string, keys: readonly string[], states?: ReadonlySet<string>): Question[] {
  return keys.map((key) => {
    const question = asked(['found', name, key], visitSchema, name);
    const { wanted } = question;
    if (key !== 'state' || wanted.kind !== 'word' || !states) return question;
    return { ...question, wanted: { kind: 'word', words: wanted.words.filter((word) => states.has(word)) } };
  });
}

function isFollowed({ visits }: Animal, name: string): boolean {
  const last = lastFound(visits, name);
  return last?.state !== 'healed' && last?.joined === undefined;
}

/**
 * Whether a question still makes sense after the answers so far: of a lesion not looked at, or healed, nothing is
 * measured, and how a length was read is asked only of one that was.
 */
export function isAsked({ path }: Question, draft: Readonly<Record<string, unknown>>): boolean {
  const [group = '', name = '', key = ''] = path;
  if (path.length === 1) return true;
  const of = (draft[group] as Readonly<Record<string, Readonly<Record<string, unknown>>>> | undefined)?.[
    name
  ];
  if (group === 'lesions' && key !== 'code') {
    const code = of?.['code'] as LesionCode | undefined;
    return code !== undefined && (key !== 'line' || familyOf(code) === 'wall');
  }
  if (group === 'marks' && key !== 'foot') return of !== undefined;
  if (group !== 'found' || ['state', 'stage', 'distance'].includes(key)) return true;
  if (!of || of['state'] === 'healed' || of['stage'] === 'M0') return false;
  if (key === 'top-found') return of['top'] !== undefined;
  const lengths = ['top', 'wall', 'length', 'width', 'distance'];
  return key !== 'tool' || lengths.some((length) => of[length] !== undefined);
}
