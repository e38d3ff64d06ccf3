import { z } from 'zod';
import { stepInto } from '../casefile/explain/explain-key.js';
import { animal as animalSchema, type Animal } from '../record/animal.js';
import { type Wanted, wantedBy } from '../casefile/wanted.js';
import { codeOn } from '../record/code-of-lesion.js';
import { visit as visitSchema } from '../record/visit.js';
import type { LesionCode, Sign } from '../record/words.js';
import { familyOf, lesionFamilies, lesionKinds } from '../reference/lesions.js';
import { readShared } from '../reference/read-shared.js';

/** One thing to ask of a visit: where its answer goes, what it may be, how it is worded. */
export interface Question {
  /** The key, or keys, in the visit. */
  readonly path: readonly string[];
  /** What the answer may be; of a closed list only the words that fit this lesion. */
  readonly wanted: Wanted;
  /** The key of its wording, under `question.`. */
  readonly says: string;
  /** The lesion or mark it is about. */
  readonly name?: string;
  /** What the words of its closed list are called, where those are codes; an answer may be given by these. */
  readonly called?: ReadonlyMap<string, string>;
}

const order = readShared(
  'questions.json',
  z.strictObject({
    animal: z.array(z.string()),
    lesion: z.array(z.string()),
    visit: z.array(z.string()),
    found: z.record(z.enum(lesionFamilies), z.array(z.string())),
    mark: z.array(z.string()),
    'mark first met': z.array(z.string()),
    /** What is asked only of who wants to add more. */
    more: z.array(z.string()),
  }),
);

const wantedAt = (path: readonly string[], schema: z.ZodType = visitSchema): Wanted => {
  const wanted = path.reduce<Wanted | undefined>(stepInto, wantedBy(schema));
  if (!wanted) throw new RangeError(`no key ${path.join('.')} in the record`);
  return wanted;
};

/** What to ask of an animal whose case is opened. */
export function animalQuestions(): Question[] {
  return order.animal.map((key) => ({ path: [key], wanted: wantedAt([key], animalSchema), says: key }));
}

const namesOfCodes = new Map<string, string>(
  Object.entries(lesionKinds).map(([code, { name }]) => [code, name]),
);

/** What to ask of a lesion first met, under its name: the code decides whether it is asked for a line. */
export function lesionQuestions(name: string): Question[] {
  return order.lesion.map((key) => {
    const path = ['lesions', name, key];
    const question = { path, wanted: wantedAt(path, animalSchema), says: `lesion.${key}`, name };
    return key === 'code' ? { ...question, called: namesOfCodes } : question;
  });
}

/** What to ask of a mark first met, under its name. */
export function markQuestions(name: string): Question[] {
  return order['mark first met'].map((key) => {
    const path = ['marks', name, key];
    return { path, wanted: wantedAt(path, animalSchema), says: `mark.${key}`, name };
  });
}

/**
 * All else a visit may hold, each asked only where it is chosen; `lesions` and `marks` are those first met, which
 * `lesionQuestions` and `markQuestions` ask after.
 */
export function moreQuestions(): Question[] {
  return order.more.map((key) => {
    const own = key === 'lesions' || key === 'marks';
    return { path: [key], wanted: wantedAt([key], own ? animalSchema : visitSchema), says: `more.${key}` };
  });
}

/**
 * What to ask at a visit of this animal, in order: the lesions still followed and her marks one by one.
 *
 * The answers, read with `readAnswers`, make a `VisitDraft`. A form asks the same.
 *
 * Checked: tests/keep/questions.test.ts
 */
export function visitQuestions(animal: Animal): Question[] {
  return order.visit.flatMap((key) =>
    key === 'found' ? foundQuestions(animal) : [{ path: [key], wanted: wantedAt([key]), says: key }],
  );
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
  return seen.length === 0 ? [] : [{ path: ['found', name, 'gone'], wanted, says: 'found.gone', name }];
}

/** What to ask of what was found of a lesion, by its kind. */
export function lesionFoundQuestions(name: string, code: LesionCode): Question[] {
  const { family, states } = lesionKinds[code];
  return foundOf(name, order.found[family], states);
}

/** What to ask of a mark that was measured. */
export function markFoundQuestions(name: string): Question[] {
  return foundOf(name, order.mark);
}

function foundOf(name: string, keys: readonly string[], states?: ReadonlySet<string>): Question[] {
  return keys.map((key) => {
    const wanted = wantedAt(['found', name, key]);
    const fits = key === 'state' && wanted.kind === 'word' && states;
    return {
      path: ['found', name, key],
      wanted: fits ? { kind: 'word', words: wanted.words.filter((word) => states.has(word)) } : wanted,
      says: `found.${key}`,
      name,
    };
  });
}

function isFollowed({ visits }: Animal, name: string): boolean {
  const last = visits.findLast(({ found }) => found?.[name]?.state ?? found?.[name]?.stage)?.found?.[name];
  return last?.state !== 'healed' && last?.joined === undefined;
}

/**
 * Whether a question still makes sense after the answers so far: of a lesion not looked at, or healed, nothing is
 * measured, and how a length was read is asked only of one that was.
 */
export function isAsked({ path }: Question, draft: Readonly<Record<string, unknown>>): boolean {
  const [group, name = '', key = ''] = path;
  if (path.length === 1) return true;
  if (group === 'lesions' && key !== 'code') {
    const { code } = (draft['lesions'] as Record<string, { code?: LesionCode }> | undefined)?.[name] ?? {};
    return code !== undefined && (key !== 'line' || familyOf(code) === 'wall');
  }
  if (group === 'marks' && key !== 'foot')
    return (draft['marks'] as Record<string, object> | undefined)?.[name] !== undefined;
  if (group !== 'found' || ['state', 'stage', 'distance'].includes(key)) return true;
  const found = (draft['found'] as Record<string, Record<string, unknown>> | undefined)?.[name];
  if (!found || found['state'] === 'healed' || found['stage'] === 'M0') return false;
  if (key === 'top-found') return found['top'] !== undefined;
  const lengths = ['top', 'wall', 'length', 'width', 'distance'];
  return key !== 'tool' || lengths.some((length) => found[length] !== undefined);
}
