import { finishVisit } from './finish-visit.js';
import { unwrapMail } from './mail-lines.js';
import type { NoteContext, NoteReading } from './note-reading.js';
import { NoteLines } from './note-lines.js';
import { keepNotUnderstood } from './not-understood.js';
import { phraseAt } from './phrase.js';
import { tokensOf, type Token } from './token.js';
import { VisitReader } from './visit-reader.js';
import { readingOfWaiting } from './waiting.js';
import type { FarmRecord } from '../record/practice.js';
import { beginAnimal } from './begin-animal.js';
import { animalAt, farmAt, visitDay } from './heading.js';
import { nameSaid, placeSaid } from './place-said.js';
import { isFiller, skip, stretchOf, isDoubt, isNegation } from './note-text.js';
import { readName } from './name-of-lesion.js';
import { readNoSign, readStage } from './statement/finding.js';
import { readBareLength } from './statement/length.js';
import { statements } from './statement/statements.js';
import { readPlace } from './subject.js';

/** Kinds that say where or who, and so are not turned round by a `no` before them. */
const notDenied = new Set(['note', 'by', 'at', 'kind', 'recheck']);

/**
 * Reads the statement that begins at a token; undefined where none does.
 *
 * `run`: the words before it that no statement took. Where one of them denies (`not really bruised`), the statement goes
 * with them: only of a sign can the record say that it is not there (`no pus`), and the words are kept.
 */
function readStatement(r: VisitReader, at: number, run: readonly number[]): number | undefined {
  const { tokens } = r.note;
  const phrase = phraseAt(tokens, at);
  const kind = phrase?.kind ?? '';
  const denied = !notDenied.has(kind) && isDenied(tokens, run, kind);
  if (denied && (kind in statements || kind === 'lesion')) return undefined;
  const doubted = run.some((index) => isDoubt(tokens[index]!));
  if (doubted && (kind === 'sign' || kind === 'animal-sign')) return undefined;
  const asked = r.questions.length;
  const unsure = doubted || run.some((index) => isNegation(tokens[index]!));
  const next = readName(r, at) ?? (unsure ? undefined : readNoSign(r, at)) ?? readOther(r, at, phrase);
  if (next !== undefined && r.questions.length > asked) keepWaiting(r, at, next);
  return next;
}

/** A question may be about one word of a statement; the rest of it is shown as waiting, so that nothing goes unseen. */
function keepWaiting(r: VisitReader, at: number, next: number): void {
  const seen = [...r.pieces, ...r.questions];
  const unseen = r.note.tokens
    .slice(at, next)
    .some((token) => !seen.some(({ from, to }) => from <= token.from && token.to <= to));
  if (unseen) r.say(at, next, 'waits for the answer');
}

function readOther(r: VisitReader, at: number, phrase: ReturnType<typeof phraseAt>): number | undefined {
  const { tokens } = r.note;
  const stage = /^m([0-4])?$/.test(tokens[at]!.bare) ? readStage(r, at) : undefined;
  if (stage !== undefined) return stage;
  const length = readBareLength(r, at);
  if (length !== undefined) return length;
  const next = phrase && statements[phrase.kind]?.(r, at, phrase);
  if (next !== undefined) return next;
  return placeSaid(tokens, at) ? readPlace(r, at) : undefined;
}

/**
 * Whether a word of denial among the words before a statement turns it round: `no pus`, `not really bruised`.
 *
 * It reaches the first statement behind it; of signs the whole list, since `no pus, smell or heat` denies all three.
 */
function isDenied(tokens: readonly Token[], run: readonly number[], kind: string): boolean {
  const last = run.findLastIndex((index) => isNegation(tokens[index]!));
  if (last < 0) return false;
  const since = run.slice(last + 1);
  const phrases = since.map((index) => phraseAt(tokens, index)?.kind).filter((one) => one !== undefined);
  const isSign = (one: string): boolean => one === 'sign' || one === 'animal-sign';
  if (phrases.length > 0) return isSign(kind) && phrases.every(isSign);
  return since.every((index) => tokens[index]!.text !== ',');
}

/**
 * A note from the yard read against the records: what it says of each animal, piece by piece, and what is to be asked.
 *
 * Nothing is guessed: what may be one of two things is a question, and what is not understood is kept as it stands.
 *
 * Shape:   the text of a note or of a mail, the practice as it is → one reading an animal and day
 * Error:   never throws on a text
 * Checked: tests/note/sixty-notes.test.ts, tests/note/written-and-read.test.ts
 */
export function readNote(text: string, context: NoteContext): NoteReading {
  const { text: bare, passedOver } = unwrapMail(text);
  const note = { text: bare, tokens: tokensOf(bare) };
  const lines = new NoteLines(note, context);
  for (let at = 0; at < note.tokens.length;) at = step(lines, at);
  lines.flush();
  return {
    animals: lines.animals.map((one) =>
      one instanceof VisitReader ? finishVisit(one, lines.by) : readingOfWaiting(note, one),
    ),
    heading: lines.heading,
    questions: lines.questions,
    passedOver,
  };
}

function step(lines: NoteLines, at: number): number {
  const { tokens } = lines.note;
  const { kind } = tokens[at]!;
  if (kind === 'line' || kind === 'stop') {
    const { current } = lines;
    const isDoubted = tokens[at]!.text === '?' && lines.run.length === 0;
    if (isDoubted && current instanceof VisitReader && current.pieces.length > 0) askDoubted(current, at);
    lines.flush();
    return at + 1;
  }
  const begins = at === 0 || tokens[at - 1]!.kind === 'line' || tokens[at - 1]!.kind === 'stop';
  const next = headingAt(lines, at, begins) ?? bodyAt(lines, at);
  if (next !== undefined && next > at) return next;
  lines.run.push(at);
  return at + 1;
}

function askDoubted(reader: VisitReader, at: number): void {
  reader.ask(at, at + 1, {
    id: 'not-sure',
    ask: 'a question mark: is what stands before it certain?',
    mend: 'take the mark out where it is certain; else put the words after `note:`',
    choices: [{ label: 'it is certain', text: '.' }],
  });
}

function bodyAt(lines: NoteLines, at: number): number | undefined {
  if (lines.current === undefined) return undefined;
  if (!(lines.current instanceof VisitReader)) {
    lines.current.to = at + 1;
    return at + 1;
  }
  const reader = lines.current;
  const words = phraseAt(lines.note.tokens, at);
  // Words that hold one of ours and mean something else (`in heat`) are kept whole.
  if (words?.kind === 'not-ours') {
    for (let index = at; index < words.next; index += 1) lines.run.push(index);
    return words.next;
  }
  const mention = reader.mention && { ...reader.mention };
  const next = readStatement(reader, at, lines.run);
  if (next === undefined) return undefined;
  // Words kept are told with the place that was spoken of before them.
  if (lines.run.length > 0) keepNotUnderstood(reader, lines.run, mention);
  lines.run = [];
  return next;
}

/** The farm, the day, who did the work, an animal's number. */
function headingAt(lines: NoteLines, at: number, begins: boolean): number | undefined {
  const { tokens } = lines.note;
  const fresh = begins || isHeading(lines);
  const farm = farmAt(lines.context, tokens, at);
  if (farm && (fresh || headingFollows(lines, farm.next))) return startFarm(lines, farm.farm, at, farm.next);
  if (begins) {
    const unknown = unknownFarm(lines, at);
    if (unknown !== undefined) return unknown;
  }
  if (begins || lines.current === undefined) {
    const day = visitDay(lines.context, tokens, at);
    if (day && (lines.current === undefined || isAlone(lines, day.next))) {
      lines.flush();
      lines.current = undefined;
      lines.days = day.days;
      lines.say(at, day.next, day.days.join(' or ') || undefined);
      return day.next;
    }
  }
  const animal = animalAt(lines.farmsMeant(), tokens, at, fresh);
  if (animal && (lines.run.length === 0 || !fresh || begins)) return beginAnimal(lines, at, animal);
  if (lines.current !== undefined) return undefined;
  const by = phraseAt(tokens, at);
  const name = by?.kind === 'by' ? nameSaid(tokens, by.next, lines.people) : undefined;
  if (!name) return undefined;
  lines.by = name.name;
  lines.say(at, name.next, `by ${name.name}`);
  return name.next;
}

function isHeading(lines: NoteLines): boolean {
  return lines.current === undefined;
}

/** A day, an animal or the end of the line behind a farm's name make it a heading in the middle of a line too. */
function headingFollows(lines: NoteLines, at: number): boolean {
  const next = skip(lines.note.tokens, at);
  return (
    visitDay(lines.context, lines.note.tokens, next) !== undefined ||
    animalAt(lines.context.farms, lines.note.tokens, next, true) !== undefined
  );
}

function isAlone(lines: NoteLines, at: number): boolean {
  const { tokens } = lines.note;
  const next = skip(tokens, at);
  const kind = tokens[next]?.kind;
  return (
    kind === undefined ||
    kind === 'line' ||
    kind === 'stop' ||
    farmAt(lines.context, tokens, next) !== undefined ||
    animalAt(lines.farmsMeant(), tokens, next, true) !== undefined
  );
}

function startFarm(lines: NoteLines, farm: FarmRecord, at: number, next: number): number {
  lines.flush();
  lines.current = undefined;
  lines.farm = farm;
  lines.say(at, next, `farm ${farm.farm.farm}`);
  return next;
}

/** A line of strange words and a day is the heading of a farm that is not there. */
function unknownFarm(lines: NoteLines, at: number): number | undefined {
  const { tokens } = lines.note;
  let next = at;
  while (tokens[next]?.kind === 'word' && !phraseAt(tokens, next) && !visitDay(lines.context, tokens, next))
    next += 1;
  const words = tokens.slice(at, next);
  if (words.length === 0 || words.length > 4 || words.every(isFiller)) return undefined;
  const day = visitDay(lines.context, tokens, skip(tokens, next));
  if (!day || !isAlone(lines, day.next)) return undefined;
  lines.flush();
  lines.current = undefined;
  lines.farm = 'not known';
  const stretch = stretchOf(lines.note, at, next);
  lines.questions.push({
    ...stretch,
    id: 'unknown-farm',
    ask: `there is no farm called ${stretch.text}`,
    mend: 'write the farm’s name as its file has it',
    replace: { from: stretch.from, to: stretch.to },
    choices: lines.context.farms.map((farm) => ({ label: farm.farm.farm, text: farm.farm.farm })),
  });
  return next;
}
