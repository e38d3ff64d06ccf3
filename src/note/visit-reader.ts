import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Found } from '../record/visit.js';
import type { Lesion } from '../record/lesion.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import type { Foot } from '../record/words.js';
import type { NoteContext, Choice, NoteVisit, Piece, NoteQuestion } from './note-reading.js';
import { type NoteText, stretchOf } from './note-text.js';
import type { PlaceSaid } from './place-said.js';

/** What the words that follow are said of. `asked`: it had to be asked, and what follows waits for the answer. */
export type Subject =
  | { readonly is: 'nothing' }
  | { readonly is: 'asked' }
  | { readonly is: 'place'; readonly place: Omit<PlaceSaid, 'next'> }
  | { readonly is: 'lesion'; readonly name: string };

/** The last place named: which tokens, whether anything was said of it, and what was spoken of before. */
export interface Mention {
  readonly from: number;
  readonly next: number;
  readonly place: Omit<PlaceSaid, 'next'> | undefined;
  readonly before: Subject;
  used: boolean;
}

export interface Asked {
  readonly id: string;
  readonly ask: string;
  readonly mend: string;
  readonly choices?: readonly Choice[];
  /** Tokens an answer takes the place of; without it those asked about. */
  readonly replace?: readonly [from: number, to: number];
}

/** One animal's lines while they are read: the visit so far, what is spoken of, what was understood and what to ask. */
export class VisitReader {
  readonly draft: Partial<NoteVisit> = {};
  readonly pieces: Piece[] = [];
  readonly questions: NoteQuestion[] = [];
  readonly notes: string[] = [];
  /** Lesions her file does not declare and this note does, by the name they get. */
  readonly firstMet: Record<string, Lesion>;
  subject: Subject = { is: 'nothing' };
  mention: Mention | undefined;
  /** Where `with note` goes: what was spoken of last. */
  noteOn: ((note: string) => void) | undefined;
  /** Lesions whose state is left out on purpose. */
  readonly stateUnsaid = new Set<string>();
  /** The last length was a wall's, read with a tool of its own if another follows. */
  wallJustRead = false;
  /** A bruised or sound carrying claw told before its block. */
  carrying: { readonly from: number; readonly to: number; readonly value: string } | undefined;
  /** Nothing but her number, the day and the like has been read yet. */
  heading = true;

  constructor(
    readonly note: NoteText,
    readonly context: NoteContext,
    readonly farm: FarmRecord,
    readonly record: CaseRecord,
    readonly people: readonly string[],
    readonly called: string,
    /** Where what is missing may be put into the note: right behind her number. */
    readonly behindNumber: number,
    public date: CalendarDay,
    /** What the same note declared of her at another day. */
    readonly metEarlier: Readonly<Record<string, Lesion>> = {},
  ) {
    this.firstMet = { ...metEarlier };
  }

  get animal(): Animal {
    const { animal } = this.record;
    return { ...animal, lesions: { ...animal.lesions, ...this.firstMet } };
  }

  say(from: number, to: number, as: string | undefined): void {
    this.pieces.push({ ...stretchOf(this.note, from, to), as });
    if (as !== undefined) this.heading = false;
  }

  ask(from: number, to: number, { id, ask, mend, choices = [], replace }: Asked): void {
    const stretch = stretchOf(this.note, from, to);
    const place = replace ? stretchOf(this.note, ...replace) : stretch;
    this.questions.push({
      ...stretch,
      id,
      ask,
      mend,
      choices,
      replace: { from: place.from, to: place.to },
    });
    this.heading = false;
  }

  /** Puts a value of the visit in; one that contradicts what was said before is asked about. */
  set<K extends keyof NoteVisit>(key: K, value: NoteVisit[K], from: number, to: number, as: string): void {
    const said = this.draft[key];
    if (said !== undefined && said !== value) this.askTwice(from, to, key);
    else this.draft[key] = value;
    this.say(from, to, as);
  }

  /** Puts a value of what was found in, in the same manner. */
  setFound<K extends keyof Found>(name: string, key: K, value: Found[K], from: number, to: number): void {
    const found: Found = this.foundOf(name);
    if (found[key] !== undefined && found[key] !== value) this.askTwice(from, to, `${name}: ${key}`);
    else found[key] = value;
    this.say(from, to, `${name}: ${key} ${String(value)}`);
  }

  foundOf(name: string): Found {
    this.draft.found ??= {};
    this.draft.found[name] ??= {};
    const found: Found = this.draft.found[name];
    this.noteOn = (note) => (found.note = note);
    return found;
  }

  footOf(foot: Foot): NonNullable<NonNullable<NoteVisit['feet']>[Foot]> {
    this.draft.feet ??= {};
    const finding = (this.draft.feet[foot] ??= {});
    this.noteOn = (note) => (finding.note = note);
    return finding;
  }

  askTwice(from: number, to: number, what: string): void {
    this.ask(from, to, {
      id: 'said-twice',
      ask: `${what} is said twice, each time otherwise`,
      mend: 'leave only the one that holds',
    });
  }

  /** The foot spoken of, where it is one. */
  subjectFoot(): Foot | undefined {
    if (this.subject.is === 'lesion') return this.declared(this.subject.name)?.foot;
    if (this.subject.is !== 'place') return undefined;
    const { feet } = this.subject.place;
    return feet.length === 1 ? feet[0] : undefined;
  }

  declared(name: string): Animal['lesions'][string] | NonNullable<Animal['marks']>[string] | undefined {
    if (Object.hasOwn(this.animal.lesions, name)) return this.animal.lesions[name];
    return Object.hasOwn(this.animal.marks ?? {}, name) ? this.animal.marks?.[name] : undefined;
  }
}
