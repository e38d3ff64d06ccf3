import type { z } from 'zod';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Lesion } from '../record/lesion.js';
import type { visit } from '../record/visit.js';
import type { Business } from '../record/business.js';
import type { FarmRecord } from '../record/practice.js';
import { readableText } from '../problem/format-problem.js';

/** A visit as a note gives it: what its front matter would hold, under the very keys of the case format. */
export type NoteVisit = z.input<typeof visit>;

/** A stretch of the note: characters `from` to before `to` of the text as given, and its line, from 1. */
export interface NoteStretch {
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** A stretch and what it was understood as; `as` undefined: not understood, kept in the visit's note. */
export interface Piece extends NoteStretch {
  readonly as: string | undefined;
}

/** A way to make a stretch certain: put `text` in its place. */
export interface Choice {
  readonly label: string;
  readonly text: string;
}

/**
 * Something that is not certain. It is answered by changing the note: `replace` is the stretch an answer takes the
 * place of (empty: it is put in there), each choice a text to put.
 */
export interface NoteQuestion extends NoteStretch {
  readonly id: string;
  readonly ask: string;
  /** How to write it so that it is certain. */
  readonly mend: string;
  readonly replace: { readonly from: number; readonly to: number };
  readonly choices: readonly Choice[];
}

/** What a note says of one animal on one day. `draft`: what is certain; it waits where anything is left to ask. */
export interface AnimalReading {
  readonly farm: string | undefined;
  readonly animal: string | undefined;
  /** As the note names her. */
  readonly called: string;
  readonly date: CalendarDay | undefined;
  readonly draft?: NoteVisit;
  /** No file is hers yet: one would be opened. */
  readonly opens?: true;
  /** Her official tag, of a case that is opened. */
  readonly tag?: string;
  /** Lesions first met at it, by name; with the draft. */
  readonly declares?: Readonly<Record<string, Lesion>>;
  readonly pieces: readonly Piece[];
  readonly questions: readonly NoteQuestion[];
}

/** A whole note read: nothing in it is lost, each stretch is in one of these or was passed over as mail's own. */
export interface NoteReading {
  readonly animals: readonly AnimalReading[];
  /** What is before the first animal: the farm, the day; what was not understood there belongs to no visit. */
  readonly heading: readonly Piece[];
  readonly questions: readonly NoteQuestion[];
  readonly passedOver: readonly number[];
}

/** What a note is read against: the records as they are, and the day. */
export interface NoteContext {
  readonly today: CalendarDay;
  readonly farms: readonly FarmRecord[];
  readonly business: Business;
  /** Slug of the farm meant where the note names none. */
  readonly farm?: string;
  /** Who did the work where the note does not say; the business's trimmer without it. */
  readonly by?: string;
}

/** What is before the first animal and is not clear, line by line. */
export function headingInWords({ heading, passedOver, questions }: NoteReading): string {
  const passed = passedOver.length === 0 ? '' : `mail's own lines passed over: ${passedOver.join(', ')}\n`;
  const strange = heading.filter(({ as }) => as === undefined);
  return `${passed}${strange.map((piece) => pieceInWords(piece, 'belongs to no animal and is not kept')).join('')}${questions.map(questionInWords).join('')}`;
}

/** Whose visit it is, and on what day. */
export function whoseInWords({ farm, animal, called, date }: AnimalReading): string {
  const who = animal === undefined ? readableText(called) : `${farm}/${animal}`;
  return `${who}${date === undefined ? '' : `, ${date}`}`;
}

/** What was understood of one animal, each thing once, in the order said. */
export function factsInWords({ pieces }: AnimalReading): string[] {
  return [...new Set(pieces.flatMap(({ as }) => (as === undefined ? [] : oneLine(as))))];
}

/** What was not understood, or is to be asked, of one animal; with `all`, what was understood too: the words of the note, then what they were taken for. */
export function animalInWords({ pieces, questions }: AnimalReading, all: boolean): string {
  const lines = pieces
    .filter(({ as }) => all || as === undefined)
    .map((piece) => pieceInWords(piece, 'not understood: kept in the note of the visit'));
  return `${lines.join('')}${questions.map(questionInWords).join('')}`;
}

function pieceInWords({ line, text, as }: Piece, not: string): string {
  const said = text === '' ? '(not said)' : `“${oneLine(text)}”`;
  return `  line ${line}: ${said} ${as === undefined ? '✗' : '→'} ${as === undefined ? not : oneLine(as)}\n`;
}

function questionInWords({ line, text, ask, mend, choices }: NoteQuestion): string {
  const about = text.trim() === '' ? '' : `“${oneLine(text)}”: `;
  const ways =
    choices.length === 0 ? '' : `\n    one of: ${choices.map(({ label }) => oneLine(label)).join(' · ')}`;
  return `  line ${line}: ? ${about}${oneLine(ask)}${ways}\n    to be certain: ${oneLine(mend)}\n`;
}

function oneLine(text: string): string {
  return readableText(text.replaceAll(/\s+/g, ' ').trim());
}
