import { terminal } from '../problem/message.js';
import type { Animal } from '../record/animal.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import type { Lesion } from '../record/lesion.js';
import type { FarmRecord } from '../record/practice.js';
import { given } from '../record/given.js';
import { type DateOrder, daysMeant } from './day-said.js';
import { declaredBy, finish, inOrder, isWhole, keepRest, type Meant } from './finish-visit.js';
import { type Item, itemsOf, type Known, type PersonSaid, stretchOf } from './item.js';
import { unwrapMail } from './mail-lines.js';
import type { AnimalReading, NoteContext, NoteQuestion, NoteReading, Piece } from './note-reading.js';
import { isOne } from './note-words.js';
import { readSection } from './read-section.js';
import {
  casesByTag,
  casesCalled,
  type Heading,
  type Section,
  type Sections,
  sectionsOf,
} from './sections.js';
import { bareWord } from './token.js';
import { VisitReader } from './visit-reader.js';
import { readWritten, type WrittenVisit } from './write/read-written.js';

/**
 * A note from the yard read against the records: what it says of each animal, piece by piece, and what is to be asked.
 *
 * Words are distinguished by the whole sentence and by what her record makes likely. What is denied, only meant to be, told
 * of another day or not understood becomes no fact: its words are in the note of the visit. What is in doubt is asked.
 *
 * Shape:   the text of a note or of a mail, the practice as it is → one reading an animal and day
 * Error:   never throws on a text
 * Checked: tests/note/other-voices.test.ts, tests/note/any-text.test.ts
 */
export function readNote(text: string, context: NoteContext): NoteReading {
  const { text: bare, passedOver } = unwrapMail(text);
  // What the form wrote is read as it was written; a block that somebody changed is read as a person's words.
  const written = readWritten(bare).filter(({ strange }) => strange.length === 0);
  let said = bare;
  for (const { from, to } of written)
    said = said.slice(0, from) + said.slice(from, to).replaceAll(/[^\n]/g, ' ') + said.slice(to);
  const items = itemsOf(said, knownIn(context));
  const { sections, outside } = sectionsOf(items, context);
  const whose = outside
    .filter(([from, to, as]) => as === undefined && isOfCow(items.slice(from, to)))
    .map(([from, to]) => whoseQuestion(said, items, [from, to]));
  const heading: Piece[] = outside.map(([from, to, as]) => ({ ...stretchOf(said, items, from, to), as }));
  const animals = [
    ...new NoteReader(said, items, context, sections, outside).read(),
    ...written.map((one) => readingOf(bare, one, context)),
  ];
  return { animals, heading: heading.toSorted((a, b) => a.from - b.from), questions: whose, passedOver };
}

/** Whether words are what is found or done: a measure, or two things one says of a foot. */
function isOfCow(items: readonly Item[]): boolean {
  const kinds = ['foot', 'lesion', 'block', 'wrap', 'gait', 'stage', 'trimmed', 'cut-back', 'claw'];
  const said = kinds.filter((kind) => items.some(({ is }) => is.has(kind)));
  return (
    said.length > 1 ||
    (said.length > 0 && items.some(({ kind, number }) => kind === 'pair' || number?.unit !== undefined))
  );
}

/** Words on a cow of whom nothing says who she is: lost they must not be. */
function whoseQuestion(text: string, items: readonly Item[], [from, to]: [number, number]): NoteQuestion {
  const stretch = stretchOf(text, items, from, to);
  return {
    ...stretch,
    id: 'which-cow',
    ask: terminal('note.ask.which-cow.ask'),
    mend: terminal('note.ask.which-cow.fix'),
    replace: { from: stretch.from, to: stretch.from },
    choices: [],
  };
}

/** A visit of the form: whole and certain, where her file is found. */
function readingOf(
  text: string,
  { farm, animal, from, to, visit: draft, opens, declares }: WrittenVisit,
  { farms }: NoteContext,
): AnimalReading {
  const line = text.slice(0, from).split('\n').length;
  const piece: Piece = { line, from, to, text: text.slice(from, to).trim(), as: terminal('note.form') };
  const there = farms.find(({ slug }) => slug === farm);
  const found = there?.cases.some(({ slug }) => slug === animal);
  const question = (id: string): NoteQuestion => ({
    line,
    from,
    to,
    text: piece.text,
    id,
    ask: terminal(`note.ask.${id}.ask`, { called: animal, farm }),
    mend: terminal(`note.ask.${id}.fix`, { called: animal, farm }),
    replace: { from, to: from },
    choices: [],
  });
  return {
    farm: there?.slug,
    animal: found || opens ? animal : undefined,
    called: opens?.animal ?? animal,
    date: draft.date,
    ...(isWhole(draft) ? { draft } : {}),
    ...given({ declares, tag: opens?.tag, opens: opens && !found ? (true as const) : undefined }),
    pieces: [piece],
    questions: there === undefined ? [question('no-farm')] : found || opens ? [] : [question('no-case')],
  };
}

function knownIn({ farms, business }: NoteContext): Known {
  const people: PersonSaid[] = [];
  const add = (name: string | undefined, role: PersonSaid['role']): void => {
    if (name !== undefined && !people.some((one) => one.name === name)) people.push({ name, role });
  };
  add(business.trimmer, 'people');
  for (const { name } of business.people ?? []) add(name, 'people');
  for (const { farm } of farms) {
    add(farm.vet?.name, 'vet');
    add(farm.vet?.practice, 'vet');
    add(farm.contact?.name, 'farm');
  }
  const wordsOf = (name: string): string[] =>
    name
      .split(/[^\p{L}\p{M}\p{N}'’]+/u)
      .map(bareWord)
      .filter((word) => word !== '');
  const names = farms.flatMap(({ slug, farm }) =>
    [wordsOf(farm.farm), wordsOf(slug)].filter((words) => words.length > 0).map((words) => ({ slug, words })),
  );
  const called = farms.flatMap(({ cases }) => cases.flatMap(({ slug, animal }) => [slug, animal.animal]));
  return {
    numbers: new Set(called.map((one) => one.replace(/^0+(?=\d)/, ''))),
    names: called.filter((one) => !/\d/.test(one)).map(wordsOf),
    people,
    farms: names,
  };
}

class NoteReader {
  /** Lesions first met on an earlier day of the same note. */
  private readonly met = new Map<Animal, Record<string, Lesion>>();

  constructor(
    private readonly text: string,
    private readonly items: readonly Item[],
    private readonly context: NoteContext,
    private readonly sections: readonly Section[],
    private readonly outside: Sections['outside'],
  ) {}

  read(): AnimalReading[] {
    return this.meant().map((one) => this.readAnimal(one));
  }

  private meant(): Meant[] {
    const { sections } = this;
    const said = sections.find(({ heading }) => heading.farm !== undefined)?.heading.farm;
    const day = sections.find(({ heading }) => heading.day !== undefined)?.heading.day;
    const by = sections.find(({ heading }) => heading.by !== undefined)?.heading.by;
    const guessed = said ?? this.likelyFarm();
    const all: Meant[] = [];
    for (const section of sections) {
      const heading = {
        ...section.heading,
        farm: section.heading.farm ?? guessed,
        day: section.heading.day ?? day,
        by: section.heading.by ?? by,
      };
      const farm = this.context.farms.find(({ slug }) => slug === heading.farm);
      const [found, ...more] = casesCalled(farm, section.called);
      const one = more.length === 0 ? found : undefined;
      const days = this.daysOf(heading, farm, section.called);
      const before = all.find(
        (other) => other.farm === farm && other.called === section.called && other.days[0] === days[0],
      );
      if (before) {
        before.sections.push(section);
        continue;
      }
      const animal: Animal = one?.animal ?? { casefile: 1, animal: section.called, lesions: {}, visits: [] };
      all.push({
        farm,
        slug: one?.slug,
        animal,
        called: section.called,
        mention: section.mention,
        days,
        heading,
        opens: one === undefined && section.isNew,
        sections: [section],
      });
    }
    return all;
  }

  /** The one farm that has every number said; undefined where none or several have. */
  private likelyFarm(): string | undefined {
    const called = [...new Set(this.sections.map((section) => section.called))];
    const fit = this.context.farms.filter(
      (farm) => called.length > 0 && called.every((figures) => casesCalled(farm, figures).length > 0),
    );
    return fit.length === 1
      ? fit[0]!.slug
      : this.context.farms.length === 1
        ? this.context.farms[0]!.slug
        : undefined;
  }

  /** The days a heading may mean: figures in either order are settled by the calendar, the weekday and her earlier visits. */
  private daysOf({ day }: Heading, farm: FarmRecord | undefined, called: string): CalendarDay[] {
    const { today } = this.context;
    if (!day) return [];
    const order = this.order(farm);
    const days = daysMeant(day.said, { pick: 'latest', from: today, today, order })
      .filter((one) => one <= today)
      .map((one) => addDays(one, day.back ?? 0));
    if (days.length < 2) return days;
    const lasts = [...new Set(this.sections.map((section) => section.called))].flatMap((figures) =>
      casesCalled(farm, figures).flatMap(({ animal }) => animal.visits.at(-1)?.date ?? []),
    );
    const last = [
      ...lasts,
      ...casesCalled(farm, called).flatMap(({ animal }) => animal.visits.at(-1)?.date ?? []),
    ]
      .toSorted()
      .at(-1);
    const after = days.filter((one) => last === undefined || one >= last);
    const left = after.length > 0 ? after : days;
    // The day she was to be seen again on, or one on which others of the farm were seen.
    const cases = farm?.cases ?? [];
    const due = new Set(
      cases.flatMap(({ animal }) => animal.visits.flatMap(({ date, recheck }) => [date, recheck])),
    );
    due.add(farm?.farm['next-visit']);
    const planned = left.filter((one) => due.has(one));
    return planned.length === 1 ? planned : left;
  }

  /** As the business writes dates; else as another date of the note can only be read; else by the language, which is no proof. */
  private order(farm: FarmRecord | undefined): DateOrder {
    const { business } = this.context;
    const figures = this.items.map(({ day }) => day?.either);
    const own = figures.some((two) => two && two[0] > 12)
      ? 'day-first'
      : figures.some((two) => two && two[1] > 12)
        ? 'month-first'
        : undefined;
    const said = business.dates ?? own;
    const usual = (farm?.farm.language ?? business.language) === 'en-US' ? 'month-first' : 'day-first';
    return { first: said ?? usual, sure: said !== undefined };
  }

  private readAnimal(meant: Meant): AnimalReading {
    const { farm, slug, called, mention, days, heading } = meant;
    const { text, items, context } = this;
    const asked: NoteQuestion[] = [];
    const ask = (
      id: string,
      values: Record<string, string>,
      at: { from: number; to: number },
      choices: NoteQuestion['choices'],
      replace?: { from: number; to: number },
    ): void => {
      const stretch = stretchOf(text, items, at.from, at.to);
      asked.push({
        ...stretch,
        id,
        ask: terminal(`note.ask.${id}.ask`, values),
        mend: terminal(`note.ask.${id}.fix`, values),
        choices,
        replace: replace ?? { from: stretch.from, to: stretch.to },
      });
    };
    const whole = { from: meant.sections[0]!.from, to: meant.sections[0]!.to };
    const start = { from: 0, to: 0 };
    if (farm === undefined) {
      const names = context.farms.filter((one) => casesCalled(one, called).length > 0);
      const choices = (names.length > 0 ? names : context.farms).map((one) => ({
        label: one.farm.farm,
        text: `${one.farm.farm}\n`,
      }));
      ask('no-farm', { called }, whole, choices, start);
      return {
        farm: undefined,
        animal: undefined,
        called,
        date: days[0],
        pieces: [{ ...stretchOf(text, items, whole.from, whole.to), as: 'waits for the answer' }],
        questions: asked,
      };
    }
    const date = days[0] ?? context.today;
    if (days.length > 1) {
      const stretch = { from: items[heading.day!.at]!.from, to: items[heading.day!.at]!.to };
      ask(
        'day-either',
        { one: days[0]!, other: days[1]! },
        { from: heading.day!.at, to: heading.day!.at + 1 },
        days.map((one) => ({ label: one, text: one })),
        stretch,
      );
    } else if (days.length === 0)
      ask(
        'no-day',
        { date: context.today },
        whole,
        [0, -1].map((back) => this.dayBack(back)).map((one) => ({ label: one, text: `${one}\n` })),
        start,
      );
    const r = new VisitReader(text, items, context, farm, meant.animal, date, this.order(farm));
    r.reporter = heading.reporter?.name;
    // `telephone only, nothing lifted` above all of them.
    r.isWordOnly = this.outside.some(([from, to]) =>
      items.slice(from, to).some(({ is }) => is.has('no-feet')),
    );
    if (slug === undefined && !meant.opens) {
      const { to } = items[mention.to - 1]!;
      const elsewhere = context.farms.filter((one) => one !== farm && casesCalled(one, called).length > 0);
      const former = farm.cases.flatMap((one) =>
        (one.animal.earlier ?? [])
          .filter(({ animal }) => animal === called)
          .map(({ until }) => ({ now: one.animal.animal, until })),
      );
      const tagged = casesByTag(farm, called).map(({ animal: { animal } }) => ({
        label: terminal('note.ask.no-case.tag', { now: animal, called }),
        text: animal,
      }));
      const choices = [
        ...tagged,
        ...former.map(({ now, until }) => ({
          label: terminal(until === undefined ? 'note.ask.no-case.was' : 'note.ask.no-case.was-until', {
            now,
            called,
            until: until ?? '',
          }),
          text: now,
        })),
        { label: terminal('note.ask.no-case.open', { called }), text: `${called} new cow ` },
      ];
      ask(
        elsewhere.length > 0 ? 'no-case-here' : 'no-case',
        { called, farm: farm.farm.farm, other: elsewhere[0]?.farm.farm ?? '' },
        mention,
        choices,
        { from: to - called.length, to },
      );
    }
    const before = this.met.get(meant.animal) ?? {};
    Object.assign(r.firstMet, before);
    this.met.set(meant.animal, r.firstMet);
    const bounds = new Set(
      this.sections.flatMap((one) =>
        Array.from({ length: one.mention.to - one.mention.from }, (_, n) => one.mention.from + n),
      ),
    );
    // A farm or a day right behind her number heads what is said of her.
    for (const [from, to, as] of this.outside)
      if (as !== undefined) for (let index = from; index < to; index += 1) bounds.add(index);
    for (const index of bounds) r.taken.add(index);
    for (const section of meant.sections) readSection(r, section, bounds);
    finish(r, meant, heading, this.context);
    for (const section of meant.sections) keepRest(r, section, bounds);
    if (r.notes.length > 0) r.draft.note = r.notes.join('\n');
    const pieces = r.pieces
      .map(({ line, from, to, text: said, as }) => ({ line, from, to, text: said, as }))
      .toSorted((a, b) => a.from - b.from || a.to - b.to);
    // What is said to be wrong may be anything above: nothing is drafted until somebody has said.
    const mistake = items.findIndex(
      ({ is }, at) => this.isMistake(at) && (!r.taken.has(at) || is.has('correct')),
    );
    if (mistake >= 0)
      ask('mistake', {}, { from: mistake, to: mistake + 1 }, [
        { label: terminal('note.ask.mistake.no'), text: '' },
      ]);
    const questions = [...asked, ...r.questions].toSorted((a, b) => a.from - b.from);
    const draft = inOrder({ ...r.draft, date });
    const declares = declaredBy(r);
    const settled = days.length === 1;
    return {
      farm: farm.slug,
      animal: slug ?? called,
      called,
      date: settled ? date : questions.length > 0 && days.length === 0 ? date : date,
      ...(isWhole(draft) && mistake < 0 && days.length > 0 ? { draft } : {}),
      ...(declares ? { declares } : {}),
      ...(slug === undefined ? { opens: true as const } : {}),
      pieces,
      questions,
    };
  }

  /** Words that take back what is elsewhere in the note: a mistake owned up to, or another cow named in its place. */
  private isMistake(at: number): boolean {
    const { is } = this.items[at]!;
    // `nobody knows what is wrong with her` owns up to nothing.
    if (is.has('mistake')) return !isOne('what is wrong', this.items[at - 1]?.bare);
    if (!is.has('correct')) return false;
    const near = (first: number, last: number): Section[] =>
      this.sections.filter(({ mention }) => first <= mention.from && mention.from < last);
    // `Correction: 204 was 17`, on a line of its own.
    const begins = this.items[at - 1]?.kind === 'line';
    const [before, behind] = [near(begins ? 0 : at - 10, at).at(-1), near(at, at + 6)[0]];
    const line = this.items.slice(before?.mention.from ?? at, behind?.mention.to ?? at);
    if (begins && before !== undefined && behind !== undefined) return true;
    return (
      before !== undefined &&
      behind !== undefined &&
      before.called !== behind.called &&
      !line.some(({ kind }) => kind === 'line')
    );
  }

  private dayBack(back: number): CalendarDay {
    const { today } = this.context;
    return daysMeant(
      { relative: back, next: 0 },
      { pick: 'latest', from: today, today, order: { first: 'day-first', sure: false } },
    )[0]!;
  }
}
