import { readAnswers } from '../../keep/answer/read-answers.js';
import type { Answer, Speech } from '../../keep/answer/read-answer.js';
import type { Wanted } from '../../casefile/wanted.js';
import { type Question, isAsked, namesOfCodes } from '../../keep/questions.js';
import { terminal } from '../../problem/message.js';
import { type CalendarDay, calendarDay } from '../../record/calendar-day.js';
import type { GaitScaleFacts } from '../../reference/scales.js';
import { saidAt, type Words } from '../../reference/words.js';
import type { Dialogue } from '../../run/dialogue.js';
import { WrongUse } from '../../run/exit-code.js';
import { dayInWords } from '../../words/day-and-place.js';
import { bareName } from '../field.js';
import { type DatesOf, speechOn } from './as-said.js';

/** What questions are asked with. */
export interface Asking {
  /** Spans such as `4 weeks` count from this day. */
  readonly date: string;
  readonly words: Words;
  /** A lesion or mark by name, for the reader. */
  readonly nameOf: (name: string) => string;
  /** On which her walk is scored; undefined where the farm declares none. */
  readonly scale?: GaitScaleFacts | undefined;
}

/** What may be done at a question beside taking its answer. */
export interface Beside {
  /** A sign typed instead of an answer, and what it does; the question is then asked again. */
  readonly aside?: (question: Question) => { readonly sign: string; readonly act: () => void } | undefined;
  /** Whether a question need not be asked after the answers so far. */
  readonly skips?: (question: Question) => boolean;
  /** What is wrong with an answer that could be read. */
  readonly check?: (question: Question, value: unknown) => string | undefined;
  /** What follows an answer taken; `isNew`: just now, and not before going back. */
  readonly answered?: (question: Question, isNew: boolean) => Promise<void>;
}

/** Thrown to begin the questions anew: what is answered by then is not asked again. */
const anew = new Error('asked anew');

interface Given {
  readonly question: Question;
  readonly typed: string;
  readonly value: unknown;
  /** The sign beside the question was typed before the answer. */
  readonly aside: boolean;
}

/**
 * Questions asked one after another, with a way back: each step back, and each answer put right, goes through the questions
 * from the first and asks only those without an answer.
 *
 * Checked: tests/form/asking/ask-visit.test.ts
 */
export class Interview {
  readonly #dialogue: Dialogue;
  readonly #speech: Speech;
  readonly #given = new Map<string, Given>();
  readonly #undone = new Map<string, Given>();
  readonly #shown = new Set<string>();
  readonly #decided = new Map<string, string>();
  #met: string[] = [];
  soFar: () => string = () => '';

  private constructor(dialogue: Dialogue, today: CalendarDay, dates: DatesOf) {
    this.#dialogue = dialogue;
    this.#speech = speechOn(today, dates);
  }

  /** Goes through questions until all are answered. Error: WrongUse where the asked has left */
  static async of<T>(
    dialogue: Dialogue,
    today: CalendarDay,
    dates: DatesOf,
    questions: (interview: Interview) => Promise<T>,
  ): Promise<T> {
    const interview = new Interview(dialogue, today, dates);
    for (;;) {
      interview.#met = [];
      try {
        return await questions(interview);
      } catch (error) {
        if (error !== anew) throw error;
      }
    }
  }

  show(text: string): void {
    this.#dialogue.show(text);
  }

  /** Shows a text, once however often its place is passed. */
  showOnce(text: string): void {
    if (!this.#shown.has(text)) this.show(text);
    this.#shown.add(text);
  }

  /** One of several ways on. Error: WrongUse where none is taken */
  async choose(
    message: string,
    choices: readonly { readonly label: string; readonly value: string }[],
  ): Promise<string> {
    return (await this.#dialogue.choose(message, choices)) ?? this.leave();
  }

  /** The same of something decided once: it is not asked again. */
  async decided(...[message, choices]: Parameters<Interview['choose']>): Promise<string> {
    const choice = this.#decided.get(message) ?? (await this.choose(message, choices));
    if (choice !== 'again') this.#decided.set(message, choice);
    return choice;
  }

  instead(question: Question, value: unknown): void {
    for (const [key, given] of this.#given)
      if (given.question === question) this.#given.set(key, { ...given, typed: String(value), value });
  }

  /** Error: WrongUse, with what is answered by then, so that it need not be typed again */
  leave(): never {
    const text = this.soFar();
    throw new WrongUse(text === '' ? terminal('asking.left') : terminal('asking.left-answered', { text }));
  }

  /** The questions met so far, in order, with what was typed. */
  get answers(): readonly Pick<Given, 'question' | 'typed' | 'value'>[] {
    return this.#met.flatMap((key) => this.#given.get(key) ?? []);
  }

  /** Asks one of the questions met again, and those alone that its answer brings. */
  again(question: Question): never {
    this.#undo(this.#met.findLast((key) => this.#given.get(key)?.question === question));
    throw anew;
  }

  #undo(key: string | undefined): void {
    const given = key === undefined ? undefined : this.#given.get(key);
    if (!given) return;
    this.#undone.set(key!, given);
    this.#given.delete(key!);
  }

  async askAll(
    questions: readonly Question[],
    asking: Asking,
    draft: Record<string, unknown>,
    beside: Beside = {},
  ): Promise<void> {
    for (const question of questions) {
      if (!isAsked(question, draft) || beside.skips?.(question)) continue;
      const before = this.#given.size;
      const value = await this.ask(question, asking, beside);
      if (value === undefined) continue;
      gather(draft, question.path, value);
      await beside.answered?.(question, this.#given.size > before);
    }
  }

  /** The answer; undefined where none is given. */
  async ask(question: Question, asking: Asking, { aside, check }: Beside = {}): Promise<unknown> {
    const name = [question.use, ...question.path].join('.');
    const key = `${name} ${this.#met.filter((one) => one.startsWith(`${name} `)).length}`;
    const beside = aside?.(question);
    const given = this.#given.get(key);
    this.#met.push(key);
    if (given) {
      if (given.aside) beside?.act();
      return given.value;
    }
    const told = this.#met.length > 1 ? undefined : 'question.first';
    const read = (typed: string) =>
      onHer(
        question,
        readAnswers(question.wanted, [byItsName(question, typed)], {
          from: asking.date,
          byFirstLetters: true,
          speech: this.#speech,
        }),
      );
    let before = this.#undone.get(key)?.typed ?? '';
    for (let seen = false; ;) {
      const typed = await this.#dialogue.line(
        worded(question, asking),
        (line) => {
          const text = line.trim();
          if (isBack(text)) return told && asking.words.say(told);
          if (saysNone(text, question) || text === beside?.sign) return undefined;
          const answer = read(text);
          if (answer.outcome === 'value') return check?.(question, answer.value);
          return answer.meant ? undefined : answer.message;
        },
        before,
      );
      const text = typed?.trim() ?? this.leave();
      if (isBack(text)) {
        this.#undo(this.#met.at(-2));
        throw anew;
      }
      if (text !== '' && text === beside?.sign) {
        beside.act();
        seen = true;
        continue;
      }
      const answer = saysNone(text, question) ? undefined : read(text);
      if (answer?.outcome === 'trouble' && answer.meant) {
        before = await this.#meant(text, answer.message, answer.meant, asking);
        const wrong = read(before);
        if (wrong.outcome !== 'value' || check?.(question, wrong.value) !== undefined) continue;
        this.#given.set(key, { question, typed: before, value: wrong.value, aside: seen });
        return wrong.value;
      }
      const value = answer?.outcome === 'value' ? answer.value : undefined;
      this.#given.set(key, { question, typed: text, value, aside: seen });
      return value;
    }
  }

  /** What was typed, with the one of several things that is meant in the place of what may be either. */
  async #meant(
    typed: string,
    message: string,
    { part, ways }: { readonly part: string; readonly ways: readonly string[] },
    { words }: Asking,
  ): Promise<string> {
    const labelOf = (way: string): string =>
      calendarDay.safeParse(way).success ? dayInWords(words, way) : (namesOfCodes.get(way) ?? way);
    const way = await this.choose(
      message,
      ways.map((one) => ({ label: labelOf(one), value: one })),
    );
    const at = typed.toLowerCase().indexOf(part.toLowerCase());
    return at < 0 ? way : typed.slice(0, at) + way + typed.slice(at + part.length);
  }
}

/** A stroke, and of a list `none`, leaves the answer out as Enter does. */
function saysNone(typed: string, { wanted }: Question): boolean {
  return (
    typed === '' || typed === '-' || (wanted.kind === 'list' && /^(?:no|none|nothing|nil)$/i.test(typed))
  );
}

/** The word that goes back, which the key for it types too. */
export function isBack(typed: string): boolean {
  return typed.trim().toLowerCase() === 'back';
}

/** An event of a block or wrap that does not say where it is, is of the one on her. */
function onHer({ on }: Question, answer: Answer): Answer {
  if (!on || answer.outcome !== 'value') return answer;
  const events = answer.value as readonly Readonly<Record<string, unknown>>[];
  return { ...answer, value: events.map((one) => ('foot' in one ? one : { ...on, ...one })) };
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
  return (use !== 'on' && saidAt(words, use, `visits.${way}`)) || `key.${way}.${use}`;
}

function worded(question: Question, { words, nameOf, scale }: Asking): string {
  if (scale && question.path[0] === 'gait') {
    const { lowest, highest } = scale;
    return words.say('question.gait', { lowest, highest });
  }
  const { name, wanted, called, on } = question;
  const where = Object.values(on ?? {}).join(' ');
  const asked = words.say(
    wordingOf(words, question),
    name === undefined ? { where } : { name: nameOf(name), where },
  );
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
export function gather(draft: Record<string, unknown>, path: readonly string[], value: unknown): void {
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
