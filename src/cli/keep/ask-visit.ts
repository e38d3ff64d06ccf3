import type { Wanted } from '../../casefile/wanted.js';
import { oneOf } from '../../keep/answer/read-answer.js';
import { readAnswers } from '../../keep/answer/read-answers.js';
import { type Question, isAsked, visitQuestions } from '../../keep/questions.js';
import type { Animal } from '../../record/animal.js';
import type { Words } from '../../words/words.js';
import type { Dialogue } from '../dialogue.js';

/** What the questions are asked with. */
export interface AskingVisit {
  readonly animal: Animal;
  readonly date: string;
  readonly words: Words;
  /** A lesion or mark by name, for the reader. */
  readonly nameOf: (name: string) => string;
  /** What a reading of a lesion's top should show; undefined where nothing is expected. */
  readonly expectedOf: (name: string) => string | undefined;
}

/**
 * Asks a visit question by question. The reading is asked for before the expected one is shown; who asks to see it
 * first has that kept as `saw-expected`.
 *
 * Shape: the visit as answered, without who and when; undefined where the asked has left
 */
export async function askVisit(
  dialogue: Dialogue,
  asking: AskingVisit,
): Promise<Record<string, unknown> | undefined> {
  dialogue.show(asking.words.say('question.not-said'));
  return await askAll(dialogue, visitQuestions(asking.animal), asking, {});
}

/** Asks one question after another and gathers the answers; undefined where the asked has left. */
export async function askAll(
  dialogue: Dialogue,
  questions: readonly Question[],
  asking: Omit<AskingVisit, 'animal'>,
  draft: Record<string, unknown>,
): Promise<Record<string, unknown> | undefined> {
  for (const question of questions) {
    if (!isAsked(question, draft)) continue;
    const answered = await askOne(dialogue, question, asking, draft);
    if (answered === undefined) return undefined;
  }
  return draft;
}

async function askOne(
  dialogue: Dialogue,
  question: Question,
  asking: Omit<AskingVisit, 'animal'>,
  draft: Record<string, unknown>,
): Promise<true | undefined> {
  const { path, wanted, name } = question;
  const isTop = path.at(-1) === 'top' && name !== undefined;
  for (;;) {
    const typed = await dialogue.line(worded(question, asking), (given) =>
      given.trim() === '' || (isTop && given.trim() === '?') ? undefined : wrongWith(given, wanted, asking),
    );
    if (typed === undefined) return undefined;
    if (typed.trim() === '') return true;
    const expected = isTop ? asking.expectedOf(name) : undefined;
    if (isTop && typed.trim() === '?') {
      dialogue.show(expected ?? asking.words.say('question.nothing-expected'));
      if (expected !== undefined) draft['saw-expected'] = true;
      continue;
    }
    const read = readAnswers(wanted, [whole(typed, wanted)], { from: asking.date });
    if (read.outcome === 'value') put(draft, path, read.value);
    if (expected !== undefined) dialogue.show(expected);
    return true;
  }
}

function worded(
  { says, name, wanted }: Question,
  { words, nameOf }: Pick<AskingVisit, 'words' | 'nameOf'>,
): string {
  const asked = words.say(`question.${says}`, name === undefined ? {} : { name: nameOf(name) });
  const fitting = wordsIn(wanted);
  return fitting.length === 0
    ? asked
    : `${asked} ${words.say('question.words', { words: fitting.join(', ') })}`;
}

function wrongWith(
  typed: string,
  wanted: Wanted,
  { words, date }: Pick<AskingVisit, 'words' | 'date'>,
): string | undefined {
  for (const part of typed.split(',')) {
    const several = beginning(part, wordsIn(wanted));
    if (several.length > 1)
      return words.say('question.several-begin', { typed: part.trim(), words: oneOf(several) });
  }
  const read = readAnswers(wanted, [whole(typed, wanted)], { from: date });
  return read.outcome === 'trouble' ? read.message : undefined;
}

/** Words of a closed list may be typed by their first letters. */
function whole(typed: string, wanted: Wanted): string {
  const fitting = wordsIn(wanted);
  if (fitting.length === 0) return typed;
  return typed
    .split(',')
    .map((part) => {
      const [only, ...more] = beginning(part, fitting);
      return only !== undefined && more.length === 0 ? only : part;
    })
    .join(',');
}

function beginning(part: string, fitting: readonly string[]): string[] {
  const start = part.trim().toLowerCase();
  const same = fitting.find((word) => word.toLowerCase() === start);
  return same === undefined ? fitting.filter((word) => word.toLowerCase().startsWith(start)) : [same];
}

function wordsIn(wanted: Wanted): readonly string[] {
  if (wanted.kind === 'list') return wordsIn(wanted.of);
  return wanted.kind === 'word' ? wanted.words : [];
}

function put(draft: Record<string, unknown>, path: readonly string[], value: unknown): void {
  let group = draft;
  for (const key of path.slice(0, -1)) group = (group[key] ??= {}) as Record<string, unknown>;
  const last = path.at(-1);
  if (last !== undefined) group[last] = value;
}
