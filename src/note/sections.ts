import type { CalendarDay } from '../record/calendar-day.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { isOne } from './note-words.js';
import { isScore } from './visit-reader.js';
import { type DaySaid, daysMeant } from './day-said.js';
import { type Item, type PersonSaid, saysNothing } from './item.js';
import type { NoteContext } from './note-reading.js';
import { endOfSentence, past, saidOfSeveral } from './said-of-several.js';

/** What holds for the animals that follow: said above them, or nowhere and then undefined. */
export interface Heading {
  farm: string | undefined;
  /** `back`: so many days from the day said: `yesterday's work, written up on the 28th`. */
  day: { readonly said: DaySaid; readonly at: number; readonly back?: number } | undefined;
  by: string | undefined;
  /** Who sent word, where the work is not the writer's own. */
  reporter: PersonSaid | undefined;
}

/** The pieces that speak of one animal, in the order of the note. */
export interface Section {
  /** Figures of her number as said. */
  readonly called: string;
  readonly mention: { readonly from: number; readonly to: number };
  readonly heading: Heading;
  readonly isNew: boolean;
  /** Words said of several at once: `the other four 4 weeks`. */
  readonly ofSeveral?: true;
  from: number;
  to: number;
}

export interface Sections {
  readonly sections: readonly Section[];
  /** Pieces that speak of no animal: farms, days, who did the work, greetings. */
  readonly outside: readonly (readonly [from: number, to: number, as: string | undefined])[];
}

/** A number without leading zeros, a name in small letters. */
const bare = (called: string): string => called.toLowerCase().replace(/^0+(?=\d)/, '');

/** So many figures of a tag's end are enough to tell her by. */
const tail = 4;

/** The cases of a farm that a number or a name may mean. */
export function casesCalled(farm: FarmRecord | undefined, figures: string): CaseRecord[] {
  return (farm?.cases ?? []).filter(
    ({ slug, animal }) => bare(slug) === bare(figures) || bare(animal.animal) === bare(figures),
  );
}

/** The cases of a farm whose tag ends with the figures. */
export function casesByTag(farm: FarmRecord | undefined, figures: string): CaseRecord[] {
  if (!/^\d+$/.test(figures) || figures.length < tail) return [];
  return (farm?.cases ?? []).filter(({ animal: { tag, electronic } }) =>
    [tag, electronic].some((one) => one?.replaceAll(/\D/g, '').endsWith(figures) === true),
  );
}

/** Cuts a note into its heading, what is said of each animal, and what is said of none. */
export function sectionsOf(items: readonly Item[], context: NoteContext): Sections {
  return new Cutter(items, context).cut();
}

class Cutter {
  private readonly sections: Section[] = [];
  private readonly outside: [number, number, string | undefined][] = [];
  private heading: Heading = { farm: undefined, day: undefined, by: undefined, reporter: undefined };
  private readonly farms: ReadonlyMap<string, FarmRecord>;
  /** Numbers on each farm, without leading zeros. */
  private readonly numbers: ReadonlyMap<string, ReadonlySet<string>>;
  private readonly anywhere: ReadonlySet<string>;
  private sentence = 0;
  /** The heading whose own day was said, not that of one before it. */
  private dayIn: Heading | undefined;
  /** `Two new ones`: numbers without a case that follow are new. */
  private newOnes = false;

  constructor(
    private readonly items: readonly Item[],
    private readonly context: NoteContext,
  ) {
    this.farms = new Map(context.farms.map((farm) => [farm.slug, farm]));
    this.numbers = new Map(
      context.farms.map(({ slug, cases }) => [slug, new Set(cases.flatMap(({ slug: own, animal }) => [own, animal.animal, ...(animal.earlier ?? []).flatMap((one) => one.animal ?? [])].map(bare)))]), // prettier-ignore
    );
    this.anywhere = new Set([...this.numbers.values()].flatMap((all) => [...all]));
    this.heading.farm = context.farm;
  }

  cut(): Sections {
    const { items } = this;
    let loose = 0;
    for (let at = 0; at < items.length;) {
      const { kind } = items[at]!;
      if (kind === 'line' || kind === 'stop') {
        if (this.current === undefined) this.say(loose, at);
        this.sentence = at + 1;
        at += 1;
        if (this.current === undefined) loose = at;
        else this.current.to = at;
        if (this.isPlan(at)) {
          const end = endOfSentence(this.items, at);
          this.outside.push([at, end, 'plan']);
          if (this.current) this.close(at, end);
          loose = end;
          at = end;
          continue;
        }
        if (this.isTalk(at)) {
          const end = endOfSentence(this.items, at);
          this.signedBy(at, end);
          this.outside.push([at, end, 'talk']);
          if (this.current) this.close(at, end);
          loose = end;
          at = end;
        }
        continue;
      }
      if (items[at]!.is.has('new-cow') && items[at]!.bare.endsWith('ones')) this.newOnes = true;
      const several = this.severalAt(at);
      if (several !== undefined) {
        at = several;
        loose = at;
        continue;
      }
      const wasOpen = this.current !== undefined;
      const head = this.headAt(at);
      if (head !== undefined) {
        if (!wasOpen) this.say(loose, at);
        at = head;
        loose = at;
        continue;
      }
      const mention = this.mentionAt(at);
      if (mention !== undefined) {
        const from = this.begin(at, mention, loose);
        if (from > loose && this.sections.length === 1) this.say(loose, from);
        at = mention;
        loose = at;
        continue;
      }
      at += 1;
      if (this.current) this.current.to = at;
    }
    if (this.current === undefined) this.say(loose, items.length);
    this.group();
    return { sections: this.sections, outside: this.outside };
  }

  private get current(): Section | undefined {
    const last = this.sections.at(-1);
    return last && last.to >= 0 && this.open ? last : undefined;
  }
  private open = false;

  private close(at: number, next: number): void {
    const last = this.sections.at(-1)!;
    last.to = at;
    // What follows the talk is still hers.
    this.sections.push({ ...last, from: next, to: next });
  }

  private say(from: number, to: number, as?: string): void {
    if (
      from < to &&
      !this.items.slice(from, to).every(({ kind }) => kind === 'line' || kind === 'stop' || kind === 'mark')
    )
      this.outside.push([from, to, as]);
  }

  /** Words for all cows before, or all but the last; the first piece behind them. */
  private severalAt(at: number): number | undefined {
    const hers = (): Section[] =>
      this.sections.filter(({ heading, ofSeveral }) => heading.farm === this.heading.farm && !ofSeveral);
    const said = saidOfSeveral(this.items, at, {
      sentence: this.sentence,
      called: () => [...new Set(hers().map((one) => one.called))],
      names: (index) => this.mentionAt(index) !== undefined,
    });
    if (said === undefined) return undefined;
    const all = hers();
    for (const called of said.of)
      this.sections.push({
        ...all.find((section) => section.called === called)!,
        from: at,
        to: said.to,
        ofSeveral: true,
      });
    this.open = false;
    this.outside.push([said.cue, said.cue + 1, 'said of several']);
    return said.to;
  }

  /** `Plan for Monday: 2291 block off, 55 new block`: what is before the colon holds for all behind it. */
  private isPlan(at: number): boolean {
    const end = endOfSentence(this.items, at);
    const colon = this.items.findIndex((item, index) => index > at && index < end && item.bare === ':');
    if (colon < 0 || colon > at + 12) return false;
    const head = this.items.slice(at, colon);
    return (
      head.some(({ is }) => is.has('plan')) &&
      !head.some(
        ({ kind, figures, is }) =>
          (kind === 'number' && figures !== undefined) || is.has('foot') || is.has('recheck'),
      ) &&
      this.items.slice(colon, end).some((_, index) => this.mentionAt(colon + 1 + index) !== undefined)
    );
  }

  /** Greetings and the like between the lines: words of talk, and none of an animal, a foot or a number. */
  private isTalk(at: number): boolean {
    const end = endOfSentence(this.items, at);
    const words = this.items.slice(at, end);
    const own = words.some(({ is }) => is.has('talk'));
    return (
      own &&
      !words.some(
        (one, n) =>
          this.isTrade(one) || isOne('she', one.bare) || (one.person && words[n + 1]?.bare === 'here'),
      )
    );
  }

  /** `Regards Zenek` under the note, with nothing behind it: who wrote all of it. */
  private signedBy(at: number, end: number): void {
    const words = this.items.slice(at, end).filter(({ kind }) => kind !== 'mark');
    const name = words.at(-1)?.person;
    const under = this.items.slice(end).every(({ kind }) => kind === 'line' || kind === 'stop');
    if (words.length !== 2 || !isOne('signs off', words[0]!.bare) || name?.role !== 'people' || !under)
      return;
    for (const { heading } of this.sections) heading.by ??= name.name;
    this.heading.by ??= name.name;
  }

  private isTrade({ kind, is, figures, farm }: Item): boolean {
    if (
      farm !== undefined ||
      kind === 'pair' ||
      kind === 'number' ||
      kind === 'day' ||
      kind === 'span' ||
      figures !== undefined
    )
      return true;
    return kind === 'phrase' && ['foot', 'lesion', 'block', 'wrap', 'gait', 'sign', 'state', 'vet-noun', 'pain', 'recheck', 'trimmed', 'missed', 'task', 'tools-disinfected', 'cow'].some((one) => is.has(one)) && !is.has('talk'); // prettier-ignore
  }

  /** A farm, a day or a name that heads what follows; the first piece behind it. */
  private headAt(at: number): number | undefined {
    const item = this.items[at]!;
    if (item.kind === 'farm') return this.farmAt(at);
    if (item.kind === 'day' && this.isHeadDay(at)) {
      const behind = this.isBehindMention(at);
      if (!this.setDay(at)) return undefined;
      if (this.current && !behind) this.open = false;
      this.outside.push([at, at + 1, 'day']);
      return at + 1;
    }
    if (item.kind === 'person') return this.personAt(at);
    return this.strangerAt(at);
  }

  /** `it's Lleucu at Pantgwlor`: somebody the records do not name says who writes. */
  private strangerAt(at: number): number | undefined {
    const [before, item, after] = [this.items[at - 1], this.items[at]!, this.items[at + 1]];
    const [dot, surname] = [after, this.items[at + 2]];
    // `visit note - T. Aldwinkle`, but not `for I. Colefax`.
    const initial =
      /^\p{Lu}$/u.test(item.text) &&
      dot?.bare === '.' &&
      surname?.kind === 'word' &&
      /^\p{Lu}\p{Ll}{2,}$/u.test(surname.text);
    if (
      initial &&
      this.sections.length === 0 &&
      this.heading.by === undefined &&
      /^[-–—(]$/.test(before?.bare ?? '')
    ) {
      this.heading.by = `${item.text}. ${surname.text}`;
      this.outside.push([at, at + 3, 'by']);
      return at + 3;
    }
    const isName = item.kind === 'word' && /^\p{Lu}\p{Ll}{2,}$/u.test(item.text);
    // `… 11/30/26 - Dwight` above the cows, `-Dwight` under them.
    const signs =
      isName && /^[-–—]$/.test(before?.bare ?? '') && (after === undefined || after.kind === 'line');
    const under =
      signs &&
      this.sections.length > 0 &&
      this.items.slice(at + 1).every(({ kind }) => kind === 'line' || kind === 'stop');
    const above =
      this.sections.length === 0 && this.heading.farm !== undefined && this.heading.day !== undefined;
    if (signs && (above || (under && ['line', 'stop'].includes(this.items[at - 2]?.kind ?? '')))) {
      for (const { heading } of this.sections) heading.by ??= item.text;
      this.heading.by ??= item.text;
      this.open = false;
      this.outside.push([at - 1, at + 1, 'by']);
      return at + 1;
    }
    if (!isName || this.sections.length > 0 || this.heading.by !== undefined) return undefined;
    if (!isOne('it is', before?.bare) || !(after?.kind === 'farm' || isOne('at a farm', after?.bare)))
      return undefined;
    this.heading.by = item.text;
    this.outside.push([at, at + 1, 'by']);
    return at + 1;
  }

  private farmAt(at: number): number | undefined {
    const slug = this.items[at]!.farm!;
    if (this.items[at - 1]?.bare === 'from' && this.current) return undefined;
    if (this.current && !this.isBehindMention(at)) {
      // Named in the middle of what is said of her: only a heading where something begins behind it.
      const next = past(this.items, at + 1);
      const begins = this.items[next] === undefined || this.items[next].kind === 'day' || this.items[next].kind === 'line' || this.mentionAt(next, slug) !== undefined; // prettier-ignore
      const starts = past(this.items, this.sentence) === at;
      if (!begins && !starts) return undefined;
      if (slug === this.heading.farm && !starts && this.items[next]?.kind !== 'day') return undefined;
    }
    if (this.isBehindMention(at)) this.sections.at(-1)!.heading.farm = slug;
    else {
      this.open = false;
      if (this.heading.farm !== slug && this.sections.length > 0) this.heading = { ...this.heading };
      else this.heading = { ...this.heading };
    }
    this.heading.farm = slug;
    this.outside.push([at, at + 1, 'farm']);
    return at + 1;
  }

  /** Nothing was said of her yet: a farm or a day right behind her number is said of her too. */
  private isBehindMention(at: number): boolean {
    const last = this.sections.at(-1);
    if (!last || !this.open) return false;
    for (let index = last.mention.to; index < at; index += 1) {
      const item = this.items[index]!;
      if (!saysNothing(item) && item.kind !== 'farm' && item.kind !== 'day') return false;
      if (item.kind === 'line' || item.kind === 'stop') return false;
    }
    return true;
  }

  private isHeadDay(at: number): boolean {
    const { items } = this;
    const said = items[at]!.day!;
    const before = items[at - 1];
    if (
      before &&
      ['until', 'recheck', 'plan'].some((kind) => before.is.has(kind)) &&
      before.bare !== 'to' &&
      before.bare !== 'over'
    )
      return false;
    if (this.isBehindMention(at))
      return said.weekday === undefined || said.day !== undefined || said.either !== undefined;
    const whole = said.iso !== undefined || said.day !== undefined || said.either !== undefined;
    if (!this.current) {
      if (this.sections.length > 0 && !whole && said.relative === undefined) return false;
      return this.daysOf(said).some((day) => day <= this.context.today);
    }
    if (said.relative !== undefined && said.relative < 0 && items[past(this.items, at + 1)]?.kind === 'farm')
      return true;
    if (!whole) return false;
    // At the beginning of a line, with an animal, a sign or nothing behind it.
    let start = at - 1;
    while (start >= 0 && items[start]!.kind === 'mark') start -= 1;
    if (start >= 0 && items[start]!.kind !== 'line') return items[start]!.kind === 'farm';
    const next = items[at + 1];
    return next === undefined || next.kind === 'line' || next.bare === ':' || next.bare === '-' || next.kind === 'person' || next.kind === 'farm' || this.mentionAt(at + 1) !== undefined || this.mentionAt(at + 2) !== undefined; // prettier-ignore
  }

  private daysOf(said: DaySaid): CalendarDay[] {
    return daysMeant(said, {
      pick: 'latest',
      from: this.context.today,
      today: this.context.today,
      order: { first: 'day-first', sure: false },
    });
  }

  /** The fullest of several days said above the first animal is meant; later ones begin anew. */
  private setDay(at: number): boolean {
    const said = this.items[at]!.day!;
    const rank = (one: DaySaid): number => (one.iso !== undefined || one.month !== undefined || one.either ? 3 : one.day !== undefined ? 2.5 : one.relative !== undefined ? 2 : 1); // prettier-ignore
    const last = this.sections.at(-1);
    const before = this.heading.day;
    const back = before?.said.relative;
    // `yesterday's work, wrote up today 28th`, and `from yesterday, Quernholt: …` in a note with a day of its own.
    const between = this.items.slice((before?.at ?? at) + 1, at);
    const writes = between.some((item) => isOne('written on', item.bare) || item.day?.relative === 0);
    if (back !== undefined && back < 0 && writes && (rank(said) > 2 || said.relative === 0) && !last) {
      if (rank(said) > 2) this.heading.day = { said, at, back };
      return true;
    }
    if (
      said.relative !== undefined &&
      said.relative < 0 &&
      before &&
      rank(before.said) > 2 &&
      this.items[past(this.items, at + 1)]?.kind === 'farm'
    ) {
      this.heading = { ...this.heading, day: { said: before.said, at, back: said.relative } };
      this.dayIn = this.heading;
      return true;
    }
    if (this.isBehindMention(at)) {
      if (last!.heading.day && this.items[at - 1]?.kind !== 'farm') return false;
      last!.heading.day = { said, at };
      return true;
    }
    const fresh = last === undefined || last.heading !== this.heading;
    if (this.dayIn === this.heading && fresh && this.heading.day && rank(this.heading.day.said) >= rank(said))
      return this.items[at - 1]?.kind === 'day' || this.items[at - 1]?.kind === 'farm';
    if (!fresh) this.heading = { ...this.heading };
    this.heading.day = { said, at };
    this.dayIn = this.heading;
    return true;
  }

  private personAt(at: number): number | undefined {
    const { items } = this;
    const person = items[at]!.person!;
    const [before, after] = [items[at - 1], items[at + 1]];
    if (person.role !== 'people') {
      // `Len rang`, `Len at Fernshackle rang`, but not `Dale called me out`.
      const call = items
        .slice(at + 1, at + 5)
        .findIndex((one) => one.is.has('call') || one.bare === 'texted');
      const near = items
        .slice(at + 1, at + 1 + Math.max(0, call))
        .every((one) => saysNothing(one) || one.farm !== undefined);
      const meOut = items[at + 2 + call]?.bare.startsWith('me') === true;
      const calls = (call >= 0 && near) || before?.bare === 'from' || after?.is.has('says') === true;
      if (!this.current && calls && !meOut) {
        const own = this.dayIn === this.heading;
        this.heading = { ...this.heading, reporter: person };
        if (own) this.dayIn = this.heading;
      }
      return undefined;
    }
    const alone = past(this.items, at + 1) >= items.length || items[at + 1]?.kind === 'line' || items[at + 1] === undefined || items[at + 1]!.bare === ','; // prettier-ignore
    const begins =
      at === 0 || ['line', 'stop'].includes(before!.kind) || before!.bare === '-' || before!.bare === '(';
    if (this.current) {
      if (!(begins && alone) || before?.bare === '(') return undefined;
      // A name under the note signs all of it.
      for (const { heading } of this.sections) heading.by ??= person.name;
      this.heading.by ??= person.name;
      this.open = false;
      this.outside.push([at, at + 1, 'by']);
      return at + 1;
    }
    const addressed = before?.is.has('talk') && before.bare !== 'here';
    if (addressed || before?.bare === 'for') return undefined;
    this.heading.by = person.name;
    this.outside.push([at, at + 1, 'by']);
    return at + 1;
  }

  private isFigureOf(figures: string, farm: string | undefined): boolean {
    return (farm === undefined ? this.anywhere : this.numbers.get(farm))?.has(bare(figures)) ?? false;
  }

  /** `the one whose tag ends in 2655`: the number of the only cow it can be. */
  private byTag(at: number, figures: string): string | undefined {
    if (!isOne('tag', this.items[at]?.bare.split(' ')[0])) return undefined;
    const farms = this.heading.farm === undefined ? this.context.farms : [this.farms.get(this.heading.farm)];
    const fit = farms.flatMap((farm) => casesByTag(farm, figures));
    return fit.length === 1 ? fit[0]!.animal.animal : undefined;
  }

  /** Where an animal's number ends that begins here; undefined where a number is no animal's. */
  private mentionAt(at: number, farm = this.heading.farm): number | undefined {
    const { items } = this;
    let number = at;
    const cue = items[at]?.is.has('cow') && items[at].bare !== 'no';
    if (items[at]?.is.has('cow')) number = at + 1;
    while (number > at && number < at + 4 && items[number] && items[number]!.figures === undefined && (saysNothing(items[number]!) && items[number]!.kind !== 'line' || items[number]!.is.has('cow'))) number += 1; // prettier-ignore
    const item = items[number];
    if (item?.figures === undefined) return undefined;
    // Her name is nobody else's.
    if (item.kind === 'name') return number + 1;
    if (item.kind !== 'number' || item.figures.length > 6 || /^0+$|^0\d{4,}/.test(item.figures))
      return undefined;
    if (items[number + 1]?.kind === 'number' && /^\d{5,}$/.test(items[number + 1]!.figures ?? ''))
      return undefined;
    return this.weight(at, number, cue === true, farm) >= 3 ? number + 1 : undefined;
  }

  private weight(at: number, number: number, cue: boolean, farm: string | undefined): number {
    const { items } = this;
    const { figures } = items[number]!;
    const known = this.isFigureOf(figures!, farm);
    const [before, after] = [items[at - 1], items[number + 1]];
    let weight = cue ? 4 : 0;
    const start =
      before === undefined ||
      before.kind === 'line' ||
      before.kind === 'stop' ||
      /^[-–—*•·>|(]$/.test(before.bare) ||
      // `4) 3390`: a list's own number.
      (before.bare === ')' && items[at - 2]?.kind === 'number' && [undefined, 'line'].includes(items[at - 3]?.kind)); // prettier-ignore
    const opens = start || past(this.items, this.sentence) === at;
    if (opens) weight += 3;
    else if (isOne('between cows', before.bare)) weight += 1;
    // `not like 341`, `that was 341 last month`: of another cow, told in passing.
    const told = before?.bare === 'was' && items[at - 2]?.bare.startsWith('that') === true;
    if (told || isOne('not her', before?.bare)) return 0;
    if (known) weight += figures!.length >= 3 ? 3 : 0;
    else
      weight -=
        figures!.length >= 3
          ? before === undefined || before.kind === 'line'
            ? 0
            : 1
          : start && before?.kind !== 'line' && before !== undefined
            ? 4
            : 2;
    if (after?.is.has('foot') || after?.is.has('lesion') || after?.is.has('side') || after?.is.has('claw'))
      weight += 2;
    // `no block 77 RH`, without a stop between.
    if (known && figures!.length < 3 && after?.is.has('foot') && !(before?.kind === 'phrase' && this.wantsNumber(before, figures!, farm))) weight += 1; // prettier-ignore
    if (after?.bare === ':' || after?.bare === '-' || after?.bare === '–') weight += opens ? 2 : 0;
    if (after?.bare === '' || (after?.bare === 's' && after.glued)) weight += 3;
    if (
      after &&
      ['block', 'gait', 'missed', 'kind', 'event', 'new-cow', 'wrap'].some((kind) => after.is.has(kind))
    )
      weight += 1;
    if (after && isOne('did', after.bare)) weight += 1;
    if (
      before?.is.has('new-cow') ||
      after?.is.has('new-cow') ||
      (!this.open && !known && this.items.slice(this.sentence, at).some(({ is }) => is.has('new-cow')))
    )
      weight += 4;
    // Nobody has been spoken of, and the number is hers.
    if (known && !this.open && !(before && (before.is.has('length') || before.is.has('gait')))) weight += 3;
    const last = this.sections.at(-1);
    if (known && last?.called === bare(figures!) && before?.is.has('gait') && after?.bare === 'a')
      weight += 9;
    if (before && before.kind === 'phrase' && this.wantsNumber(before, figures!, farm))
      weight -= cue ? 0 : known && figures!.length >= 3 ? 1 : 4;
    if (after && ['length', 'spans'].some((kind) => after.is.has(kind)) && after.bare !== 'top' && !opens)
      weight -= 4;
    if (after && isOne('counted', after.bare) && !(known && opens)) weight -= 9;
    return weight;
  }

  /** A word before it that asks for a number of its own. */
  private wantsNumber({ is }: Item, figures: string, farm: string | undefined): boolean {
    if (is.has('gait')) {
      const scale =
        farm === undefined ? undefined : gaitScaleOn(this.farms.get(farm)!.farm, this.context.today);
      return scale === undefined || isScore(scale, Number(figures)) || figures.length < 3;
    }
    return ['length', 'at-length', 'stage', 'lesion', 'mark', 'weight', 'condition', 'product', 'claw', 'state'].some((kind) => is.has(kind)); // prettier-ignore
  }

  /** A section begun at a mention; words of the same sentence before it are hers too, as far as they are nobody else's. */
  private begin(at: number, next: number, loose: number): number {
    const { items } = this;
    const before = this.sections.at(-1);
    let from = at;
    if (before && this.open && before.from >= this.sentence && before.mention.from >= this.sentence) {
      const isLead = (item: Item): boolean => item.kind === 'person' || item.is.has('says') || item.is.has('cow') || isOne('and then', item.bare); // prettier-ignore
      while (from > before.mention.to && isLead(items[from - 1]!)) from -= 1;
    } else {
      const first = Math.max(this.sentence, loose, before?.mention.to ?? 0);
      // `took the wrap off 731`: what the sentence says before her number is hers.
      const foreign = this.open && !isOne('object of', items[at - 1]?.bare);
      // What was said of the cow before and goes on to a stroke or a dash stays hers.
      const isHers = (item: Item): boolean => foreign && (this.isTrade(item) || /^[/–-]$/.test(item.bare));
      while (from > first && !isHers(items[from - 1]!)) from -= 1;
    }
    if (before && this.open) before.to = Math.min(before.to, from);
    const mention = { from: at, to: next };
    const { figures: said = '' } = items[next - 1]!;
    const figures = this.byTag(at, said) ?? said;
    const isNew = [items[at - 1], items[at - 2], items[next], items[next + 1], items[at]].some((one) => one?.is.has('new-cow')) || items.slice(Math.min(from, this.open ? from : this.sentence), at).some((one) => one.is.has('new-cow')); // prettier-ignore
    const unknown = !this.isFigureOf(figures, this.heading.farm);
    this.sections.push({
      called: bare(figures),
      mention,
      heading: this.heading,
      isNew: isNew || (unknown && this.newOnes),
      from,
      to: next,
    });
    this.open = true;
    return from;
  }

  /** `118, 907 and 264 are dry`: what follows the last is said of each. */
  private group(): void {
    for (let index = this.sections.length - 2; index >= 0; index -= 1) {
      const [one, next] = [this.sections[index]!, this.sections[index + 1]!];
      const between = this.items.slice(one.mention.to, next.mention.from);
      const joined =
        between.length > 0 &&
        between.length <= 2 &&
        between.every(({ bare: word }) => isOne('between numbers', word));
      if (!joined) continue;
      one.to = Math.max(one.to, next.to);
      // `see 31 and 166 in four weeks`: what is before the first is said of each.
      if (one.from < one.mention.from) next.from = one.from;
    }
  }
}
