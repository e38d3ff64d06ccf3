import { finishVisit } from './finish-visit.js';
import { headingAt } from './heading-at.js';
import { unwrapMail } from './mail-lines.js';
import type { NoteContext } from './note-context.js';
import { NoteLines } from './note-lines.js';
import type { NoteReading } from './note-reading.js';
import { keepNotUnderstood } from './not-understood.js';
import { phraseAt } from './phrase.js';
import { readStatement } from './read-statement.js';
import { tokensOf } from './token.js';
import { VisitReader } from './visit-reader.js';
import { readingOfWaiting } from './waiting.js';

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
