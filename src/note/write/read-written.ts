import type { z } from 'zod';
import { blockEvent, found as foundKeys, productUse, visit, wrapEvent } from '../../record/visit.js';
import { type Foot, type PainRelief, signs, animalSigns } from '../../record/words.js';
import type { Animal } from '../../record/animal.js';
import { given } from '../../record/given.js';
import { lesion as lesionSchema, type Lesion } from '../../record/lesion.js';
import type { NoteVisit } from '../note-reading.js';
import { withoutEmpty } from '../same-visit.js';
import { bareSaid, painRelief } from './write-note.js';

/** A visit written by `writeNote`: where its words are, whose it is, and what each line says. */
export interface WrittenVisit {
  readonly farm: string;
  readonly animal: string;
  readonly from: number;
  readonly to: number;
  readonly visit: Partial<NoteVisit>;
  /** Her number and tag, where the visit opens her case. */
  readonly opens?: Pick<Animal, 'animal' | 'tag'>;
  readonly declares?: Readonly<Record<string, Lesion>>;
  /** Lines that are not in these words, for somebody changed them: where they are. */
  readonly strange: readonly { readonly from: number; readonly to: number }[];
}

const head = /^farm (\S+)\ndate (\d{4}-\d\d-\d\d)\nanimal (\S+)\.md$/gm;

/** The visits of a text that `writeNote` wrote, whatever is round them; none where a person wrote it. */
export function readWritten(text: string): WrittenVisit[] {
  const heads = [...text.matchAll(head)];
  return heads.map((match, index) => {
    const [from, to] = [match.index, heads[index + 1]?.index ?? text.length];
    const draft: Record<string, unknown> = { date: match[2]! };
    const strange: { from: number; to: number }[] = [];
    let at = from + match[0].length;
    for (const line of text.slice(at, to).split('\n')) {
      if (line.trim() !== '' && !readLine(draft, line.trim()))
        strange.push({ from: at, to: at + line.length });
      at += line.length + 1;
    }
    const { opens, declares } = draft as Pick<WrittenVisit, 'opens' | 'declares'>;
    return {
      ...given({ opens, declares }),
      farm: match[1]!,
      animal: match[3]!,
      from,
      to,
      visit: withoutEmpty(inOrder(draft)) as Partial<NoteVisit>,
      strange,
    };
  });
}

/** Keys in the order of the case format. */
function inOrder(draft: Record<string, unknown>): Partial<NoteVisit> {
  return Object.fromEntries(
    Object.keys(visit.shape).flatMap((key) => (draft[key] === undefined ? [] : [[key, draft[key]]])),
  );
}

type Group = Record<string, unknown>;
const spoken: Readonly<Record<string, string>> = { n: '\n', r: '\r', t: '\t' };
const text = String.raw`"((?:[^"\\]|\\.)*)"`;

/** Text in quotes, as `quoted` writes it. */
function unquoted(said: string): string {
  return said.replaceAll(/\\([^])/g, (_, letter: string) => spoken[letter] ?? letter);
}

/** What is between commas outside quotes. */
function parts(line: string): string[] {
  return [...line.matchAll(/(?:"(?:[^"\\]|\\.)*"|[^,"])+/g)].map(([part]) => part.trim());
}

function readLine(draft: Group, line: string): boolean {
  for (const [shape, read] of lines) {
    const match = new RegExp(`^${shape}$`, 's').exec(line);
    if (match) return read(draft, match) !== false;
  }
  const said = parts(line);
  if (!said.every((one) => (animalSigns as readonly string[]).includes(one))) return false;
  draft['signs'] = said;
  return true;
}

const push = (draft: Group, key: string, entry: unknown): void => {
  draft[key] = [...((draft[key] as unknown[] | undefined) ?? []), entry];
};
const list = (said: string, word: 'by' | 'on'): Group[] =>
  parts(said).map((one) => {
    const [, what, day] = new RegExp(`^(.*) ${word} (\\S+)$`).exec(one) ?? [];
    return { what, [word]: day };
  });
const about = (said: string | undefined): string[] | undefined =>
  said === undefined ? undefined : parts(said).map((one) => one.replace(/^(?:lesion|mark) /, ''));
const set =
  (key: string, as: (match: RegExpExecArray) => unknown) =>
  (draft: Group, match: RegExpExecArray): void => {
    draft[key] = as(match);
  };

const lines: readonly (readonly [string, (draft: Group, match: RegExpExecArray) => void | boolean])[] = [
  [`(by|why|note) ${text}`, (draft, [, key, said]) => void (draft[key!] = unquoted(said!))],
  [`new case ${text}(?:, tag ${text})?`, (draft, [, number, tag]) => void (draft['opens'] = { animal: unquoted(number!), ...(tag === undefined ? {} : { tag: unquoted(tag) }) })],
  ['new lesion (\\S+): (.*)', (draft, [, name, said]) => readLesion((draft['declares'] ??= {}) as Group, name!, said!)],
  ['at (\\S+)', set('at', ([, time]) => time)],
  ['kind (\\S+)', set('kind', ([, kind]) => kind)],
  ['score (\\S+)', set('gait', ([, score]) => Number(score))],
  [`scored by ${text}`, set('gait-by', ([, name]) => unquoted(name!))],
  ['walks (on|off) the block', set('on-block', ([, on]) => on === 'on')],
  ['condition (\\S+)', set('condition', ([, score]) => Number(score))],
  ['weight (\\S+) kg', set('weight', ([, kg]) => Number(kg))],
  ['([LR][FH]) foot:(?: (.*))?', (draft, [, foot, said]) => {
    const feet = (draft['feet'] ??= {}) as Record<Foot, Group>;
    return said === undefined || readParts((feet[foot as Foot] ??= {}), said);
  }],
  ['(?:lesion|mark) (\\S+):(?: (.*))?', (draft, [, name, said]) => {
    const found = (draft['found'] ??= {}) as Record<string, Group>;
    return said === undefined || readParts((found[name!] ??= {}), said);
  }],
  ['trimmed (.*)', set('trimmed', ([, feet]) => feet!.split(' '))],
  ['cut back: (.*)', set('cut-back', ([, names]) => about(names))],
  ['block (.*)', (draft, [, said]) => readEvent(draft, 'blocks', blockEvent, said!)],
  ['wrap (.*)', (draft, [, said]) => readEvent(draft, 'wraps', wrapEvent, said!)],
  [`product (.*)`, (draft, [, said]) => readProduct(draft, said!)],
  [`vet asked on (\\S+)(?: about (.*?))? why ${text}`, (draft, [, asked, on, why]) => void (draft['vet'] = { asked, why: unquoted(why!), ...(on === undefined ? {} : { about: about(on) }) })],
  [`vet answered by ${text} to (\\S+)(?: about (.*?))?( closes| does not close)?( no medicine given| medicine given)? reply ${text}`, (draft, [, by, to, on, closes, treated, reply]) => {
    draft['vet-answer'] = { to, by: unquoted(by!), reply: unquoted(reply!), ...(on === undefined ? {} : { about: about(on) }), ...(closes === undefined ? {} : { closes: closes === ' closes' }), ...(treated === undefined ? {} : { treated: treated === ' medicine given' }) };
  }],
  ['vet does: (.*)', (draft, [, said]) => void ((draft['vet-answer'] as Group | undefined ?? {})['does'] = list(said!, 'on'))],
  ['ask farm: (.*)', set('ask-farm', ([, said]) => list(said!, 'by'))],
  ['farm did: (.*)', set('farm-did', ([, said]) => list(said!, 'on'))],
  ['tools (not )?disinfected', set('tools-disinfected', ([, not]) => not === undefined)],
  ['saw expected|did not see expected', set('saw-expected', ([said]) => said === 'saw expected')],
  ['look again on (\\S+)', set('recheck', ([, day]) => day)],
  [`amended (\\S+) by ${text} why ${text}`, (draft, [, date, by, why]) => push(draft, 'amended', { date, by: unquoted(by!), why: unquoted(why!) })],
  [Object.values(painRelief).join('|'), set('pain-relief', ([said]) => (Object.keys(painRelief) as PainRelief[]).find((one) => painRelief[one] === said))],
]; // prettier-ignore

/** A lesion as it is declared; what is none is left to be read as a person's words. */
function readLesion(declares: Group, name: string, said: string): boolean {
  const lesion = lesionSchema.safeParse(Object.fromEntries(parts(said).map((part) => part.split(/ (.*)/s).slice(0, 2))));
  if (lesion.success) declares[name] = lesion.data;
  return lesion.success;
} // prettier-ignore

/** What was found of a lesion, a mark or a foot: each part under its key. */
function readParts(found: Group, said: string): boolean {
  return parts(said).every((part) => {
    const gone = /^(.*) gone$/.exec(part)?.[1];
    if (part === 'state not said') return true;
    if ((signs as readonly string[]).includes(part)) push(found, 'signs', part);
    else if (gone !== undefined) push(found, 'gone', gone);
    else {
      const note = new RegExp(`^with note ${text}$`, 's').exec(part);
      const [key, value] = note ? ['note', unquoted(note[1]!)] : (valueSaid(part) ?? []);
      if (key === undefined) return false;
      found[key] = value;
    }
    return true;
  });
}

/** A part that one key alone can have written. */
function valueSaid(part: string): readonly [string, unknown] | undefined {
  const number = /^(top|wall|width|length|depth|distance) ([\d.]+)$/.exec(part);
  if (number) return [number[1]!, Number(number[2])];
  const named = /^(?:(code) |(stage) |(joined) lesion |(wall tool) (?:by )?)(\S+)$/.exec(part);
  if (named) return [named[1] ?? named[2] ?? named[3] ?? 'wall-tool', named[5]];
  for (const key of ['lifted', 'wall-lowered', 'infected', 'ran-up', 'opened-further'] as const)
    for (const yes of [true, false]) if (bareSaid(key, yes) === part) return [key, yes];
  for (const key of ['state', 'top-found', 'tool', 'wall-at'] as const)
    for (const value of wordsOf(foundKeys.shape[key])) if (bareSaid(key, value) === part) return [key, value];
  return undefined;
}

function wordsOf(schema: z.ZodOptional<z.ZodEnum>): readonly string[] {
  return schema.unwrap().options as readonly string[];
}

function readEvent(draft: Group, key: 'blocks' | 'wraps', schema: z.ZodObject, said: string): boolean {
  const entry: Group = {};
  const [first = '', ...rest] = parts(said);
  const own = (part: string): boolean => {
    const material = /^other material$/.test(part) ? 'other' : part;
    const on = /^on (\S+)$/.exec(part)?.[1] ?? (part === 'day unknown' ? 'unknown' : undefined);
    const carrying = /^carrying claw (\S+)$/.exec(part)?.[1];
    const note = new RegExp(`^with note ${text}$`, 's').exec(part)?.[1];
    const place = /^([LR][FH])(?: (inner|outer))?$/.exec(part);
    if (place) Object.assign(entry, { foot: place[1] }, place[2] ? { claw: place[2] } : {});
    else if (on !== undefined) entry['on'] = on;
    else if (carrying !== undefined) entry['carrying-claw'] = carrying;
    else if (note !== undefined) entry['note'] = unquoted(note);
    else if (key === 'blocks' && wordsOf(blockEvent.shape.material).includes(material))
      entry['material'] = material;
    else return false;
    return true;
  };
  entry['event'] = first;
  if (!rest.every(own)) return false;
  push(
    draft,
    key,
    Object.fromEntries(
      Object.keys(schema.shape).flatMap((one) => (entry[one] === undefined ? [] : [[one, entry[one]]])),
    ),
  );
  return true;
}

const productParts: readonly (readonly [string, string])[] = [
  ['active', `active ${text}`], ['class', 'class (.+)'], ['batch', `batch ${text}`], ['amount', `amount ${text}`],
  ['route', `route ${text}`], ['lesion', 'for lesion (\\S+)'], ['on', 'given on (\\S+)'], ['until', 'until (\\S+)'],
  ['milk-days', 'milk withheld (\\S+) days'], ['milk-hours', 'milk withheld (\\S+) hours'],
  ['milk-milkings', 'milk withheld (\\S+) milkings'], ['milk-days-after-calving', 'milk withheld after calving (\\S+) days'],
  ['meat-days', 'meat withheld (\\S+) days'], ['given-by', `given by ${text}`], ['prescribed-by', `prescribed by ${text}`],
  ['cost', 'cost (\\S+)'], ['note', `with note ${text}`],
]; // prettier-ignore

function readProduct(draft: Group, said: string): boolean {
  const [first = '', ...rest] = parts(said);
  const name = new RegExp(`^${text}$`, 's').exec(first)?.[1];
  if (name === undefined) return false;
  const use: Group = { product: unquoted(name) };
  const known = rest.every((part) =>
    productParts.some(([key, shape]) => {
      const value = new RegExp(`^${shape}$`, 's').exec(part)?.[1];
      if (value !== undefined)
        use[key] = shape.includes('"') ? unquoted(value) : /milk|meat|cost/.test(key) ? Number(value) : value;
      return value !== undefined;
    }),
  );
  push(
    draft,
    'products',
    Object.fromEntries(
      Object.keys(productUse.shape).flatMap((key) => (use[key] === undefined ? [] : [[key, use[key]]])),
    ),
  );
  return known;
}
