import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Lesion } from '../record/lesion.js';
import { kindOfVisit } from '../record/kind-of-visit.js';
import type { FarmRecord } from '../record/practice.js';
import { type Found, found as foundKeys, visit } from '../record/visit.js';
import { terminal } from '../problem/message.js';
import { familyOf, lesionKinds } from '../reference/lesions.js';
import { daysMeant } from './day-said.js';
import {
  readCarrying,
  readFlag,
  readFoot,
  readHow,
  readMeasure,
  readPlace,
  readSign,
  readStage,
  readState,
} from './findings.js';
import { readFixture } from './fixtures.js';
import { type Item, itemsOf, type Known, type PersonSaid, saysNothing, stretchOf } from './item.js';
import { unwrapMail } from './mail-lines.js';
import type {
  AnimalReading,
  NoteContext,
  NoteQuestion,
  NoteReading,
  NoteVisit,
  Piece,
} from './note-reading.js';
import { casesCalled, type Heading, type Section, type Sections, sectionsOf } from './sections.js';
import { bareWord } from './token.js';
import {
  readFarmDid,
  readMissed,
  readNumbersOfCow,
  readPain,
  readProduct,
  readRecheck,
  readRest,
  readTask,
  readTrimmed,
  readVet,
  readWalk,
} from './visit-words.js';
import { VisitReader } from './visit-reader.js';
import { readWritten, type WrittenVisit } from './write/read-written.js';

/** In this order: the first that takes the words at a place has them. */
const statements = [
  readRest, readTask, readFarmDid, readProduct, readFixture, readCarrying, readRecheck, readWalk, readNumbersOfCow,
  readTrimmed, readFlag, readPain, readVet, readFoot, readStage, readMeasure, readState, readMissed, readPlace, readHow, readSign,
]; // prettier-ignore

/**
 * A note from the yard read against the records: what it says of each animal, piece by piece, and what is to be asked.
 *
 * Words are told apart by the whole sentence and by what her record makes likely. What is denied, only meant to be, told
 * of another day or not understood becomes no fact: its words stand in the note of the visit. What is in doubt is asked.
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
  const heading: Piece[] = outside.map(([from, to, as]) => ({ ...stretchOf(said, items, from, to), as }));
  const animals = [
    ...new NoteReader(said, items, context, sections, outside).read(),
    ...written.map((one) => readingOf(bare, one, context)),
  ];
  return { animals, heading: heading.toSorted((a, b) => a.from - b.from), questions: [], passedOver };
}

/** A visit of the form: whole and certain, where her file is found. */
function readingOf(
  text: string,
  { farm, animal, from, to, visit: draft }: WrittenVisit,
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
    animal: found ? animal : undefined,
    called: animal,
    date: draft.date,
    ...(isWhole(draft) ? { draft } : {}),
    pieces: [piece],
    questions: there === undefined ? [question('no-farm')] : found ? [] : [question('no-case')],
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
  const numbers = farms.flatMap(({ cases }) => cases.flatMap(({ slug, animal }) => [slug, animal.animal]));
  return { numbers: new Set(numbers.map((one) => one.replace(/^0+(?=\d)/, ''))), people, farms: names };
}

/** What is meant where two records would be: one animal on one day. */
interface Meant {
  readonly farm: FarmRecord | undefined;
  readonly slug: string | undefined;
  readonly animal: Animal;
  readonly called: string;
  readonly mention: Section['mention'];
  readonly days: readonly CalendarDay[];
  readonly heading: Heading;
  readonly opens: boolean;
  readonly sections: Section[];
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
    const days = daysMeant(day.said, { pick: 'latest', from: today, today, order }).filter(
      (one) => one <= today,
    );
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

  private order(farm: FarmRecord | undefined): 'day-month' | 'month-day' {
    return (farm?.farm.language ?? this.context.business.language) === 'en-US' ? 'month-day' : 'day-month';
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
    if (slug === undefined && !meant.opens) {
      const { to } = items[mention.to - 1]!;
      const elsewhere = context.farms.filter((one) => one !== farm && casesCalled(one, called).length > 0);
      const former = farm.cases.flatMap((one) =>
        (one.animal.earlier ?? [])
          .filter(({ animal }) => animal === called)
          .map(({ until }) => ({ now: one.animal.animal, until })),
      );
      const choices = [
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
    // A farm or a day right behind her number stands above what is said of her.
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
    const questions = [...asked, ...r.questions].toSorted((a, b) => a.from - b.from);
    const draft = inOrder({ ...r.draft, date });
    const declares = declaredBy(r);
    const settled = days.length === 1;
    return {
      farm: farm.slug,
      animal: slug ?? called,
      called,
      date: settled ? date : questions.length > 0 && days.length === 0 ? date : date,
      ...(isWhole(draft) ? { draft } : {}),
      ...(declares ? { declares } : {}),
      ...(slug === undefined ? { opens: true as const } : {}),
      pieces,
      questions,
    };
  }

  private dayBack(back: number): CalendarDay {
    const { today } = this.context;
    return daysMeant(
      { relative: back, next: 0 },
      { pick: 'latest', from: today, today, order: 'day-month' },
    )[0]!;
  }
}

function readSection(r: VisitReader, section: Section, bounds: ReadonlySet<number>): void {
  const { items } = r;
  r.modality = {};
  r.place = {};
  r.last = undefined;
  r.foot = undefined;
  r.lastKey = undefined;
  r.fixture = undefined;
  for (let at = section.from; at < section.to;) {
    const item = items[at]!;
    if (bounds.has(at) || (r.taken.has(at) && !item.is.has('both'))) {
      at += 1;
      continue;
    }
    if (/^(?:i|we|im|id|ive|weve|ill)$/.test(item.bare)) r.saidI = true;
    if (item.kind === 'line' || item.kind === 'stop') {
      if (item.bare !== '?') r.modality = {};
      at += 1;
      continue;
    }
    if (item.kind === 'mark' && /^[,()]$/.test(item.bare)) {
      // `if …, I will …`: what is only meant to be goes on behind the comma.
      const { planned, both, denied, used } = r.modality;
      const lists = denied !== undefined && used === 'sign' && items[at + 1]?.is.has('sign') === true;
      const conditional =
        planned !== undefined && /^(?:if|next time|unless|once)$/.test(items[planned]!.bare);
      r.modality = { ...(conditional ? { planned } : {}), ...(lists ? { denied, used } : {}), both };
      at += 1;
      continue;
    }
    const kind = kindOf(item);
    if (r.suppressed && r.modality.used !== undefined && kind !== undefined && kind !== r.modality.used)
      r.modality = { both: r.modality.both };
    const cue = cueAt(r, at, section.to);
    if (cue !== undefined) {
      at = cue;
      continue;
    }
    let next: number | undefined;
    for (const statement of statements) {
      next = statement(r, at);
      if (next !== undefined) break;
    }
    if (next === undefined || next <= at) {
      if (
        next === undefined &&
        r.suppressed &&
        kind !== 'place' &&
        (kind !== undefined || (item.is.has('event') && r.fixture))
      )
        r.modality.used = kind ?? 'block';
      at += 1;
      continue;
    }
    // A place alone says nothing: what turns the words round reaches past it.
    if (!(r.heard.includes(next - 1) && r.placeAt[1] === next)) r.modality = { both: r.modality.both };
    at = next;
  }
}

const statementKinds = [
  'gait',
  'block',
  'wrap',
  'stage',
  'sign',
  'pain',
  'trimmed',
  'cut-back',
  'tool',
  'top-found',
  'state',
  'ran-up',
  'opened-further',
  'infected',
  'vet-noun',
  'recheck',
  'condition',
];

/** Which kind of statement a piece belongs to; what was denied or meant for later ends where another kind begins. */
function kindOf(item: Item): string | undefined {
  if (item.kind === 'pair') return 'pair';
  if (item.is.has('foot') || item.is.has('lesion')) return 'place';
  return statementKinds.find((kind) => item.is.has(kind));
}

/** A word that denies, hedges, plans or corrects what follows it. */
function cueAt(r: VisitReader, at: number, to: number): number | undefined {
  const item = r.items[at]!;
  const { is, bare } = item;
  const next = r.items[at + 1];
  if (is.has('not-ours') && ![...is.keys()].some((kind) => kind !== 'not-ours')) return at + 1;
  // `was 21, now 27`; `see again when the block is off`.
  if (
    bare === 'was' &&
    r.items.slice(at + 1, at + 6).some((one) => one.bare === 'now') &&
    (next?.number ?? next?.pair)
  ) {
    r.modality.past = at;
    return at + 1;
  }
  if (bare === 'now' && r.modality.past !== undefined) r.modality.past = undefined;
  if (
    bare === 'when' &&
    r.items.slice(r.start(at, false), at).some((one) => one.is.has('recheck') || one.is.has('plan'))
  )
    r.modality.planned = at;
  if (is.has('recent')) {
    r.modality.past = at;
    return at + 1;
  }
  if (is.has('correct')) {
    r.modality.corrected = at;
    r.modality.denied = undefined;
    r.taken.add(at);
    return at + 1;
  }
  if (is.has('both') && !is.has('foot')) {
    r.modality.both = true;
    if (bare !== 'all' || next?.number?.value !== 4) {
      r.taken.add(at);
      return undefined;
    }
    return undefined;
  }
  if (
    is.has('negation') &&
    !['missed', 'lifted', 'not-staged', 'not-lame', 'sign', 'unknown-day', 'state', 'no-feet'].some((kind) =>
      is.has(kind),
    )
  ) {
    // `no 31 not 13, sorry`, `no, the right was 22`: put right.
    const after = r.skip(at + 1, /^(?:sorry|wait|hang on)$/);
    const number = r.items[after];
    const puts =
      bare === 'no' &&
      (number?.kind === 'pair' ||
        (number?.kind === 'number' && number.number !== undefined) ||
        placeThenNumber(r, after));
    if (puts && after < to && r.lastKey !== undefined) {
      r.modality.corrected = at;
      for (let index = at; index < after; index += 1) r.taken.add(index);
      if (placeThenNumber(r, after)) return at + 1;
      return after;
    }
    if (bare === 'no' && next?.bare === '.') return undefined;
    // `swelling none`: said of what stands before.
    if (/^(?:none|nothing)$/.test(bare)) return at + 1;
    r.modality.denied = at;
    r.modality.used = undefined;
    return at + 1;
  }
  if (is.has('nearly')) {
    const state = r.skip(at + 1);
    const word = r.items[state]?.is.get('state');
    if (word !== undefined && word !== 'present' && word !== 'open') return state + 1;
  }
  if (/^(?:because|but|so)$/.test(bare)) {
    r.modality = { both: r.modality.both };
    return at + 1;
  }
  // `… going to have a look next week`: said of what stands before.
  if (is.has('plan') && r.modality.planned !== undefined && r.modality.used !== undefined) return at + 1;
  // `have a look next week, mobility 2`: what follows is of today.
  if (/^(?:next week|next time|tomorrow)$/.test(bare)) {
    const after = r.items[r.skip(at + 1)];
    const kind = after && kindOf(after);
    if (
      after === undefined ||
      after.kind === 'line' ||
      after.kind === 'stop' ||
      (kind !== undefined && ['gait', 'place', 'condition', 'trimmed', 'pair'].includes(kind))
    )
      return at + 1;
  }
  if (
    is.has('plan') &&
    !['event', 'recheck', 'missed', 'task', 'pain', 'ask-farm', 'advised'].some(
      (kind) => is.has(kind) && kind !== 'advised',
    )
  ) {
    r.modality.planned = at;
    r.modality.used = undefined;
    return is.has('advised') ? undefined : at + 1;
  }
  if (is.has('hedge') && !is.has('number')) {
    r.modality.doubted = at;
    return at + 1;
  }
  return undefined;
}

/** `the right was twenty two forty four`. */
function placeThenNumber(r: VisitReader, at: number): boolean {
  const item = r.items[at];
  if (!item || !(item.is.has('side') || item.is.has('foot'))) return false;
  const next = r.items[r.skip(at + 1)];
  return next?.kind === 'number' || next?.kind === 'pair';
}

/** What a note left unsaid and the record or the words themselves settle; and what is still to ask. */
function finish(r: VisitReader, meant: Meant, heading: Heading, context: NoteContext): void {
  const { draft } = r;
  const behind = meant.mention.to;
  stateOfEach(r, behind);
  const lifts =
    [draft.trimmed, draft['cut-back']].some((list) => (list?.length ?? 0) > 0) ||
    Object.values(draft.found ?? {}).some(
      ({ lifted, ...rest }) => lifted !== false && Object.keys(rest).length > 0,
    ) ||
    Object.values(draft.feet ?? {}).some((one) => one?.lifted === true);
  const touched =
    lifts ||
    (draft.blocks ?? []).some(({ event }) => ['fitted', 'replaced', 'removed', 'worn'].includes(event)) ||
    (draft.wraps ?? []).some(({ event }) => event === 'fitted' || event === 'replaced') ||
    Object.keys(draft.feet ?? {}).length > 0 ||
    Object.keys(draft.found ?? {}).length > 0;
  const { reporter } = heading;
  if (r.isMissed && !lifts && !touched && draft.kind === undefined) {
    draft.kind = 'missed';
    draft.why = whyMissed(r, r.isMissed);
    r.say(r.isMissed.from, r.isMissed.to, 'kind missed');
  } else if (r.isMissed) r.taken.delete(r.isMissed.from);
  const told = reporter ?? (touched || r.saidI ? undefined : sectionReporter(r, meant));
  if (draft.kind === undefined && reporter && !draft.trimmed) {
    draft.kind = 'report';
    draft.by ??= reporter.name;
  } else if (draft.kind === undefined && touched) {
    const visits = r.animal.visits.filter(({ date }) => date < r.date);
    draft.kind = kindOfVisit({ ...r.animal, visits }, r.date);
  } else if (draft.kind === undefined && isDoubtful(r, meant)) {
    // Nothing was taken of it and something is denied: she may not have been there at all.
    r.ask(
      behind,
      behind,
      'no-kind',
      { called: meant.called },
      (['missed', 'report', 'recheck'] as const).map((kind) => ({ label: kind, text: ` kind ${kind}.` })),
    );
  } else if (draft.kind === undefined) {
    draft.kind = 'report';
    if (told) draft.by ??= told.name;
  }
  const trimmer = context.by ?? context.business.trimmer ?? context.business.people?.[0]?.name;
  const by = draft.by ?? heading.by ?? trimmer;
  if (by !== undefined) draft.by = by;
  if (draft['gait-by'] !== undefined && draft['gait-by'] === draft.by) delete draft['gait-by'];
  // A report carries nothing only hands on the foot can tell.
  if (draft.kind === 'report' || draft.kind === 'missed') withoutHands(r);
  if (draft.by === undefined)
    r.ask(
      behind,
      behind,
      'no-name',
      { called: meant.called },
      r.context.business.people?.map(({ name }) => ({ label: name, text: ` by "${name}".` })) ?? [],
    );
}

const gone = /^(?:sold|market|culled|died|dead|shot|slaughtered|gone|left|put down)$/;

function isDoubtful({ draft, items }: VisitReader, { sections }: Meant): boolean {
  if (Object.keys(draft).length > 0) return false;
  const words = sections.flatMap(({ from, to }) => items.slice(from, to));
  const absent = words.some(
    (one, at) =>
      one.is.has('missed') ||
      (one.is.has('negation') &&
        words
          .slice(at + 1, at + 6)
          .some(({ bare }) =>
            /^(?:in|got|get|up|there|here|done|do|come|came|brought|find|found|see|seen)$/.test(bare),
          )),
  );
  return absent && !words.some(({ bare }) => gone.test(bare));
}

/** Somebody of the farm whose word it is: `Len says`, `sold says Len`. */
function sectionReporter(r: VisitReader, { sections }: Meant): PersonSaid | undefined {
  for (const { from, to } of sections)
    for (let at = from; at < to; at += 1) {
      const { person } = r.items[at]!;
      if (
        person?.role === 'farm' &&
        [r.items[at - 1], r.items[at + 1]].some((one) => one && (one.is.has('says') || one.is.has('call')))
      )
        return person;
    }
  return undefined;
}

function withoutHands(r: VisitReader): void {
  const { draft } = r;
  const untake = (keys: RegExp): void => {
    for (const piece of r.pieces.filter(({ as }) => as !== undefined && keys.test(as)))
      for (let at = piece.own[0]; at < piece.own[1]; at += 1) r.taken.delete(at);
  };
  for (const [name, found] of Object.entries(draft.found ?? {})) {
    for (const key of ['top', 'wall', 'width', 'length', 'depth', 'distance', 'tool', 'top-found'] as const)
      if (found[key] !== undefined) delete found[key];
    untake(/: (?:top|wall|width|length|depth|distance|tool|top-found) /);
    if (found.state !== undefined && r.notLifted) delete found.state;
    if (found.gone) delete found.gone;
    if (Object.keys(found).length === 0) delete draft.found![name];
  }
  if (Object.keys(draft.found ?? {}).length === 0) delete draft.found;
  if (draft.trimmed || draft['cut-back']) {
    delete draft.trimmed;
    delete draft['cut-back'];
    untake(/^(?:trimmed|cut-back)/);
  }
}

/** Why she was missed: the rest of what is said of her there. */
function whyMissed(r: VisitReader, { from, to }: { from: number; to: number }): string {
  const start = r.start(from, false);
  const end = r.end(to, false);
  const trimmed = (a: number, b: number): string =>
    a < b
      ? r.text.slice(r.items[a]!.from, r.items[b - 1]!.to).replace(/^[\s,;:()–—-]+|[\s,;:()–—-]+$/g, '')
      : '';
  const behind = trimmed(to, end);
  let first = start;
  while (first < from && (r.taken.has(first) || saysNothing(r.items[first]!))) first += 1;
  const isBehind = /\p{L}{2}/u.test(behind);
  const words = isBehind ? behind : trimmed(first, to);
  for (let at = isBehind ? to : first; at < (isBehind ? end : to); at += 1) r.taken.add(at);
  r.say(isBehind ? to : first, isBehind ? end : to, 'why');
  return words === '' ? r.items[from]!.text : words;
}

/**
 * A finding without a word on its state: a gap or an ulcer that is measured today and was not healed before is open.
 * Covered and healed are never taken for granted; a sign alone is told of the foot.
 */
function stateOfEach(r: VisitReader, behind: number): void {
  for (const [name, found] of Object.entries(r.draft.found ?? {})) {
    const code = r.codeOf(name);
    if (
      code === undefined ||
      found.lifted === false ||
      (found.state ?? found.stage ?? found.joined) !== undefined
    )
      continue;
    if (r.draft.kind === 'report' || r.draft.kind === 'missed') continue;
    const isSkin = lesionKinds[code].measures.has('stage');
    const measured = [found.top, found.wall, found.length, found.width, found.depth].some(
      (length) => (length ?? 0) > 0,
    );
    const before = r.before(name, 'state');
    const askedAlready = r.questions.some(
      ({ id, ask }) => (id === 'closed' || id === 'not-sure') && ask.includes(name),
    );
    const onlySigns = Object.keys(found).every((key) => key === 'signs' || key === 'gone');
    if (onlySigns && !Object.keys(r.firstMet).includes(name)) {
      const { foot } = r.declared(name)!;
      const holder = ((r.draft.feet ??= {})[foot] ??= {});
      if (found.signs) holder.signs = [...new Set([...(holder.signs ?? []), ...found.signs])];
      if (found.gone) holder.gone = [...new Set([...(holder.gone ?? []), ...found.gone])];
      delete r.draft.found![name];
    } else if (familyOf(code) === 'present') found.state = 'present';
    else if (
      !isSkin &&
      (measured ||
        found['top-found'] !== undefined ||
        found['ran-up'] ||
        found['opened-further'] ||
        found.infected) &&
      (before === undefined || before === 'open' || Object.hasOwn(r.firstMet, name))
    )
      found.state = 'open';
    else if (!askedAlready) {
      const states = isSkin ? ['M1', 'M2', 'M3', 'M4', 'M0'] : ['open', 'covered', 'healed'];
      const id = isSkin ? 'no-stage' : 'no-state';
      r.ask(
        behind,
        behind,
        id,
        { name, kind: lesionKinds[code].name },
        states.map((state) => ({ label: state, text: ` lesion ${name} ${state}.` })),
      );
    }
  }
}

/** Lesions her file does not declare that this visit speaks of. */
function declaredBy({ firstMet, draft }: VisitReader): AnimalReading['declares'] {
  const own = Object.entries(firstMet).filter(
    ([name]) => Object.hasOwn(draft.found ?? {}, name) || draft['cut-back']?.includes(name),
  );
  return own.length === 0 ? undefined : Object.fromEntries(own);
}

/** Whatever no statement took, with the words round it that make sense of it, as it stands. */
function keepRest(r: VisitReader, section: Section, bounds: ReadonlySet<number>): void {
  const { items, text } = r;
  const kept: [number, number][] = [];
  const pushed = (at: number): boolean => kept.some(([from, to]) => from <= at && at < to);
  for (let at = section.from; at < section.to; at += 1) {
    if (r.taken.has(at) || bounds.has(at) || saysNothing(items[at]!) || pushed(at)) continue;
    let from = at;
    while (from > section.from && !isBreak(items[from - 1]!)) from -= 1;
    let to = at + 1;
    while (to < section.to && !isBreak(items[to]!)) to += 1;
    // In a long run without a stop only what stands round the words.
    if (to - from > 14) {
      from = Math.max(from, at - 3);
      let last = at;
      for (let index = at; index < Math.min(to, last + 5); index += 1)
        if (!r.taken.has(index) && !saysNothing(items[index]!)) last = index;
      to = Math.min(to, last + 3);
    }
    const last = kept.at(-1);
    if (last && from <= last[1]) last[1] = to;
    else kept.push([from, to]);
  }
  for (const [from, to] of kept) {
    const stretch = stretchOf(text, items, from, to);
    r.notes.push(
      stretch.text
        .replaceAll(/\s+/g, ' ')
        .replaceAll(/"([^"]*)"/g, '$1')
        .replaceAll(/^[\s,;:–-]+|[\s,;:–-]+$/g, ''),
    );
    r.pieces.push({ ...stretch, as: undefined, own: [from, to] });
  }
}

const isBreak = (item: Item): boolean =>
  item.kind === 'line' ||
  item.kind === 'stop' ||
  (item.kind === 'mark' && /^[;()•]$/.test(item.bare)) ||
  item.bare === ',';

/** Keys in the order of the case format. */
function inOrder(draft: Partial<NoteVisit>): Partial<NoteVisit> {
  const keys = Object.keys(visit.shape) as (keyof NoteVisit)[];
  const each = Object.entries(draft.found ?? {}).map(([name, one]) => [
    name,
    Object.fromEntries(
      Object.keys(foundKeys.shape).flatMap((key) => (key in one ? [[key, one[key as keyof Found]]] : [])),
    ),
  ]);
  const whole = {
    ...draft,
    ...(draft.found ? { found: Object.fromEntries(each) as NoteVisit['found'] } : {}),
  };
  return Object.fromEntries(
    keys.filter((key) => whole[key] !== undefined).map((key) => [key, tidy(whole[key])]),
  );
}

/** Without keys that hold nothing. */
function tidy(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(tidy);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .map(([key, inner]) => [key, tidy(inner)]),
  );
}

function isWhole(draft: Partial<NoteVisit>): draft is NoteVisit {
  return draft.date !== undefined && draft.by !== undefined && draft.kind !== undefined;
}
