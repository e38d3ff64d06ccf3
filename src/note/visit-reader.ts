import type { CalendarDay } from '../record/calendar-day.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { freeNames, type Lesion } from '../record/lesion.js';
import type { Animal } from '../record/animal.js';
import type { FarmRecord } from '../record/practice.js';
import type { BlockEvent, Found } from '../record/visit.js';
import {
  type Claw,
  claws,
  type Foot,
  feet as allFeet,
  type GaitScale,
  type LesionCode,
  type Site,
} from '../record/words.js';
import { terminal } from '../problem/message.js';
import { familyOf, type LesionFamily, lesionKinds, usualLine } from '../reference/lesions.js';
import { gaitScale } from '../reference/scales.js';
import type { Values } from '../reference/words.js';
import { type DateOrder, type DaySaid, daysMeant } from './day-said.js';
import { type Item, saysNothing, stretchOf } from './item.js';
import type { Unit } from './number-said.js';
import type { Choice, NoteContext, NoteQuestion, NoteVisit, Piece } from './note-reading.js';
import { isOne } from './note-words.js';

/** Where on the animal words point, each part where it is said. */
export interface PlaceSaid {
  feet?: readonly Foot[];
  claw?: Claw;
  codes?: readonly LesionCode[];
  site?: Site;
  mark?: boolean;
  isNew?: boolean;
  /** Lesions or marks called by their own names. */
  names?: readonly string[];
}

/** Why a statement is not written as a fact: said not to be, only meant to be, or not certain. */
export interface Modality {
  denied?: number | undefined;
  planned?: number | undefined;
  doubted?: number | undefined;
  /** What was said before is put right. */
  corrected?: number | undefined;
  /** Said of an earlier day. */
  past?: number | undefined;
  both?: boolean | undefined;
  /** The kind of statement that was denied or meant for later. */
  used?: string | undefined;
}

/** So many pieces either way a clause without a stop is looked at, so that a text of any length takes time by its length. */
const longest = 80;

type Draft = { -readonly [K in keyof NoteVisit]?: NoteVisit[K] } & { found?: Record<string, Found> };

export function isScore(scale: GaitScale, score: number): boolean {
  const { lowest, highest, step } = gaitScale[scale];
  return score >= lowest && score <= highest && (score - lowest) % step === 0;
}

/** What is read of one animal on one day: the draft as it grows, what was spoken of last, what is not certain. */
export class VisitReader {
  readonly draft: Draft = {};
  readonly pieces: (Piece & { readonly own: readonly [number, number] })[] = [];
  readonly questions: NoteQuestion[] = [];
  readonly firstMet: Record<string, Lesion> = {};
  readonly notes: string[] = [];
  /** Pieces of the note a statement took; what is left of a sentence is kept. */
  readonly taken = new Set<number>();
  readonly heard: number[] = [];
  place: PlaceSaid = {};
  placeAt: readonly [from: number, to: number] = [0, 0];
  /** The foot spoken of last, whatever was said since. */
  foot: Foot | undefined;
  modality: Modality = {};
  /** The lesion measured or described last. */
  last: string | undefined;
  /** The visit as it was before the last statement, for words that take that back. */
  private undo: { draft: Draft; bared: BlockEvent[]; own: readonly [number, number] } | undefined;
  /** The value of the visit itself put last, and the days its number stood for. */
  lastPut: { readonly key: string; readonly days?: number } | undefined;
  lastKey: { readonly name: string; readonly keys: readonly (keyof Found)[] } | undefined;
  /** Lesions measured in this sentence and the one before. */
  measured: string[] = [];
  fixture: 'block' | 'wrap' | undefined;
  /** The block taken off or lost last, whose claw may be described next. */
  bared: BlockEvent[] = [];
  /** Who did what is said: word from another. */
  isMissed: { readonly from: number; readonly to: number } | undefined;
  /** The words read now: from one piece of the note up to another. */
  section: readonly [from: number, to: number] = [0, 0];
  /** Words said of several cows: what was said of her alone goes before. */
  ofSeveral = false;
  /** Lesions of which two values of one thing were said: neither is in the draft. */
  readonly contested = new Set<string>();
  /** Lesions whose state, or anything of which, is asked about already. */
  readonly inDoubt = new Set<string>();
  notLifted = false;
  /** The unit of the length before. */
  lastUnit: Unit | undefined;
  /** Said above all animals: no foot of any was lifted. */
  isWordOnly = false;
  saidI = false;
  reporter: string | undefined;

  constructor(
    readonly text: string,
    readonly items: readonly Item[],
    readonly context: NoteContext,
    readonly farm: FarmRecord,
    readonly animal: Animal,
    readonly date: CalendarDay,
    readonly order: DateOrder,
  ) {}

  get suppressed(): boolean {
    const { denied, planned, past } = this.modality;
    return denied !== undefined || planned !== undefined || past !== undefined;
  }

  get scale(): GaitScale | undefined {
    return gaitScaleOn(this.farm.farm, this.date);
  }

  /** Says what a stretch was taken for, and that nothing of it need be kept. */
  say(from: number, to: number, as: string): void {
    for (let at = from; at < to; at += 1)
      if (this.items[at]!.kind !== 'word' || this.items[at]!.bare.length < 4 || to - from === 1)
        this.taken.add(at);
    this.pieces.push({ ...stretchOf(this.text, this.items, from, to), as, own: [from, to] });
  }

  ask(
    from: number,
    to: number,
    id: string,
    values: Values,
    choices: readonly Choice[],
    replace: { from: number; to: number } = stretchOf(this.text, this.items, from, to),
  ): void {
    const stretch = stretchOf(this.text, this.items, from, to);
    if (this.questions.some((one) => one.id === id && one.from === stretch.from)) return;
    this.questions.push({
      ...stretch,
      id,
      ask: terminal(`note.ask.${id}.ask`, values),
      mend: terminal(`note.ask.${id}.fix`, values),
      replace: { from: replace.from, to: replace.to },
      choices,
    });
    for (let at = from; at < to; at += 1) this.taken.add(at);
    if (id !== 'closed' && id !== 'not-sure') return;
    for (const name of this.lesionNames)
      if (values['name'] === name || String(values['what'] ?? '').startsWith(`${name}: `))
        this.inDoubt.add(name);
  }

  /** A doubt about what would be written: the likely answer takes the doubting word out. */
  doubt(from: number, to: number, what: string): void {
    const word = this.modality.doubted ?? to - 1;
    const { from: start, to: end } = this.items[word]!;
    this.ask(
      from,
      to,
      'not-sure',
      { what },
      [{ label: terminal('note.ask.not-sure.yes', { what }), text: '' }],
      {
        from: start,
        to: end,
      },
    );
    this.taken.add(word);
  }

  /** Two values of one thing: the later one stays where it is said to put the earlier right, else it goes. */
  /** Takes back what was written last: `put a block on, no I didn't`. False where nothing was. */
  takeBack(): boolean {
    const { undo } = this;
    if (undo === undefined) return false;
    for (const key of Object.keys(this.draft)) Reflect.deleteProperty(this.draft, key);
    Object.assign(this.draft, undo.draft);
    this.bared = undo.bared;
    const last = this.pieces.findLastIndex(({ own }) => own === undo.own);
    const piece = last < 0 ? undefined : this.pieces[last]!;
    if (piece) this.pieces.splice(last, 1, { ...piece, as: undefined });
    this.undo = undefined;
    return true;
  }

  private askWhich(
    from: number,
    to: number,
    what: string,
    one: unknown,
    other: unknown,
    forget: () => void,
  ): void {
    const { text } = stretchOf(this.text, this.items, from, to);
    forget();
    // The question is about both.
    const first = this.pieces.findLast(
      ({ as }) => as === `${what.replace(' ', ': ')} ${String(one)}` || as === `${what} ${String(one)}`,
    );
    this.ask(from, to, 'two-values', { what, one: String(one), other: String(other) }, [
      { label: String(other), text: `sorry ${text}` },
      { label: String(one), text: '' },
    ]);
    const question = this.questions.at(-1);
    if (first && question && question.from > first.from)
      this.questions[this.questions.length - 1] = { ...question, line: first.line, from: first.from, text: this.text.slice(first.from, question.to) }; // prettier-ignore
  }

  /** Writes a fact, unless it is denied, meant for later or doubted; false where the words are to be kept instead. */
  fact(from: number, to: number, what: string, write: () => void): boolean {
    const after = this.items[to];
    // `pus last time`: said of another day.
    if (this.suppressed || after?.is.has('recent')) return false;
    // `MS 1?`, `2ish`
    const behind = after?.bare === '?' || after?.bare === 'ish';
    if (behind) this.modality.doubted = to;
    if (this.modality.doubted !== undefined) {
      this.doubt(from, behind ? to + 1 : to, what);
      return true;
    }
    const before = structuredClone(this.draft);
    const { bared } = this;
    write();
    this.say(from, to, what);
    this.undo = { draft: before, bared: [...bared], own: this.pieces.at(-1)!.own };
    this.lastPut = undefined;
    return true;
  }

  /** A value of the visit itself. */
  put<
    K extends
      | 'at'
      | 'kind'
      | 'gait'
      | 'gait-by'
      | 'condition'
      | 'weight'
      | 'pain-relief'
      | 'recheck'
      | 'tools-disinfected'
      | 'saw-expected',
  >(from: number, to: number, key: K, value: NonNullable<Draft[K]>): boolean {
    const before = this.draft[key];
    if (this.ofSeveral && before !== undefined) return true;
    if (
      before !== undefined &&
      before !== value &&
      !this.suppressed &&
      this.modality.corrected === undefined &&
      !this.deniedBehind(to, before)
    ) {
      this.askWhich(from, to, key, before, value, () => delete this.draft[key]);
      return true;
    }
    const wrote = this.fact(from, to, `${key} ${value}`, () => {
      this.draft[key] = value;
    });
    if (wrote) this.lastPut = { key };
    return wrote;
  }

  /** `29, not 30`: the value before is taken back by the words behind. */
  deniedBehind(at: number, value: unknown): boolean {
    const next = this.skip(at);
    if (!this.items[next]?.is.has('negation')) return false;
    const number = this.skip(next + 1);
    const said = this.items[number]?.number?.value;
    if (said === undefined || said !== value) return false;
    for (let index = next; index <= number; index += 1) this.taken.add(index);
    return true;
  }

  found(name: string): Found {
    this.draft.found ??= {};
    return (this.draft.found[name] ??= {});
  }

  /** A value of what was found of lesions, each under its name. */
  putFound<K extends keyof Found>(
    from: number,
    to: number,
    names: readonly string[],
    key: K,
    value: Found[K],
  ): boolean {
    const fresh = names.filter((name) => this.draft.found?.[name]?.[key] !== value);
    const clash = fresh.find((name) => this.draft.found?.[name]?.[key] !== undefined);
    if (clash !== undefined && this.items[from - 1]?.bare === 'was' && this.modality.corrected === undefined)
      return false;
    if (
      clash !== undefined &&
      !this.suppressed &&
      this.modality.corrected === undefined &&
      !this.deniedBehind(to, this.draft.found![clash]![key])
    ) {
      const before = this.draft.found![clash]![key];
      this.contested.add(clash);
      this.askWhich(from, to, `${clash} ${key}`, before, value, () => delete this.draft.found![clash]![key]);
      return true;
    }
    return this.fact(from, to, `${names.join(', ')}: ${key} ${String(value)}`, () => {
      for (const name of names) this.found(name)[key] = value;
    });
  }

  /** Past pieces that say nothing and commas, within the sentence; `list`: the small words also passed over. */
  skip(at: number, list?: string): number {
    let next = at;
    while (this.items[next] !== undefined && next < at + 14) {
      const item = this.items[next]!;
      if (item.kind === 'line' || item.kind === 'stop') break;
      if (!saysNothing(item) && !(list !== undefined && isOne(list, item.bare))) break;
      next += 1;
    }
    return next;
  }

  /** The first piece of a clause's end: a full stop, a line's end, or a comma where that parts. */
  end(at: number, comma = true): number {
    let next = at;
    while (next < this.items.length && next < at + longest) {
      const { kind, bare } = this.items[next]!;
      if (kind === 'line' || kind === 'stop' || (comma && kind === 'mark' && /^[,(]$/.test(bare))) break;
      next += 1;
    }
    return next;
  }

  start(at: number, comma = true): number {
    let from = at;
    while (from > 0 && from > at - longest) {
      const { kind, bare } = this.items[from - 1]!;
      if (kind === 'line' || kind === 'stop' || (comma && kind === 'mark' && /^[,()]$/.test(bare))) break;
      from -= 1;
    }
    return from;
  }

  declared(name: string): (Pick<Lesion, 'foot' | 'claw'> & { readonly code?: LesionCode }) | undefined {
    return this.animal.lesions[name] ?? this.firstMet[name] ?? this.animal.marks?.[name];
  }

  get lesionNames(): string[] {
    return [...Object.keys(this.animal.lesions), ...Object.keys(this.firstMet)];
  }

  codeOf(name: string): LesionCode | undefined {
    const earlier = this.animal.visits
      .filter(({ date }) => date < this.date)
      .findLast((one) => one.found?.[name]?.code);
    return earlier?.found?.[name]?.code ?? this.animal.lesions[name]?.code ?? this.firstMet[name]?.code;
  }

  /** What was last found of it before this day. */
  before<K extends keyof Found>(name: string, key: K): Found[K] | undefined {
    return this.animal.visits.filter(({ date }) => date < this.date).findLast((one) => one.found?.[name]?.[key] !== undefined)?.found?.[name]?.[key]; // prettier-ignore
  }

  isOpen(name: string): boolean {
    const [state, stage] = [this.before(name, 'state'), this.before(name, 'stage')];
    return (
      state !== 'healed' &&
      (state !== undefined || stage !== 'M0') &&
      this.before(name, 'joined') === undefined
    );
  }

  /** Her lesions of some families that the place spoken of may mean, the open ones where any is. */
  candidates(families: readonly LesionFamily[], place = this.place): string[] {
    if (place.names) return place.names.filter((name) => this.isOf(name, families));
    const of = (strict: boolean): string[] =>
      this.lesionNames.filter((name) => {
        const lesion = this.declared(name)!;
        const code = this.codeOf(name)!;
        if (!families.includes(familyOf(code))) return false;
        if (place.codes && !place.codes.includes(code)) return false;
        if (place.feet && !place.feet.includes(lesion.foot)) return false;
        if (place.claw && lesion.claw && place.claw !== lesion.claw) return false;
        if (
          place.site &&
          this.animal.lesions[name]?.site !== undefined &&
          strict &&
          place.site !== this.animal.lesions[name].site
        )
          return false;
        return true;
      });
    const strict = of(true);
    let fit = strict.length > 0 ? strict : of(false);
    // `crack` is said of any gap: where none of hers there is one by its name, the only gap there is meant.
    const { codes, feet } = place;
    const isLoose = codes && oneCode(codes) === undefined && codes.every((code) => familyOf(code) === 'wall');
    if (fit.length === 0 && isLoose && feet?.length === 1) {
      const { codes: _, ...there } = place;
      fit = this.candidates(
        families.filter((family) => family === 'wall'),
        there,
      );
      if (fit.length > 1) fit = [];
    }
    const open = fit.filter((name) => this.isOpen(name));
    return open.length > 0 ? open : fit;
  }

  private isOf(name: string, families: readonly LesionFamily[]): boolean {
    const code = this.codeOf(name);
    return code !== undefined && families.includes(familyOf(code));
  }

  /**
   * The lesions a statement is about: those of the place spoken of, of the foot spoken of last where that leaves several,
   * a lesion first met where the words declare one. Undefined where it cannot be known.
   */
  lesionsFor(families: readonly LesionFamily[], near?: (name: string) => boolean): string[] | undefined {
    const { place } = this;
    if (place.isNew && place.codes && place.feet?.length === 1) return this.meet(families);
    let fit = this.candidates(families);
    if (fit.length > 1 && (place.feet?.length ?? 0) > 1) return fit;
    if (fit.length > 1 && this.last !== undefined && fit.includes(this.last)) fit = [this.last];
    if (fit.length > 1 && !place.feet && this.foot) {
      const there = fit.filter((name) => this.declared(name)!.foot === this.foot);
      if (there.length > 0) fit = there;
    }
    if (fit.length > 1 && near) {
      const close = fit.filter(near);
      if (close.length > 0) fit = close;
    }
    if (fit.length === 1) return fit;
    if (fit.length > 1) return undefined;
    if (place.codes && place.codes.some((code) => families.includes(familyOf(code))))
      return this.meet(families);
    if (place.codes) return undefined;
    // The place said something of another kind: what remains of it is the foot.
    const wider = this.candidates(families, place.feet ? { feet: place.feet } : {});
    return wider.length === 1 && !place.claw ? wider : undefined;
  }

  /** Asks which of several lesions a stretch is about; false where not several may be meant. */
  askLesion(from: number, to: number, families: readonly LesionFamily[]): boolean {
    const fit = this.candidates(families);
    if (fit.length < 2 || this.suppressed || this.place.isNew) return false;
    const { text } = stretchOf(this.text, this.items, from, to);
    const choices = fit.map((name) => {
      const { foot, claw } = this.declared(name)!;
      const label = [name, lesionKinds[this.codeOf(name)!].name, [foot, claw].filter(Boolean).join(' ')].join(
        ', ',
      );
      return { label, text: ` lesion ${name} ${text}` };
    });
    this.ask(from, to, 'which-lesion', {}, choices);
    return true;
  }

  /** Declares a lesion first met where foot, kind and what else it needs are said; else asks. */
  private meet(families: readonly LesionFamily[]): string[] | undefined {
    const { place } = this;
    if (this.suppressed) return undefined;
    const foot = place.feet?.length === 1 ? place.feet[0] : undefined;
    const code = oneCode((place.codes ?? []).filter((one) => families.includes(familyOf(one))));
    const kinds = (place.codes ?? []).filter((one) => families.includes(familyOf(one)));
    if (
      foot !== undefined &&
      code === undefined &&
      kinds.length > 1 &&
      kinds.every((one) => familyOf(one) === 'ulcer')
    )
      return this.askNew(
        foot,
        kinds[0]!,
        [],
        kinds.map((one) => ['new', foot, place.claw, one].filter((part) => part !== undefined).join(' ')),
      );
    if (foot === undefined || code === undefined) return undefined;
    const same = (name: string): boolean =>
      this.firstMet[name]?.code === code && this.firstMet[name].foot === foot;
    const there = Object.keys(this.firstMet).find(same);
    if (there !== undefined) return [there];
    // The same note taken before has declared it on this very day.
    const today = this.lesionNames.find((name) => {
      const one = this.declared(name)!;
      const seen = this.animal.visits.filter(({ found }) => found?.[name] !== undefined);
      return (
        this.codeOf(name) === code &&
        one.foot === foot &&
        (place.claw === undefined || one.claw === undefined || one.claw === place.claw) &&
        seen.length > 0 &&
        seen.every(({ date }) => date >= this.date)
      );
    });
    if (today !== undefined) return [today];
    const family = familyOf(code);
    const near = this.lesionNames.filter(
      (name) => familyOf(this.codeOf(name)!) === family && this.isOpen(name),
    );
    const here = near.filter((name) => this.declared(name)!.foot === foot);
    const said = (claw = place.claw, site = place.site): string => ['new', foot, claw, code, site].filter((part) => part !== undefined).join(' '); // prettier-ignore
    const needsClaw =
      family !== 'dermatitis' &&
      (family !== 'present' || lesionKinds[code].sites?.has('between claws') !== true);
    const line = place.site && usualLine(place.site);
    const claw = needsClaw ? place.claw : undefined;
    if (needsClaw && claw === undefined)
      return this.askNew(
        foot,
        code,
        here,
        claws.map((one) => said(one)),
      );
    if (family === 'wall' && line === undefined) {
      const sites = [...(lesionKinds[code].sites ?? [])].filter((site) => usualLine(site) !== undefined);
      return this.askNew(
        foot,
        code,
        here,
        sites.map((site) => said(place.claw, site)),
      );
    }
    // One of this kind is there, or on another foot, and nobody said that this is another: a slip, or another name for it.
    const slip = near.some((name) => {
      const one = this.declared(name)!;
      return (
        this.codeOf(name) === code &&
        one.claw === claw &&
        family !== 'dermatitis' &&
        !this.draft.found?.[name] &&
        (place.site === undefined || this.animal.lesions[name]?.site === place.site)
      );
    });
    if (place.isNew ? family === 'dermatitis' && here.length > 0 : here.length > 0 || slip)
      return this.askNew(foot, code, near, [said()]);
    const again = this.lesionNames.find((name) => {
      const one = this.declared(name)!;
      return one.foot === foot && one.claw === place.claw && this.codeOf(name) === code && !this.isOpen(name);
    });
    const [name] = freeNames('lesions', [...this.lesionNames, ...Object.keys(this.animal.marks ?? {})]);
    this.firstMet[name!] = {
      code,
      foot,
      ...(claw ? { claw } : {}),
      ...(place.site ? { site: place.site } : {}),
      ...(family === 'wall' && line ? { line } : {}),
      ...(again === undefined ? {} : { 'again-of': again }),
    };
    const [from, to] = this.placeAt;
    const where = [foot, claw].filter(Boolean).join(' ');
    const as = terminal('note.first-met', { name: name!, kind: lesionKinds[code].name, place: where });
    this.pieces.push({ ...stretchOf(this.text, this.items, from, to), as, own: [from, to] });
    return [name!];
  }

  /** Asks what the words for a lesion mean that none on file fits: a new one, with what is missing of it, or one of hers. */
  private askNew(foot: Foot, code: LesionCode, hers: readonly string[], texts: readonly string[]): undefined {
    const [from, to] = this.placeAt;
    this.ask(from, to, 'new-lesion', { kind: lesionKinds[code].name, place: foot }, [
      ...texts.map((text) => ({ label: text, text })),
      ...hers.map((name) => ({
        label: `${name}, ${lesionKinds[this.codeOf(name)!].name}, ${this.declared(name)!.foot}`,
        text: `lesion ${name}`,
      })),
    ]);
  }

  /** Blocks on her by the record and by what was said of this day. */
  blocksOn(): { readonly foot: Foot; readonly claw: Claw }[] {
    const events = [...this.earlier().flatMap(({ blocks }) => blocks ?? []), ...(this.draft.blocks ?? [])];
    return allFeet.flatMap((foot) =>
      claws.flatMap((claw) => {
        const last = events.findLast((one) => one.foot === foot && one.claw === claw);
        return isOn(last?.event) ? [{ foot, claw }] : [];
      }),
    );
  }

  wrapsOn(): Foot[] {
    const events = [...this.earlier().flatMap(({ wraps }) => wraps ?? []), ...(this.draft.wraps ?? [])];
    return allFeet.filter((foot) => isOn(events.findLast((one) => one.foot === foot)?.event));
  }

  private earlier(): Animal['visits'] {
    return this.animal.visits.filter((visit) => visit.date < this.date);
  }

  /** The day something happened on or is to be done by; undefined where the day given does not exist. */
  day(said: DaySaid, pick: 'latest' | 'next'): CalendarDay | undefined {
    return this.days(said, pick)[0];
  }

  /** The days that may be meant, the likelier first: those on the right side of the visit where any is. */
  days(said: DaySaid, pick: 'latest' | 'next'): CalendarDay[] {
    const { date, order } = this;
    // `today` in a visit's lines is the visit's day.
    const days = daysMeant(said, { pick, from: date, today: date, order });
    const fit = days.filter((day) => (pick === 'latest' ? day <= date : day >= date));
    return fit.length > 0 ? fit : days;
  }
}

/** `WL`, also where the words cover the narrower names of it (`WLA`, `WLF`); undefined where they leave several kinds. */
export function oneCode(codes: readonly LesionCode[]): LesionCode | undefined {
  const [code] = codes;
  return code !== undefined && codes.every((other) => other.startsWith(code)) ? code : undefined;
}

function isOn(event: string | undefined): boolean {
  return event !== undefined && event !== 'removed' && event !== 'lost';
}

export const opposite = (claw: Claw): Claw => (claw === 'inner' ? 'outer' : 'inner');
