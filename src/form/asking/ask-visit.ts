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
import type { Words } from '../../reference/words.js';
import { type Asking, type Beside, gather, type Interview } from './ask-question.js';

/** What the questions of a visit are asked with. */
export interface AskingVisit extends Asking {
  readonly animal: Animal;
  readonly today: CalendarDay;
  readonly others: readonly Animal[];
  /** What a reading of a lesion's top should show; undefined where nothing is expected. */
  readonly expectedOf: (name: string) => string | undefined;
  /** What is wrong with a picture named as an answer; undefined for a good one. */
  readonly pictureTrouble: (file: string) => string | undefined;
  readonly wouldBe: WouldBe;
}

/** What the answers so far come to: as her file would hold them, and the errors they would bring, with paths as in an answer. */
export type WouldBe = (draft: AskedVisit) => {
  readonly text: string;
  readonly errors: readonly { readonly message: string; readonly path: RecordPath }[];
};

/** The visit as answered, without by whom and what kind; lesions and marks first met at it are under `lesions` and `marks`. */
export type AskedVisit = Readonly<Record<string, unknown>>;

/**
 * Asks a visit question by question, each answer checked against the record at once, and shows it before it is written. The
 * reading is asked for before the expected one is shown; who asks to see it first has that kept as `saw-expected`. `+` at
 * the last question asks after all else a visit may hold.
 *
 * Error:   WrongUse where the asked has left
 * Checked: tests/form/asking/ask-visit.test.ts
 */
export async function askVisit(interview: Interview, given: AskingVisit): Promise<AskedVisit> {
  const asking = { ...given, wouldBe: lastRemembered(given.wouldBe) };
  const { words } = asking;
  const draft: Record<string, unknown> = {};
  interview.showOnce(words.say('question.not-said'));
  interview.soFar = () => (Object.keys(draft).length === 0 ? '' : asking.wouldBe(draft).text);
  const named = { ...asking, nameOf: (name: string) => nameOf(asking, draft, name) };
  const beside: Beside = {
    aside: ({ path, name }) =>
      path.at(-1) === 'top' && name !== undefined
        ? { sign: '?', act: () => showFirst(interview, asking, name, draft) }
        : undefined,
    // No word on pain relief is a gap in the record only where she is lame.
    skips: ({ path, use }) =>
      use === 'ask' &&
      path[0] === 'pain-relief' &&
      asking.animal.visits.length > 0 &&
      !(Number(draft['gait'] ?? 0) >= (asking.scale?.lameFrom ?? 0)),
    check: (question, value) => checked(asking, draft, question, value),
    answered: async (question, isNew) => {
      if (isNew) await errorsAsked(interview, named, draft, question);
      await doubtsAsked(interview, asking, draft, question);
      const { path, name } = question;
      const expected = path.at(-1) === 'top' && name !== undefined && asking.expectedOf(name);
      if (expected) interview.showOnce(expected);
    },
  };
  await doubtsAsked(interview, asking, draft);
  const questions = visitQuestions(asking.animal);
  const isNote = ({ path }: Question): boolean => path[0] === 'note';
  await interview.askAll(questions.filter((one) => !isNote(one)), named, draft, beside); // prettier-ignore
  const note = questions.find(isNote)!;
  for (;;) {
    const said = await interview.ask(note, named);
    if (said !== '+') {
      if (said !== undefined) draft['note'] = said;
      break;
    }
    await askMore(interview, named, draft, beside);
  }
  return draft;
}

/** An answer is looked at as it is typed and again once it is taken: the records are read once. */
function lastRemembered(wouldBe: WouldBe): WouldBe {
  let last: { readonly of: string; readonly is: ReturnType<WouldBe> } | undefined;
  return (draft) => {
    const of = JSON.stringify(draft);
    last = last?.of === of ? last : { of, is: wouldBe(draft) };
    return last.is;
  };
}

/** Shows what would be written, until it is to be written: one answer after another may be put right before. */
export async function lastLook(
  interview: Interview,
  { wouldBe, words }: Pick<AskingVisit, 'wouldBe' | 'words'>,
  draft: AskedVisit,
): Promise<void> {
  const { text, errors } = wouldBe(draft);
  interview.show([text, ...errors.map(({ message }) => message)].join('\n'));
  const wrong = interview.answers.filter(({ question }) =>
    errors.some(({ path }) => isWithin(path, question)),
  );
  const choice = await interview.choose(words.say(errors.length > 0 ? 'question.would-be-wrong' : 'question.write-this'), [
    ...(errors.length > 0 ? [] : [{ label: words.say('question.write'), value: 'write' }]),
    ...wrong.map((one, at) => ({ label: answerInWords(words, one), value: String(at) })),
    { label: words.say('question.change'), value: 'change' },
    { label: words.say('question.leave'), value: 'leave' },
  ]); // prettier-ignore
  if (choice === 'write') return;
  if (choice === 'leave') interview.leave();
  if (choice !== 'change') interview.again(wrong[Number(choice)]!.question);
  const answers = interview.answers.filter(
    ({ question: { use }, typed }) => use !== 'what-more' && typed !== '+',
  );
  const which = await interview.choose(words.say('question.which'), [
    ...answers.map((one, at) => ({ label: answerInWords(words, one), value: String(at) })),
    { label: words.say('question.none'), value: 'none' },
  ]);
  if (which === 'none') return await lastLook(interview, { wouldBe, words }, draft);
  interview.again(answers[Number(which)]!.question);
}

/** Such as `a top: 21`. */
function answerInWords(words: Words, { question, typed }: Interview['answers'][number]): string {
  const key = question.path.filter((part) => !['found', 'lesions', 'marks'].includes(part)).join(' ');
  return words.say(typed === '' ? 'question.not-answered' : 'question.answered', { key, answer: typed });
}

function isWithin(path: RecordPath, { path: of }: Pick<Question, 'path'>): boolean {
  return of.length > 0 && of.every((part, at) => path[at] === part);
}

/** What an answer makes wrong of another: one of the two is asked again. */
async function errorsAsked(
  interview: Interview,
  { wouldBe, words }: AskingVisit,
  draft: AskedVisit,
  question: Question,
): Promise<void> {
  const others = interview.answers.filter((one) => one.question !== question && one.value !== undefined);
  for (const { message, path } of wouldBe(draft).errors) {
    const other = others.find((one) => isWithin(path, one.question));
    const own = interview.answers.find((one) => one.question === question);
    if (!other || !own) continue;
    const choice = await interview.choose(message, [
      { label: answerInWords(words, own), value: 'own' },
      { label: answerInWords(words, other), value: 'other' },
      { label: words.say('question.leave'), value: 'leave' },
    ]);
    if (choice === 'leave') interview.leave();
    interview.again((choice === 'own' ? own : other).question);
  }
}

/** Asks about what looks like a slip as soon as it is answered, each once; what would fit is one of the answers. */
async function doubtsAsked(
  interview: Interview,
  { animal, date, today, others, words }: AskingVisit,
  draft: Record<string, unknown>,
  question?: Question,
): Promise<void> {
  const { lesions, marks } = draft as Partial<Pick<Animal, 'lesions' | 'marks'>>;
  const known = {
    ...animal,
    lesions: { ...animal.lesions, ...lesions },
    marks: { ...animal.marks, ...marks },
  };
  const visit = { by: '', kind: 'recheck' as const, ...draft, date };
  for (const { message, fits, path } of doubtsOfDraft(known, visit, { today, others })) {
    const [, , ...inVisit] = path;
    const answered = interview.answers.find((one) => isWithin(inVisit, one.question));
    const isInDraft = fits !== undefined && inVisit[0] !== 'date';
    const answer = await interview.decided(message, [
      ...(isInDraft ? [{ label: String(fits), value: 'fits' }] : []),
      { label: words.say('question.right-as-it-stands'), value: 'right' },
      ...(question && answered ? [{ label: words.say('question.answer-again'), value: 'again' }] : []),
      { label: words.say('question.leave'), value: 'leave' },
    ]);
    if (answer === 'leave') interview.leave();
    if (answer === 'again') interview.again(answered!.question);
    if (answer === 'fits') {
      putAt(draft, inVisit, fits);
      if (answered?.question.path.length === inVisit.length) interview.instead(answered.question, fits!);
    }
  }
}

function putAt(draft: Record<string, unknown>, path: RecordPath, value: unknown): void {
  const group = path.slice(0, -1).reduce<unknown>((inner, part) => (inner as never)[part], draft);
  (group as Record<string | number, unknown>)[path.at(-1)!] = value;
}

function showFirst(
  interview: Interview,
  { expectedOf, words }: AskingVisit,
  name: string,
  draft: Record<string, unknown>,
): void {
  const expected = expectedOf(name);
  interview.showOnce(expected ?? words.say('question.nothing-expected'));
  if (expected !== undefined) draft['saw-expected'] = true;
}

async function askMore(
  interview: Interview,
  asking: AskingVisit,
  draft: Record<string, unknown>,
  beside: Beside,
): Promise<void> {
  const questions = new Map(moreQuestions().map((question) => [question.path[0]!, question]));
  const wanted: Wanted = { kind: 'word', words: [...questions.keys()] };
  for (;;) {
    const key = await interview.ask({ path: [], wanted, use: 'what-more' }, asking);
    if (typeof key !== 'string') return;
    if (key === 'lesions' || key === 'marks') await askFirstMet(interview, key, asking, draft, beside);
    else await interview.askAll([questions.get(key)!], asking, draft, beside);
  }
}

/** A lesion or mark her file does not declare: what it is, then what was found of it. */
async function askFirstMet(
  interview: Interview,
  key: 'lesions' | 'marks',
  asking: AskingVisit,
  draft: Record<string, unknown>,
  beside: Beside,
): Promise<void> {
  const name = freeNames(key, Object.keys({ ...namesIn(asking.animal), ...namesIn(draft) }))[0]!;
  const what = key === 'lesions' ? lesionQuestions(name) : markQuestions(name);
  await interview.askAll(what, asking, draft, beside);
  const met = (draft[key] as Record<string, { code?: LesionCode }> | undefined)?.[name];
  if (met === undefined) return;
  const found = met.code ? lesionFoundQuestions(name, met.code) : markFoundQuestions(name);
  await interview.askAll(found, asking, draft, beside);
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

/** What only her case and the disk can tell: a name that is hers, a picture that is there, what the record would bear. */
function checked(
  { animal, pictureTrouble, words, wouldBe }: AskingVisit,
  draft: AskedVisit,
  question: Question,
  value: unknown,
): string | undefined {
  const { path } = question;
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
  const pictures = key === 'photos' ? (value as { file?: string }[]) : [];
  const trouble = pictures
    .map(({ file }) => (file === undefined ? words.say('question.no-file') : pictureTrouble(file)))
    .find((one) => one !== undefined);
  const as = structuredClone(draft) as Record<string, unknown>;
  gather(as, path, value);
  return trouble ?? wouldBe(as).errors.find((one) => isWithin(one.path, question))?.message;
}
