import type { Wanted } from '../../casefile/wanted.js';
import {
  lesionFoundQuestions,
  lesionQuestions,
  markFoundQuestions,
  markQuestions,
  moreQuestions,
  type Question,
  visitQuestions,
} from '../../keep/questions.js';
import type { Animal } from '../../record/animal.js';
import type { RecordPath } from '../../problem/problem.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { doubtsOfDraft } from '../../record/doubts.js';
import { freeNames } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import { lesionInWords } from '../../words/day-and-place.js';
import type { Dialogue } from '../../run/dialogue.js';
import { askAll, type Asking, askQuestion, type Beside, hasLeft } from './ask-question.js';

/** What the questions of a visit are asked with. */
export interface AskingVisit extends Asking {
  readonly animal: Animal;
  readonly today: CalendarDay;
  /** The farm's other animals. */
  readonly others: readonly Animal[];
  /** What a reading of a lesion's top should show; undefined where nothing is expected. */
  readonly expectedOf: (name: string) => string | undefined;
  /** What is wrong with a picture named as an answer; undefined for a good one. */
  readonly pictureTrouble: (file: string) => string | undefined;
}

/** The visit as answered, without who and when; lesions and marks first met at it stand under `lesions` and `marks`. */
export type AskedVisit = Readonly<Record<string, unknown>>;

/**
 * Asks a visit question by question. The reading is asked for before the expected one is shown; who asks to see it
 * first has that kept as `saw-expected`. `+` at the last question asks after all else a visit may hold.
 *
 * Shape: the answers; undefined where the asked has left
 */
export async function askVisit(dialogue: Dialogue, asking: AskingVisit): Promise<AskedVisit | undefined> {
  const { words } = asking;
  dialogue.show(words.say('question.not-said'));
  const draft: Record<string, unknown> = {};
  const told = new Set<string>();
  const named = { ...asking, nameOf: (name: string) => nameOf(asking, draft, name) };
  const beside: Beside = {
    aside: ({ path, name }) => {
      if (path[0] === 'note') return { sign: '+', act: () => askMore(dialogue, named, draft, beside) };
      if (path.at(-1) !== 'top' || name === undefined) return undefined;
      return { sign: '?', act: () => Promise.resolve(showFirst(dialogue, asking, name, draft)) };
    },
    check: (question, value) => checked(asking, draft, question, value),
    answered: async ({ path, name }) => {
      const isRight = await doubtsAsked(dialogue, asking, draft, told);
      const expected = path.at(-1) === 'top' && name !== undefined && asking.expectedOf(name);
      if (expected) dialogue.show(expected);
      return isRight;
    },
  };
  if (!(await doubtsAsked(dialogue, asking, draft, told))) return undefined;
  return (await askAll(dialogue, visitQuestions(asking.animal), named, draft, beside)) ? draft : undefined;
}

/** Asks about what looks like a slip as soon as it is answered, each once; what would fit is one of the answers. */
async function doubtsAsked(
  dialogue: Dialogue,
  { animal, date, today, others, words }: AskingVisit,
  draft: Record<string, unknown>,
  told: Set<string>,
): Promise<boolean> {
  const { lesions, marks } = draft as Partial<Pick<Animal, 'lesions' | 'marks'>>;
  const known = {
    ...animal,
    lesions: { ...animal.lesions, ...lesions },
    marks: { ...animal.marks, ...marks },
  };
  const visit = { by: '', kind: 'recheck' as const, ...draft, date };
  for (const { message, fits, path } of doubtsOfDraft(known, visit, { today, others })) {
    if (told.has(message)) continue;
    told.add(message);
    const [, , ...inVisit] = path;
    const isInDraft = fits !== undefined && inVisit[0] !== 'date';
    const answer = await dialogue.choose(message, [
      ...(isInDraft ? [{ label: String(fits), value: 'fits' }] : []),
      { label: words.say('question.right-as-it-stands'), value: 'right' },
      { label: words.say('question.leave'), value: 'leave' },
    ]);
    if (answer === undefined || answer === 'leave') return false;
    if (answer === 'fits') putAt(draft, inVisit, fits);
  }
  return true;
}

/** Puts a value in the place of one that is answered. */
function putAt(draft: Record<string, unknown>, path: RecordPath, value: unknown): void {
  const group = path.slice(0, -1).reduce<unknown>((inner, part) => (inner as never)[part], draft);
  (group as Record<string | number, unknown>)[path.at(-1)!] = value;
}

function showFirst(
  dialogue: Dialogue,
  { expectedOf, words }: AskingVisit,
  name: string,
  draft: Record<string, unknown>,
): true {
  const expected = expectedOf(name);
  dialogue.show(expected ?? words.say('question.nothing-expected'));
  if (expected !== undefined) draft['saw-expected'] = true;
  return true;
}

/** Asks what more there is, until there is nothing more; false where the asked has left. */
async function askMore(
  dialogue: Dialogue,
  asking: AskingVisit,
  draft: Record<string, unknown>,
  beside: Beside,
): Promise<boolean> {
  const questions = new Map(moreQuestions().map((question) => [question.path[0]!, question]));
  const wanted: Wanted = { kind: 'word', words: [...questions.keys()] };
  for (;;) {
    const key = await askQuestion(dialogue, { path: [], wanted, use: 'what-more' }, asking);
    if (hasLeft(key)) return false;
    if (typeof key !== 'string') return true;
    const well =
      key === 'lesions' || key === 'marks'
        ? await askFirstMet(dialogue, key, asking, draft, beside)
        : await askAll(dialogue, [questions.get(key)!], asking, draft, beside);
    if (!well) return false;
  }
}

/** A lesion or mark her file does not declare: what it is, then what was found of it. */
async function askFirstMet(
  dialogue: Dialogue,
  key: 'lesions' | 'marks',
  asking: AskingVisit,
  draft: Record<string, unknown>,
  beside: Beside,
): Promise<boolean> {
  const name = freeNames(key, Object.keys({ ...namesIn(asking.animal), ...namesIn(draft) }))[0]!;
  const what = key === 'lesions' ? lesionQuestions(name) : markQuestions(name);
  if (!(await askAll(dialogue, what, asking, draft, beside))) return false;
  const met = (draft[key] as Record<string, { code?: LesionCode }> | undefined)?.[name];
  if (met === undefined) return true;
  const found = met.code ? lesionFoundQuestions(name, met.code) : markFoundQuestions(name);
  return await askAll(dialogue, found, asking, draft, beside);
}

function namesIn({
  lesions = {},
  marks = {},
}: Partial<Pick<Animal, 'lesions' | 'marks'>>): Record<string, unknown> {
  return { ...lesions, ...marks };
}

function nameOf(asking: AskingVisit, draft: Readonly<Record<string, unknown>>, name: string): string {
  const { lesions, marks } = draft as Partial<Pick<Animal, 'lesions' | 'marks'>>;
  const code = lesions?.[name]?.code;
  if (code !== undefined) return `${name}, ${lesionInWords(asking.words, code)}`;
  if (marks?.[name] !== undefined) return asking.words.say('question.mark-name', { name });
  return namesIn(asking.animal)[name] === undefined ? name : asking.nameOf(name);
}

/** What only her case and the disk can tell: a name that is hers, a picture that is there. */
function checked(
  { animal, pictureTrouble, words }: AskingVisit,
  draft: Readonly<Record<string, unknown>>,
  { path }: Question,
  value: unknown,
): string | undefined {
  const [key] = path;
  const known = Object.keys({ ...namesIn(animal), ...namesIn(draft) });
  const said =
    key === 'found' && path.length === 1
      ? Object.keys(value as object)
      : key === 'cut-back'
        ? (value as string[])
        : key === 'products'
          ? (value as { lesion?: string }[]).flatMap(({ lesion }) => lesion ?? [])
          : [];
  const unknown = said.find((name) => !known.includes(name));
  if (unknown !== undefined)
    return words.say('question.no-such-name', { name: unknown, names: known.join(', ') });
  if (key !== 'photos') return undefined;
  return (value as { file?: string }[])
    .map(({ file }) => (file === undefined ? words.say('question.no-file') : pictureTrouble(file)))
    .find((trouble) => trouble !== undefined);
}
