import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { finishVisit } from './finish-visit.js';
import { animalAt, type AnimalAt, farmAt, nearNumbers, visitDay } from './heading.js';
import { unwrapMail } from './mail-lines.js';
import { nameSaid, peopleOf } from './name-said.js';
import type { NoteContext } from './note-context.js';
import type { AnimalReading, NoteReading, Piece, Question } from './note-reading.js';
import { isFiller, type NoteText, skip, stretchOf } from './note-text.js';
import { keepNotUnderstood } from './not-understood.js';
import { phraseAt } from './phrase.js';
import { readStatement } from './read-statement.js';
import { tokensOf } from './token.js';
import { VisitReader } from './visit-reader.js';

/** Lines under a number nobody could be found for: told, and kept waiting. */
interface Waiting {
  readonly called: string;
  readonly farm: string | undefined;
  readonly date: CalendarDay | undefined;
  readonly question: Question;
  from: number;
  to: number;
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
  return new NoteLoop({ text: bare, tokens: tokensOf(bare) }, context).read(passedOver);
}

class NoteLoop {
  private readonly animals: (VisitReader | Waiting)[] = [];
  private readonly heading: Piece[] = [];
  private readonly questions: Question[] = [];
  private readonly people: readonly string[];
  private current: VisitReader | Waiting | undefined;
  private farm: FarmRecord | 'not known' | undefined;
  private days: readonly CalendarDay[] | undefined;
  private by: string | undefined;
  private run: number[] = [];

  constructor(
    private readonly note: NoteText,
    private readonly context: NoteContext,
  ) {
    this.farm = context.farms.find(({ slug }) => slug === context.farm);
    this.by = context.by ?? context.business.trimmer;
    this.people = [...new Set(context.farms.flatMap((farm) => peopleOf(context.business, farm)))];
  }

  read(passedOver: readonly number[]): NoteReading {
    const { tokens } = this.note;
    for (let at = 0; at < tokens.length;) at = this.step(at);
    this.flush();
    return {
      animals: this.animals.map((one) =>
        one instanceof VisitReader ? finishVisit(one, this.by) : this.waiting(one),
      ),
      heading: this.heading,
      questions: this.questions,
      passedOver,
    };
  }

  private step(at: number): number {
    const { tokens } = this.note;
    const { kind } = tokens[at]!;
    if (kind === 'line' || kind === 'stop') {
      const doubted =
        tokens[at]!.text === '?' && this.current instanceof VisitReader && this.run.length === 0;
      if (doubted && this.current instanceof VisitReader && this.current.pieces.length > 0)
        this.askDoubted(at);
      this.flush();
      return at + 1;
    }
    const begins = at === 0 || tokens[at - 1]!.kind === 'line' || tokens[at - 1]!.kind === 'stop';
    const next = this.headingAt(at, begins) ?? this.bodyAt(at);
    if (next !== undefined && next > at) return next;
    this.run.push(at);
    return at + 1;
  }

  private askDoubted(at: number): void {
    if (!(this.current instanceof VisitReader)) return;
    this.current.ask(at, at + 1, {
      id: 'not-sure',
      ask: 'a question mark: is what stands before it certain?',
      mend: 'take the mark out where it is certain; else put the words after `note:`',
      choices: [{ label: 'it is certain', text: '.' }],
    });
  }

  /** The farm, the day, who did the work, an animal's number. */
  private headingAt(at: number, begins: boolean): number | undefined {
    const { tokens } = this.note;
    const fresh = begins || this.isHeading();
    const farm = farmAt(this.context, tokens, at);
    if (farm && (fresh || this.headingFollows(farm.next))) return this.startFarm(farm.farm, at, farm.next);
    if (begins) {
      const unknown = this.unknownFarm(at);
      if (unknown !== undefined) return unknown;
    }
    if (begins || this.current === undefined) {
      const day = visitDay(this.context, tokens, at);
      if (day && (this.current === undefined || this.isAlone(day.next))) {
        this.flush();
        this.current = undefined;
        this.days = day.days;
        this.say(at, day.next, day.days.join(' or ') || undefined);
        return day.next;
      }
    }
    const animal = animalAt(this.farmsMeant(), tokens, at, fresh);
    if (animal && (this.run.length === 0 || !fresh || begins)) return this.startAnimal(at, animal);
    if (this.current !== undefined) return undefined;
    const by = phraseAt(tokens, at);
    const name = by?.kind === 'by' ? nameSaid(tokens, by.next, this.people) : undefined;
    if (!name) return undefined;
    this.by = name.name;
    this.say(at, name.next, `by ${name.name}`);
    return name.next;
  }

  private isHeading(): boolean {
    return this.current === undefined;
  }

  /** A day, an animal or the end of the line behind a farm's name make it a heading in the middle of a line too. */
  private headingFollows(at: number): boolean {
    const next = skip(this.note.tokens, at);
    return (
      visitDay(this.context, this.note.tokens, next) !== undefined ||
      animalAt(this.context.farms, this.note.tokens, next, true) !== undefined
    );
  }

  private isAlone(at: number): boolean {
    const { tokens } = this.note;
    const next = skip(tokens, at);
    const kind = tokens[next]?.kind;
    return (
      kind === undefined ||
      kind === 'line' ||
      kind === 'stop' ||
      farmAt(this.context, tokens, next) !== undefined ||
      animalAt(this.farmsMeant(), tokens, next, true) !== undefined
    );
  }

  private startFarm(farm: FarmRecord, at: number, next: number): number {
    this.flush();
    this.current = undefined;
    this.farm = farm;
    this.say(at, next, `farm ${farm.farm.farm}`);
    return next;
  }

  /** A line of strange words and a day is the heading of a farm that is not there. */
  private unknownFarm(at: number): number | undefined {
    const { tokens } = this.note;
    let next = at;
    while (tokens[next]?.kind === 'word' && !phraseAt(tokens, next) && !visitDay(this.context, tokens, next))
      next += 1;
    const words = tokens.slice(at, next);
    if (words.length === 0 || words.length > 4 || words.every(isFiller)) return undefined;
    const day = visitDay(this.context, tokens, skip(tokens, next));
    if (!day || !this.isAlone(day.next)) return undefined;
    this.flush();
    this.current = undefined;
    this.farm = 'not known';
    const stretch = stretchOf(this.note, at, next);
    this.questions.push({
      ...stretch,
      id: 'unknown-farm',
      ask: `there is no farm called ${stretch.text}`,
      mend: 'write the farm’s name as its file has it',
      replace: { from: stretch.from, to: stretch.to },
      choices: this.context.farms.map((farm) => ({ label: farm.farm.farm, text: farm.farm.farm })),
    });
    return next;
  }

  private farmsMeant(): readonly FarmRecord[] {
    if (this.farm === 'not known') return [];
    return this.farm ? [this.farm] : this.context.farms;
  }

  private startAnimal(at: number, { found, next }: AnimalAt): number {
    const { tokens } = this.note;
    this.flush();
    const called = stretchOf(this.note, at, next).text;
    const ownDay = this.dayOfAnimal(next);
    const days = ownDay?.days ?? this.days;
    const [one] = found;
    if (found.length !== 1 || !one) {
      this.wait(at, next, called, found, days?.length === 1 ? days[0] : undefined);
      if (ownDay && this.current && 'to' in this.current) this.current.to = ownDay.next;
      return ownDay?.next ?? next;
    }
    const date = days?.[0] ?? this.context.today;
    const known = this.animals.find(
      (other): other is VisitReader =>
        other instanceof VisitReader && other.record === one.record && other.date === date,
    );
    const reader =
      known ??
      new VisitReader(
        this.note,
        this.context,
        one.farm,
        one.record,
        peopleOf(this.context.business, one.farm),
        called,
        next,
        date,
      );
    if (!known) this.animals.push(reader);
    reader.subject = { is: 'nothing' };
    reader.mention = undefined;
    reader.heading = true;
    this.current = reader;
    reader.say(at, next, `animal ${one.record.animal.animal} on ${one.farm.farm.farm}`);
    if (ownDay) reader.say(next, ownDay.next, ownDay.days.join(' or '));
    if (!known && days?.length !== 1) this.askDay(reader, next, ownDay?.next, days ?? []);
    reader.heading = true;
    return ownDay?.next ?? skip(tokens, next);
  }

  private dayOfAnimal(at: number): ReturnType<typeof visitDay> {
    return visitDay(this.context, this.note.tokens, skip(this.note.tokens, at, 'on', 'the'));
  }

  private askDay(r: VisitReader, at: number, next: number | undefined, days: readonly CalendarDay[]): void {
    r.ask(at, next ?? at, {
      id: 'no-day',
      ask: days.length > 1 ? `which day is it, ${days.join(' or ')}?` : 'on which day?',
      mend: 'write the day beside the farm or behind her number, the month in letters: 3 March 2026',
      choices: (days.length > 0 ? days : [this.context.today]).map((day) => ({
        label: day,
        text: ` ${day} `,
      })),
    });
  }

  private wait(
    at: number,
    next: number,
    called: string,
    found: AnimalAt['found'],
    date: CalendarDay | undefined,
  ): void {
    const farms = this.farmsMeant();
    const stretch = stretchOf(this.note, at, next);
    const several = found.length > 1;
    const near = several
      ? found.map(({ farm, record }) => ({
          label: `${record.animal.animal} on ${farm.farm.farm} (${record.slug}.md)`,
          text: `farm ${farm.slug} animal ${record.slug}.md`,
        }))
      : nearNumbers(farms, called.replaceAll(/\D/g, '')).map((number) => ({
          label: number,
          text: `animal ${number}`,
        }));
    const where = this.farm && this.farm !== 'not known' ? ` on ${this.farm.farm.farm}` : '';
    const waiting: Waiting = {
      called,
      farm: this.farm === 'not known' ? undefined : this.farm?.slug,
      date,
      from: at,
      to: next,
      question: {
        ...stretch,
        id: several ? 'which-animal' : 'unknown-animal',
        ask: several ? 'more than one animal has this number' : `there is no animal ${called}${where}`,
        mend: several
          ? 'name the farm above it, or the file, as in `animal 2086-2.md`'
          : 'correct the number, or open a case for her first',
        replace: { from: stretch.from, to: stretch.to },
        choices: this.farm === 'not known' ? [] : near,
      },
    };
    this.animals.push(waiting);
    this.current = waiting;
  }

  private waiting({ called, farm, date, question, from, to }: Waiting): AnimalReading {
    const piece: Piece = { ...stretchOf(this.note, from, to), as: 'waits for the answer' };
    return { farm, animal: undefined, called, date, pieces: [piece], questions: [question] };
  }

  private bodyAt(at: number): number | undefined {
    if (this.current === undefined) return undefined;
    if (!(this.current instanceof VisitReader)) {
      this.current.to = at + 1;
      return at + 1;
    }
    const reader = this.current;
    const words = phraseAt(this.note.tokens, at);
    // Words that hold one of ours and mean something else (`in heat`) are kept whole.
    if (words?.kind === 'not-ours') {
      for (let index = at; index < words.next; index += 1) this.run.push(index);
      return words.next;
    }
    const mention = reader.mention && { ...reader.mention };
    const next = readStatement(reader, at, this.run);
    if (next === undefined) return undefined;
    // Words kept are told with the place that was spoken of before them.
    if (this.run.length > 0) keepNotUnderstood(reader, this.run, mention);
    this.run = [];
    return next;
  }

  private say(from: number, to: number, as: string | undefined): void {
    this.flush();
    this.heading.push({ ...stretchOf(this.note, from, to), as });
  }

  private flush(): void {
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
