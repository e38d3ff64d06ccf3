import type { Animal } from '../../record/animal.js';
import { aboutWords, type Foot, type PainRelief, type Sign } from '../../record/words.js';
import type { Lesion } from '../../record/lesion.js';
import type { NoteVisit } from '../note-reading.js';
import { quoted } from './quoted.js';
import type { BlockEvent, FootFinding, ProductUse, WrapEvent, Found } from '../../record/visit.js';

/** Each key of a finding in the words of the grammar; a key without its words does not compile. */
const written: { readonly [K in keyof Required<Found>]: (value: NonNullable<Found[K]>) => string } = {
  lifted: (yes) => (yes ? 'lifted' : 'not lifted'),
  // What follows may only fit the new name.
  code: (code) => `code ${code}`,
  state: (state) => state,
  stage: (stage) => `stage ${stage}`,
  top: (mm) => `top ${mm}`,
  'top-found': (how) => (how === 'higher' ? 'goes higher' : `top ${how}`),
  tool: (tool) => (tool === 'photo' || tool === 'eye' ? `by ${tool}` : tool),
  wall: (mm) => `wall ${mm}`,
  'wall-at': (where) => `wall ${where}`,
  'wall-lowered': (yes) => (yes ? 'wall lowered' : 'wall not lowered'),
  'wall-tool': (tool) => `wall tool ${tool === 'photo' || tool === 'eye' ? `by ${tool}` : tool}`,
  width: (mm) => `width ${mm}`,
  length: (mm) => `length ${mm}`,
  depth: (mm) => `depth ${mm}`,
  distance: (mm) => `distance ${mm}`,
  gone: writeGone,
  signs: (signs) => signs.join(', '),
  infected: (yes) => (yes ? 'infected' : 'not infected'),
  'ran-up': (yes) => (yes ? 'ran up' : 'did not run up'),
  'opened-further': (yes) => (yes ? 'opened further' : 'not opened further'),
  joined: (name) => `joined lesion ${name}`,
  note: (text) => `with note ${quoted(text)}`,
};

/** How one key of a finding says a value. @example bareSaid('top-found', 'felt') // → 'top felt' */
export function bareSaid(key: keyof Found, value: unknown): string {
  return (written[key] as (value: unknown) => string)(value);
}

/** Before the signs that are seen, so that `heat gone, pus` can mean one thing only. */
function writeGone(signs: readonly Sign[]): string {
  return signs.map((sign) => `${sign} gone`).join(', ');
}

/**
 * What was found of one lesion or mark: `lesion a: open, top 21, top seen, ruler, wall 43`. `looking`: feet were looked
 * at, so that a lesion without a word on its state says so.
 */
function writeFound(name: string, mark: boolean, found: Found, looking: boolean): string {
  const unsaid = looking && !mark && (found.state ?? found.stage ?? found.joined) === undefined;
  const words = [...(unsaid ? ['state not said'] : []), ...inWords(written, found)];
  return `${mark ? 'mark' : 'lesion'} ${name}: ${words.join(', ')}`;
}

/** The keys that are there, in the order of the table. */
function inWords<T extends object>(
  table: { readonly [K in keyof Required<T>]: (value: NonNullable<T[K]>) => string },
  record: T,
): string[] {
  return (Object.keys(table) as (keyof T)[]).flatMap((key) => {
    const value = record[key];
    return value === undefined || value === null
      ? []
      : (table[key] as (value: unknown) => string)(value) || [];
  });
}

const withNote = (text: string): string => `with note ${quoted(text)}`;
const dayOf = (on: string): string => (on === 'unknown' ? 'day unknown' : `on ${on}`);

/** `LH foot: lifted, heat`. */
function writeFoot(foot: Foot, finding: FootFinding): string {
  const words = inWords<FootFinding>(
    {
      lifted: (yes) => (yes ? 'lifted' : 'not lifted'),
      gone: writeGone,
      signs: (signs) => signs.join(', '),
      note: withNote,
    },
    finding,
  );
  return `${foot} foot: ${words.join(', ')}`;
}

/** `block removed LH inner, carrying claw bruised`. */
function writeBlock(block: BlockEvent): string {
  return inWords<BlockEvent>(
    {
      event: (event) => `block ${event}`,
      foot: () => `${block.foot} ${block.claw}`,
      // Said with the foot.
      claw: () => '',
      material: (material) => (material === 'other' ? 'other material' : material),
      on: dayOf,
      'carrying-claw': (claw) => `carrying claw ${claw}`,
      note: withNote,
    },
    block,
  ).join(', ');
}

/** `wrap fitted RH`. */
function writeWrap(wrap: WrapEvent): string {
  return inWords<WrapEvent>(
    { event: (event) => `wrap ${event}`, foot: (foot) => foot, on: dayOf, note: withNote },
    wrap,
  ).join(', ');
}

/** `product "as on the label", class medicine, batch "K118", milk withheld 4 days`. */
function writeProduct(use: ProductUse): string {
  return inWords<ProductUse>(
    {
      product: (text) => `product ${quoted(text)}`,
      active: (text) => `active ${quoted(text)}`,
      class: (word) => `class ${word}`,
      batch: (text) => `batch ${quoted(text)}`,
      amount: (text) => `amount ${quoted(text)}`,
      route: (text) => `route ${quoted(text)}`,
      lesion: (name) => `for lesion ${name}`,
      on: (day) => `given on ${day}`,
      until: (day) => `until ${day}`,
      'milk-days': (days) => `milk withheld ${days} days`,
      'milk-hours': (hours) => `milk withheld ${hours} hours`,
      'milk-milkings': (milkings) => `milk withheld ${milkings} milkings`,
      'milk-days-after-calving': (days) => `milk withheld after calving ${days} days`,
      'meat-days': (days) => `meat withheld ${days} days`,
      'given-by': (name) => `given by ${quoted(name)}`,
      'prescribed-by': (name) => `prescribed by ${quoted(name)}`,
      cost: (cost) => `cost ${cost}`,
      note: withNote,
    },
    use,
  ).join(', ');
}

/** Which animal a visit is of: the slugs of her farm and file, and her record, which tells lesions from marks. */
export interface NoteOf {
  readonly farm: string;
  readonly slug: string;
  readonly animal: Pick<Animal, 'marks'>;
  /** The visit opens her case. */
  readonly opens?: Pick<Animal, 'animal' | 'tag'>;
  /** First met at the visit. */
  readonly lesions?: Readonly<Record<string, Lesion>>;
}

/** `code WL, foot LH, claw outer, site white line rear, line heel`. */
function newLesion(lesion: Lesion): string {
  const keys = ['code', 'foot', 'claw', 'site', 'line', 'again-of'] as const;
  return keys.flatMap((key) => (lesion[key] === undefined ? [] : `${key} ${lesion[key]}`)).join(', ');
}

export const painRelief: Readonly<Record<PainRelief, string>> = {
  given: 'pain relief given',
  asked: 'pain relief asked',
  advised: 'pain relief advised',
  'farm declined': 'farm declined pain relief',
  'vet says none': 'pain relief vet says none',
  'not lame': 'pain relief not lame',
};

/**
 * A visit in the words of the grammar, so that reading it gives the same visit back: one statement a line, free text in
 * quotes. A lesion, a foot or a block is one line each.
 *
 * Photos are left out: a note carries none. Empty lists and groups say nothing and are left out too.
 *
 * Checked: tests/note/written-and-read.test.ts
 * @example writeNote({ farm: 'quernholt', slug: '2086', animal: {} }, { date: '2026-03-03', by: 'Orla Venn', kind: 'recheck' }) // → 'farm quernholt\ndate 2026-03-03\nanimal 2086.md\nby "Orla Venn"\nkind recheck\n'
 */
export function writeNote({ farm, slug, animal, opens, lesions = {} }: NoteOf, visit: NoteVisit): string {
  const first = [
    ...(opens ? [`new case ${quoted(opens.animal)}${opens.tag === undefined ? '' : `, tag ${quoted(opens.tag)}`}`] : []),
    ...Object.entries(lesions).map(([name, lesion]) => `new lesion ${name}: ${newLesion(lesion)}`),
  ]; // prettier-ignore
  const lines = inWords<NoteVisit>(
    {
      date: (day) => [`farm ${farm}`, `date ${day}`, `animal ${slug}.md`, ...first].join('\n'),
      at: (time) => `at ${time}`,
      by: (name) => `by ${quoted(name)}`,
      kind: (kind) => `kind ${kind}`,
      why: (text) => `why ${quoted(text)}`,
      gait: (score) => `score ${score}`,
      'gait-by': (name) => `scored by ${quoted(name)}`,
      'on-block': (on) => `walks ${on ? 'on' : 'off'} the block`,
      condition: (score) => `condition ${score}`,
      weight: (kg) => `weight ${kg} kg`,
      signs: (signs) => signs.join(', '),
      feet: (feet) =>
        eachOnALine(Object.entries(feet), ([foot, finding]) => finding && writeFoot(foot as Foot, finding)),
      found: (found) =>
        eachOnALine(Object.entries(found), ([name, one]) =>
          writeFound(name, Object.hasOwn(animal.marks ?? {}, name), one, isLooking(visit)),
        ),
      trimmed: (feet) => (feet.length === 0 ? '' : `trimmed ${feet.join(' ')}`),
      'cut-back': (names) =>
        names.length === 0 ? '' : `cut back: ${names.map((one) => `lesion ${one}`).join(', ')}`,
      blocks: (blocks) => eachOnALine(blocks, writeBlock),
      wraps: (wraps) => eachOnALine(wraps, writeWrap),
      products: (products) => eachOnALine(products, writeProduct),
      'pain-relief': (word) => painRelief[word],
      photos: () => '',
      vet: ({ asked, about, why }) =>
        `vet asked on ${asked}${aboutInWords(animal, about)} why ${quoted(why)}`,
      'vet-answer': ({ to, by, about, closes, treated, reply, does = [] }) =>
        [
          [
            `vet answered by ${quoted(by)} to ${to}${aboutInWords(animal, about)}`,
            ...(closes === undefined ? [] : [closes ? 'closes' : 'does not close']),
            ...(treated === undefined ? [] : [treated ? 'medicine given' : 'no medicine given']),
            `reply ${quoted(reply)}`,
          ].join(' '),
          ...(does.length === 0
            ? []
            : [`vet does: ${does.map(({ what, on }) => `${what} on ${on}`).join(', ')}`]),
        ].join('\n'),
      'ask-farm': (tasks) =>
        tasks.length === 0 ? '' : `ask farm: ${tasks.map(({ what, by }) => `${what} by ${by}`).join(', ')}`,
      'farm-did': (tasks) =>
        tasks.length === 0 ? '' : `farm did: ${tasks.map(({ what, on }) => `${what} on ${on}`).join(', ')}`,
      'tools-disinfected': (yes) => (yes ? 'tools disinfected' : 'tools not disinfected'),
      'saw-expected': (yes) => (yes ? 'saw expected' : 'did not see expected'),
      recheck: (day) => `look again on ${day}`,
      note: (text) => `note ${quoted(text)}`,
      amended: (all) =>
        eachOnALine(all, ({ date, by, why }) => `amended ${date} by ${quoted(by)} why ${quoted(why)}`),
    },
    visit,
  );
  return `${lines.join('\n')}\n`;
}

/** A lesion or mark is called one, since `a` is a word too. */
function aboutInWords({ marks = {} }: NoteOf['animal'], about: readonly string[] = []): string {
  const said = about.map((item) =>
    (aboutWords as readonly string[]).includes(item)
      ? item
      : `${Object.hasOwn(marks, item) ? 'mark' : 'lesion'} ${item}`,
  );
  return said.length === 0 ? '' : ` about ${said.join(', ')}`;
}

/** Whether a note of this visit must give the status of each lesion. */
function isLooking({ kind }: NoteVisit): boolean {
  return kind !== 'report' && kind !== 'missed';
}

function eachOnALine<T>(list: readonly T[], line: (one: T) => string | undefined): string {
  return list.flatMap((one) => line(one) ?? []).join('\n');
}
