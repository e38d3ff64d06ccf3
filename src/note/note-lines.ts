import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { peopleOf } from './place-said.js';
import type { NoteContext, Piece, NoteQuestion } from './note-reading.js';
import { isFiller, type NoteText, stretchOf } from './note-text.js';
import { keepNotUnderstood } from './not-understood.js';
import { VisitReader } from './visit-reader.js';
import type { WaitingWords } from './waiting.js';

/** A note while it is read: the farm, the day and the animal its lines stand under, and what was found so far. */
export class NoteLines {
  readonly animals: (VisitReader | WaitingWords)[] = [];
  readonly heading: Piece[] = [];
  readonly questions: NoteQuestion[] = [];
  readonly people: readonly string[];
  current: VisitReader | WaitingWords | undefined;
  farm: FarmRecord | 'not known' | undefined;
  days: readonly CalendarDay[] | undefined;
  by: string | undefined;
  /** Tokens no statement has taken yet. */
  run: number[] = [];

  constructor(
    readonly note: NoteText,
    readonly context: NoteContext,
  ) {
    this.farm = context.farms.find(({ slug }) => slug === context.farm);
    this.by = context.by ?? context.business.trimmer;
    this.people = [...new Set(context.farms.flatMap((farm) => peopleOf(context.business, farm)))];
  }

  /** Farms the lines may be about. */
  farmsMeant(): readonly FarmRecord[] {
    if (this.farm === 'not known') return [];
    return this.farm ? [this.farm] : this.context.farms;
  }

  /** Something the heading says. */
  say(from: number, to: number, as: string | undefined): void {
    this.flush();
    this.heading.push({ ...stretchOf(this.note, from, to), as });
  }

  /** What no statement took is kept: with the animal spoken of, or as told outside of any. */
  flush(): void {
    const { run } = this;
    this.run = [];
    if (run.length === 0) return;
    if (this.current instanceof VisitReader) keepNotUnderstood(this.current, run, this.current.mention);
    else if (this.current === undefined) this.outside(run);
  }

  private outside(run: readonly number[]): void {
    const told = run.filter((index) => {
      const token = this.note.tokens[index]!;
      return token.kind !== 'mark' && !isFiller(token);
    });
    if (told.length === 0) return;
    this.heading.push({ ...stretchOf(this.note, told[0]!, told.at(-1)! + 1), as: undefined });
  }
}
