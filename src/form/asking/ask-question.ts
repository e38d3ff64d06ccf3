import { readAnswers } from '../../keep/answer/read-answers.js';
import type { Wanted } from '../../casefile/wanted.js';
import { type Question, isAsked } from '../../keep/questions.js';
import { saidAt, type Words } from '../../reference/words.js';
import { bareName } from '../field.js';
import type { Dialogue } from '../../run/dialogue.js';

/** What questions are asked with. */
export interface Asking {
  /** Spans such as `4 weeks` count from this day. */
  readonly date: string;
  readonly words: Words;
  /** A lesion or mark by name, for the reader. */
  readonly nameOf: (name: string) => string;
}

/** A sign typed instead of an answer, what it does, and that the question is then asked again; false: the asked has left. */
export interface Aside {
  readonly sign: string;
  readonly act: () => Promise<boolean>;
}

/** What may be done at a question beside taking its answer. */
export interface Beside {
  readonly aside?: (question: Question) => Aside | undefined;
  /** What is wrong with an answer that could be read. */
  readonly check?: (question: Question, value: unknown) => string | undefined;
  /** What follows an answer taken; false: the asked has left. */
  readonly answered?: (question: Question) => boolean | Promise<boolean>;
}

/** Asks one question after another and gathers the answers; false where the asked has left. */
export async function askAll(
  dialogue: Dialogue,
  questions: readonly Question[],
  asking: Asking,
  draft: Record<string, unknown>,
  beside: Beside = {},
): Promise<boolean> {
  for (const question of questions) {
    if (!isAsked(question, draft)) continue;
    const value = await askQuestion(dialogue, question, asking, beside);
    if (value === left) return false;
    if (value === undefined) continue;
    gather(draft, question.path, value);
    if (beside.answered && !(await beside.answered(question))) return false;
  }
  return true;
}

const left = Symbol('left');

/** The answer; undefined where none is given. */
export async function askQuestion(
  dialogue: Dialogue,
  question: Question,
  asking: Asking,
  { aside, check }: Beside = {},
): Promise<unknown> {
  const { wanted } = question;
  const beside = aside?.(question);
  const read = (typed: string) =>
    readAnswers(wanted, [byItsName(question, typed)], { from: asking.date, byFirstLetters: true });
  for (;;) {
    const typed = await dialogue.line(worded(question, asking), (given) => {
      if (given.trim() === '' || given.trim() === beside?.sign) return undefined;
      const answer = read(given);
      return answer.outcome === 'trouble' ? answer.message : check?.(question, answer.value);
    });
    if (typed === undefined) return left;
    if (typed.trim() === '') return undefined;
    if (beside && typed.trim() === beside.sign) {
      if (await beside.act()) continue;
      return left;
    }
    const answer = read(typed);
    return answer.outcome === 'value' ? answer.value : undefined;
  }
}

/** Whether an answer of `askQuestion` says that the asked has left. */
export function hasLeft(answer: unknown): boolean {
  return answer === left;
}

/** `sole ulcer` for `SU`; what is none of the names stays as it is. */
function byItsName({ called }: Question, typed: string): string {
  const text = typed.trim().toLowerCase();
  const begun = [...(called ?? [])].filter(([, name]) => name.startsWith(text));
  const whole = begun.find(([, name]) => name === text);
  const only = text.length > 3 && begun.length === 1 ? begun[0] : undefined;
  return (whole ?? only)?.[0] ?? typed;
}

/** Under which key of the words a question is worded. */
export function wordingOf(words: Words, { path, use }: Question): string {
  if (use === 'what-more') return 'question.what-more';
  const way = bareName(path.join('.'));
  return saidAt(words, use, `visits.${way}`) ?? `key.${way}.${use}`;
}

function worded(question: Question, { words, nameOf }: Asking): string {
  const { name, wanted, called } = question;
  const asked = words.say(wordingOf(words, question), name === undefined ? {} : { name: nameOf(name) });
  const fitting = wordsIn(wanted).map((word) => [word, called?.get(word)].filter(Boolean).join(' '));
  return fitting.length === 0
    ? asked
    : `${asked} ${words.say('question.words', { words: fitting.join(called ? '; ' : ', ') })}`;
}

function wordsIn(wanted: Wanted): readonly string[] {
  if (wanted.kind === 'list') return wordsIn(wanted.of);
  return wanted.kind === 'word' ? wanted.words : [];
}

/** Puts an answer in: an entry behind those of its list, keys into their group, anything else in the place of what was there. */
function gather(draft: Record<string, unknown>, path: readonly string[], value: unknown): void {
  const [key, ...rest] = path;
  if (key === undefined) return;
  const before = draft[key];
  if (rest.length > 0) {
    gather((draft[key] ??= {}) as Record<string, unknown>, rest, value);
  } else if (Array.isArray(before) && Array.isArray(value)) {
    draft[key] = [...new Set([...(before as unknown[]), ...(value as unknown[])])];
  } else if (isGroup(before) && isGroup(value)) {
    for (const [inner, one] of Object.entries(value)) gather(before, [inner], one);
  } else {
    draft[key] = value;
  }
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
