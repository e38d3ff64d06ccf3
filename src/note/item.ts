import { type DaySaid, dayBehindFarm, daySaid, type SpanSaid, spanSaid } from './day-said.js';
import { heard, isFiller, isKnown, isOne, noteWords, phraseAt, slipsBetween, spelled } from './note-words.js';
import { digitsSaid, type NumberSaid, numberSaid } from './number-said.js';
import type { NoteStretch } from './note-reading.js';
import { bareWord, type Token, tokensOf } from './token.js';

/** Two numbers that belong together: `24/44`, `9 x 7`, `27 of 61`, `2.9 cm / 4.3 cm`. */
export interface PairSaid {
  readonly one: NumberSaid;
  readonly other: NumberSaid;
  readonly joined: 'times' | 'over';
  /** `25ish/61` */
  readonly doubted: boolean;
}

/** Somebody the records name. */
export interface PersonSaid {
  readonly name: string;
  readonly role: 'people' | 'farm' | 'vet';
}

/** One piece of a note that means something by itself, or a word that does not. */
export interface Item {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** As the vocabulary spells it; of a sign itself. */
  readonly bare: string;
  readonly kind:
    | 'phrase' | 'number' | 'name' | 'pair' | 'day' | 'span' | 'person' | 'farm' | 'time' | 'quoted' | 'word'
    | 'mark' | 'stop' | 'line'; // prettier-ignore
  readonly is: ReadonlyMap<string, string>;
  readonly number?: NumberSaid;
  readonly pair?: PairSaid;
  readonly day?: DaySaid;
  readonly span?: SpanSaid;
  readonly person?: PersonSaid;
  /** The slug of the farm this names. */
  readonly farm?: string;
  /** The figures of an animal's number, where this may be one, or the name she goes by. */
  readonly figures?: string;
  /** Without a space before it. */
  readonly glued: boolean;
}

/** What the words of a note are checked against. */
export interface Known {
  /** Numbers of all animals, without leading zeros. */
  readonly numbers: ReadonlySet<string>;
  /** Names of animals that have no number, in small letters and in words. */
  readonly names: readonly (readonly string[])[];
  readonly people: readonly PersonSaid[];
  readonly farms: readonly { readonly slug: string; readonly words: readonly string[] }[];
}

const none: ReadonlyMap<string, string> = new Map();
const times = new Set(noteWords.times);
const over = new Set(noteWords.over);

/** A note cut into pieces that mean something, in order; spaces fall between them and nothing else does. */
export function itemsOf(text: string, known: Known): Item[] {
  const tokens = tokensOf(text);
  const items: Item[] = [];
  for (let at = 0; at < tokens.length;) {
    const { next, ...what } = itemAt(tokens, at, items.at(-1), known);
    const [from, to] = [tokens[at]!.from, tokens[next - 1]!.to];
    const glued = at > 0 && tokens[at - 1]!.to === from;
    items.push({ is: none, bare: '', ...what, from, to, text: text.slice(from, to), glued });
    at = next;
  }
  return withColumns(text, withDittos(text, items));
}

/** A ditto mark stands for the cell above it: its pieces are read again where the mark is. */
function withDittos(text: string, items: readonly Item[]): readonly Item[] {
  if (!items.some(isDitto)) return items;
  const out: Item[] = [];
  let above: Cell[] = [];
  for (let from = 0; from < items.length;) {
    let to = from;
    while (to < items.length && items[to]!.kind !== 'line') to += 1;
    const start = from === 0 ? 0 : items[from - 1]!.to;
    const cells: Cell[] = [];
    for (const item of items.slice(from, to)) {
      const last = cells.at(-1);
      const [left, right] = [item.from - start, item.to - start];
      const meant = isDitto(item) ? above.find((cell) => left > cell.left - 3 && left < cell.right + 3) : undefined; // prettier-ignore
      if (meant && last?.of === meant) last.right = right;
      else if (meant)
        cells.push({ left, right, of: meant, items: meant.items.map((one) => ({ ...one, from: item.from, to: item.to, text: item.text, glued: false })) }); // prettier-ignore
      else if (last && !last.of && !/ {2}|\t/.test(text.slice(start + last.right, item.from))) {
        last.right = right;
        last.items.push(item);
      } else cells.push({ left, right, items: [item] });
    }
    for (const cell of cells) for (const item of cell.items) out.push(item);
    if (to < items.length) out.push(items[to]!);
    if (cells.length > 0) above = cells;
    from = to + 1;
  }
  return out;
}

interface Cell {
  readonly left: number;
  right: number;
  readonly items: Item[];
  /** The cell above, where ditto marks stand for it. */
  readonly of?: Cell;
}

const isDitto = ({ text, glued }: Item): boolean => /^["”″]$/.test(text) && !glued;

const columns = ['length', 'gait', 'block', 'wrap', 'mark', 'condition', 'stage'];

/** Under a line of headings (`cow foot top wall block mob`) each cell is read with its heading before it. */
function withColumns(text: string, items: readonly Item[]): Item[] {
  const out: Item[] = [];
  let heads: ReadonlyMap<number, Item> = new Map();
  for (let from = 0; from < items.length;) {
    let to = from;
    while (to < items.length && items[to]!.kind !== 'line') to += 1;
    const line = items.slice(from, to);
    const cells = cellsOf(text, line);
    const named = line.map(asHead).filter((head, at) => cells.has(at) && head !== undefined);
    if (named.length >= 3 && !line.some(({ kind }) => kind === 'number' || kind === 'pair')) {
      heads = new Map(
        [...cells].flatMap(([at, cell]) => (asHead(line[at]!) ? [[cell, asHead(line[at]!)!]] : [])),
      );
      for (const item of line) out.push({ ...item, kind: 'mark', is: none });
    } else {
      // A line of words ends the table.
      if (line.length > 0 && cells.size < 3) heads = new Map();
      for (const [at, item] of line.entries()) {
        const head = heads.get(cells.get(at) ?? -1);
        if (head) out.push({ ...head, from: item.from, to: item.from, text: '', glued: false });
        out.push(item);
      }
    }
    if (to < items.length) out.push(items[to]!);
    from = to + 1;
  }
  return out;
}

function asHead(item: Item): Item | undefined {
  if (isOne('head of the next visit', item.bare)) return { ...item, is: new Map([['recheck', 'recheck']]) };
  return item.kind === 'phrase' && columns.some((one) => item.is.has(one)) ? item : undefined;
}

/** Where the cells of a line begin, and which they are: behind upright strokes, else behind two spaces or a tab. */
function cellsOf(text: string, line: readonly Item[]): Map<number, number> {
  const strokes = line.some(({ bare }) => bare === '|');
  const cells = new Map<number, number>();
  let cell = 0;
  for (const [at, item] of line.entries()) {
    const before = line[at - 1];
    if (item.bare === '|') cell += 1;
    else if (
      before === undefined ||
      (strokes ? before.bare === '|' : /^(?: {2,}|\t)/.test(text.slice(before.to, item.from)))
    )
      cells.set(at, strokes ? cell : cell++);
  }
  return cells;
}

type ItemFound = Partial<Omit<Item, 'kind'>> & Pick<Item, 'kind'> & { readonly next: number };

function itemAt(tokens: readonly Token[], at: number, before: Item | undefined, known: Known): ItemFound {
  const token = tokens[at]!;
  const next = at + 1;
  if (token.kind === 'line') return { kind: 'line', next };
  if (token.kind === 'quoted') return { kind: 'quoted', bare: token.text, next };
  if ((token.kind === 'stop' && !isCutShort(tokens, at)) || token.kind === 'mark' || token.kind === 'inch')
    return { kind: token.kind === 'stop' ? 'stop' : 'mark', bare: token.text, next };
  if (isCutShort(tokens, at)) return { kind: 'word', next };
  const time = timeSaid(tokens, at);
  if (time !== undefined) return { kind: 'time', next: time };
  const farm = farmAt(tokens, at, known.farms);
  if (farm) return { kind: 'farm', ...farm };
  const name = known.names.find((words) => words.every((word, n) => tokens[at + n]?.bare === word));
  if (name) return { kind: 'name', figures: name.join(' '), next: at + name.length };
  const person = personAt(tokens, at, known.people);
  if (person) return { kind: 'person', ...person };
  const span = spanSaid(tokens, at);
  const day = daySaid(tokens, at) ?? (before?.kind === 'farm' ? dayBehindFarm(tokens, at) : undefined);
  // `t19`, `m1`: the figure belongs to the letter.
  const letter =
    before?.kind === 'phrase' && (before.is.has('length') || before.is.has('gait') || before.is.has('stage'));
  if (span && !(letter && span.days % 7 !== 0))
    return { kind: 'span', span, next: span.next, ...asNumber(tokens, at) };
  const said = numberSaid(tokens, at);
  const stage = before?.is.has('stage') === true && before.bare.length < 3;
  // `M2 3/4" across`: the stage ends with its figure.
  const number =
    stage && said && !said.words && said.parts && token.kind === 'number'
      ? { value: Number(token.text), next, parts: false, words: false }
      : said;
  const pair = number && !stage ? pairSaid(tokens, number) : undefined;
  // `7/8 of an inch`, `top 3/4`: parts of an inch and no day.
  const measures = (one: ReadonlyMap<string, string> | undefined): boolean =>
    ['length', 'at-length', 'lesion', 'claw'].some((kind) => one?.has(kind));
  const isLength =
    number?.parts === true &&
    (number.unit !== undefined || measures(before?.is) || measures(phraseAt(tokens, number.next)?.is));
  if (day && !isLength && (pair === undefined || (day.either && pair.next <= day.next))) return { kind: 'day', day, next: day.next, ...(pair?.next === day.next ? { pair } : {}), ...asNumber(tokens, at) }; // prettier-ignore
  if (pair) return { kind: 'pair', pair, next: pair.next, figures: tokens[at]!.text };
  const phrase = phraseAt(tokens, at);
  if (number && (phrase === undefined || phrase.next <= number.next)) {
    const spoken = number.words ? animalSpoken(tokens, at, before, known) : undefined;
    if (spoken)
      return {
        kind: 'number',
        figures: spoken.digits,
        number: { ...number, next: spoken.next },
        next: spoken.next,
      };
    const figures = number.words ? String(number.value) : token.text;
    const whole = /^\d+$/.test(figures) && number.unit === undefined && !number.parts ? { figures } : {};
    return {
      kind: 'number',
      number,
      ...whole,
      next: number.next,
      is: phrase?.is ?? none,
      bare: spelled(token.bare),
    };
  }
  if (phrase) {
    const bare = tokens.slice(at, phrase.next).map(heard).join(' ');
    return { kind: 'phrase', is: phrase.is, bare, next: phrase.next };
  }
  return { kind: token.kind === 'number' ? 'number' : 'word', bare: spelled(token.bare), next };
}

/** The dot of an abbreviation, with the sentence going on behind it: `Mob. 1`, `lat. claw`. */
function isCutShort(tokens: readonly Token[], at: number): boolean {
  const [before, dot, after] = [tokens[at - 1], tokens[at]!, tokens[at + 1]];
  return (
    dot.text === '.' &&
    before?.to === dot.from &&
    isOne('cut short', before.bare) &&
    (after?.kind === 'number' || (after?.kind === 'word' && /^\p{Ll}/u.test(after.text)))
  );
}

/** A day or a span begins with figures that may be an animal's. */
function asNumber(tokens: readonly Token[], at: number): { number?: NumberSaid } {
  const number = numberSaid(tokens, at);
  return number ? { number } : {};
}

/** An animal's number spelled out; behind a word that wants a number of its own the shortest reading goes first. */
function animalSpoken(
  tokens: readonly Token[],
  at: number,
  before: Item | undefined,
  known: Known,
): { digits: string; next: number } | undefined {
  const ways = digitsSaid(tokens, at).filter(({ steps }) => steps > 1);
  const named = before?.is.has('cow') && before.bare !== 'no';
  const wanted =
    before?.is.has('gait') ||
    before?.is.has('length') ||
    before?.is.has('condition') ||
    before?.is.has('at-length') ||
    before?.is.has('stage');
  if (wanted && !named) return undefined;
  const meant = ways.findLast(({ digits }) => known.numbers.has(digits.replace(/^0+(?=\d)/, '')));
  return meant ?? (named ? ways.at(-1) : undefined);
}

function timeSaid(tokens: readonly Token[], at: number): number | undefined {
  if (tokens[at]?.kind !== 'number') return undefined;
  const [colon, minutes] = [tokens[at + 1], tokens[at + 2]];
  const clock = colon?.text === ':' && minutes?.kind === 'number' && colon.from === tokens[at].to && minutes.from === colon.to && /^\d\d$/.test(minutes.text); // prettier-ignore
  const end = clock ? at + 3 : at + 1;
  const half = isOne('half day', tokens[end]?.bare);
  return half ? end + 1 : clock ? end : undefined;
}

function pairSaid(tokens: readonly Token[], one: NumberSaid): (PairSaid & { next: number }) | undefined {
  let next = one.next;
  const doubted = tokens[next]?.bare === 'ish';
  if (doubted) next += 1;
  // `half an inch long by three eighths`
  if (isOne('between two lengths', tokens[next]?.bare) && isOne('by', tokens[next + 1]?.bare)) next += 1;
  const sign = tokens[next];
  const word = sign?.kind === 'word' ? sign.bare : '';
  const isOutOf = word === 'out' && tokens[next + 1]?.bare === 'of';
  const joined = sign?.text === '/' || over.has(word) || isOutOf ? 'over' : times.has(word) || sign?.text === '*' || word === '×' ? 'times' : undefined; // prettier-ignore
  if (!joined) return undefined;
  const two =
    word === 'on' && tokens[next + 1]?.bare === 'a' ? next + 2 : word === 'out' ? next + 2 : next + 1;
  if ((word === 'to' || word === 'on' || word === 'for') && two === next + 1 && one.unit === undefined && numberSaid(tokens, two)?.unit === undefined && !(word === 'on' && isAlone(tokens, one, numberSaid(tokens, two)))) return undefined; // prettier-ignore
  const other = numberSaid(tokens, two);
  if (!other || (spanSaid(tokens, two) && joined === 'over' && sign!.text !== '/')) return undefined;
  // Three parts are a day or something else.
  if (sign!.text === '/' && tokens[other.next]?.text === '/' && tokens[other.next + 1]?.kind === 'number' && tokens[other.next + 1]!.from === tokens[other.next]!.to) return undefined; // prettier-ignore
  // One unit behind both is of both.
  const unit = one.unit ?? other.unit;
  const with1 = unit === undefined ? one : { ...one, unit };
  const with2 = unit === undefined ? other : { ...other, unit: other.unit ?? unit };
  return { one: with1, other: with2, joined, doubted, next: other.next };
}

/** `, 14 on 11.`: two figures between marks are one measure. */
function isAlone(tokens: readonly Token[], one: NumberSaid, other: NumberSaid | undefined): boolean {
  const [before, after] = [tokens[one.next - 2], other && tokens[other.next]];
  const ends = (token: Token | undefined): boolean =>
    token === undefined || ['mark', 'stop', 'line'].includes(token.kind);
  return other !== undefined && !one.words && one.value > 3 && other.value > 3 && ends(before) && ends(after);
}

/** A farm by its name or slug, whole, by its first word, cut short with a dot, or a slip or two away from it. */
function farmAt(
  tokens: readonly Token[],
  at: number,
  farms: Known['farms'],
): { farm: string; next: number } | undefined {
  if (tokens[at]!.kind !== 'word') return undefined;
  const said = tokens[at]!.bare;
  let best: { farm: string; next: number } | undefined;
  for (const { slug, words } of farms) {
    const first = words[0]!;
    const short = said.length >= 4 && first.startsWith(said) && tokens[at + 1]?.text === '.';
    const near =
      said.length >= 6 && said[0] === first[0] && slipsBetween(said, first, 2) <= (said.length > 8 ? 2 : 1);
    if (said !== first && !short && !(near && !isKnown(said))) continue;
    let next = at + 1;
    for (const word of words.slice(1)) {
      while (tokens[next]?.text === '-' && tokens[next]!.from === tokens[next - 1]!.to) next += 1;
      if (tokens[next]?.bare !== word) break;
      next += 1;
    }
    // A name that begins with an everyday word is only meant where it is said whole.
    const whole = next - at >= words.length;
    if (!whole && (isKnown(first) || first.length < 4)) continue;
    if (!best || next > best.next) best = { farm: slug, next: short ? next + 1 : next };
  }
  return best;
}

/** Names as the records have them, whole or by one part of at least three letters. */
function personAt(
  tokens: readonly Token[],
  at: number,
  people: readonly PersonSaid[],
): { person: PersonSaid; next: number } | undefined {
  const token = tokens[at]!;
  if (token.kind !== 'word') return undefined;
  const dr = token.bare === 'dr' ? (tokens[at + 1]?.text === '.' ? at + 2 : at + 1) : at;
  let best: { person: PersonSaid; next: number } | undefined;
  for (const person of people) {
    const parts = partsOf(person.name);
    const said = tokens[dr]?.bare ?? '';
    const first = parts.findIndex((part) => part === said || `${part}s` === said || isSlip(said, part));
    const initial =
      first === 0 &&
      parts[0]!.length === 1 &&
      tokens[tokens[dr + 1]?.text === '.' ? dr + 2 : dr + 1]?.bare === parts[1];
    if (
      first < 0 ||
      (parts[first]!.length < 3 && !initial) ||
      (isKnown(parts[first]!) && person.name.includes(' ') && !isWhole(tokens, dr, parts))
    )
      continue;
    let next = dr + 1;
    let part = first + 1;
    // `P. Wexmarrow`
    if (parts[first]!.length === 1 && tokens[next]?.text === '.') next += 1;
    while (part < parts.length && tokens[next]?.bare === parts[part]) {
      next += 1;
      part += 1;
    }
    if (!best || next > best.next) best = { person, next };
  }
  return best;
}

/** One letter wrong in a name of five or more, where it makes no word of ours. */
function isSlip(said: string, part: string): boolean {
  return (
    said.length >= 4 &&
    part.length >= 5 &&
    said[0] === part[0] &&
    !isKnown(said) &&
    slipsBetween(said, part, 1) <= 1
  );
}

/** A part of a name that is an everyday word means somebody only with the rest of the name. */
function isWhole(tokens: readonly Token[], at: number, parts: readonly string[]): boolean {
  return parts.every((part, index) => tokens[at + index]?.bare === part);
}

const nameParts = new Map<string, readonly string[]>();
function partsOf(name: string): readonly string[] {
  const parts = nameParts.get(name) ?? name.split(/[\s.]+/).map(bareWord).filter((part) => part !== '' && part !== 'dr'); // prettier-ignore
  if (nameParts.size < 5000) nameParts.set(name, parts);
  return parts;
}

/** Whether a piece says nothing by itself, so that nothing is lost where no statement took it. */
export function saysNothing(item: Item): boolean {
  if (item.kind === 'mark' || item.kind === 'stop' || item.kind === 'line') return true;
  if (item.kind === 'phrase' || item.kind === 'word')
    return item.bare.split(' ').every((word) => word === '' || isFiller(word));
  return false;
}

/** The stretch some pieces cover, as the note has it. */
export function stretchOf(text: string, items: readonly Item[], from: number, to: number): NoteStretch {
  const start = from < to ? items[from]!.from : (items[from - 1]?.to ?? 0);
  const end = from < to ? items[to - 1]!.to : start;
  return { line: lineAt(text, start), from: start, to: end, text: text.slice(start, end) };
}

/** Counted once a text, since a long note asks often. */
let counted: { text: string; ends: number[] } = { text: '', ends: [] };
function lineAt(text: string, at: number): number {
  if (counted.text !== text) {
    const ends: number[] = [];
    for (let end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', end + 1)) ends.push(end);
    counted = { text, ends };
  }
  let [low, high] = [0, counted.ends.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (counted.ends[middle]! < at) low = middle + 1;
    else high = middle;
  }
  return low + 1;
}
