import type { CalendarDay } from '../record/calendar-day.js';
import type { AnimalReading, Piece, NoteQuestion } from './note-reading.js';
import { type NoteText, stretchOf } from './note-text.js';

/** Lines under a number nobody could be found for: told, and kept waiting. */
export interface WaitingWords {
  readonly called: string;
  readonly farm: string | undefined;
  readonly date: CalendarDay | undefined;
  readonly question: NoteQuestion;
  from: number;
  to: number;
}

/** Her lines wait for the answer and are kept whole. */
export function readingOfWaiting(
  note: NoteText,
  { called, farm, date, question, from, to }: WaitingWords,
): AnimalReading {
  const piece: Piece = { ...stretchOf(note, from, to), as: 'waits for the answer' };
  return { farm, animal: undefined, called, date, pieces: [piece], questions: [question] };
}
