import { z } from 'zod';

/** Parts of the form of a visit, in their order. */
export const formParts = ['visit', 'walk', 'found', 'work', 'care', 'photos', 'next'] as const;
export type FormPart = (typeof formParts)[number];

/** Parts of the yard sheet that are rows of keys; `lesion`, `new`, `mark`, `block` and `wrap` are of one each. */
export type SheetPart =
  | 'urgent' | 'walk' | 'block' | 'wrap' | 'arrival' | 'lesion' | 'new' | 'mark' | 'after' | 'on' | 'new-mark'
  | 'product' | 'care' | 'photos' | 'next' | 'visit'; // prettier-ignore

/**
 * How a key is answered on paper: `digits` in boxes of one digit each; `ring` round a printed word; on a line so wide;
 * `other`: words to tick and a line for all others; `both`: no can be ticked as well as yes. Without one, a length has
 * digits, what has words is ticked, of something new ringed, and all else written on a line by its kind.
 */
export type SheetWay = '' | 'digits' | 'ring' | 'short' | 'day' | 'middle' | 'rest' | 'other' | 'both';

/** A part of the sheet, the row, the place in the row, and how it is answered. */
type SheetPlace = `${SheetPart} ${number}/${number}${'' | ` ${Exclude<SheetWay, ''>}`}`;

/**
 * Where a key has its place beside the files. What is said of it is in the words, under `key`: `says` in the
 * dictionary and the schemas, `form` and `sheet` as a label, `ask` and `more` as a question, `log` in the printed visits.
 */
export interface KeyPlace {
  /** By the Unified Code for Units of Measure, but `milkings`, which it has not. */
  readonly unit?: 'mm' | 'kg' | 'd' | 'wk' | 'a' | 'h' | 'L' | 'ha' | '%' | 'milkings';
  /** The lists of words its values are worded by, under `vocabulary`, with a space between. */
  readonly told?: string;
  /** Part and order in the form of a visit; `+`: shown once unfolded. What is inside a group comes with it. */
  readonly form?: `${FormPart}${'' | '+'} ${number}` | 'none';
  /** How many blank entries a list has in the form. */
  readonly room?: number;
  /** A day that lies ahead: said without a year, the next such day is meant. */
  readonly ahead?: true;
  /** How long from the visit a day may be, to choose from. */
  readonly spans?: readonly string[];
  /** `own`: each key inside has its own; `each`: by foot, task or lesion; `lines`: in words; `none`: with the reason beside it. */
  readonly sheet?: SheetPlace | readonly SheetPlace[] | 'own' | 'each' | 'lines' | 'none';
  /** Its order among the questions at the desk. */
  readonly ask?: number | 'none';
  /** The families of lesion, or `mark`, of which it is asked, with commas between. */
  readonly of?: string;
  /** Its order among what is asked of one who wants to add more. */
  readonly more?: number;
  /**
   * The kind of words in `note-words` by which a note says it; `none`: no note can. With families, or `visit`, behind `of`
   * the word alone says it, of the lesion spoken of or of the visit: `yes`, `no` or the value itself.
   */
  readonly noted?: string;
  /** In print: among what was found or done at a visit, `+` where it takes many words; about the visit; beside another key; who she is. */
  readonly log?: 'found' | 'found+' | 'done' | 'done+' | 'about' | 'beside' | 'identity';
}

/** What a key of a visit has to say of itself: without one of these it does not compile. */
export type VisitPlace = KeyPlace &
  Required<Pick<KeyPlace, 'form' | 'sheet' | 'log' | 'noted'>> &
  (Required<Pick<KeyPlace, 'ask'>> | Required<Pick<KeyPlace, 'more'>>);
/** The same of a key inside a visit. */
export type InnerPlace = KeyPlace & Required<Pick<KeyPlace, 'sheet' | 'noted'>>;

/** A key as it is declared: what it may hold, and its places. */
export interface Key<P extends KeyPlace = KeyPlace, S extends z.core.$ZodType = z.core.$ZodType> {
  readonly holds: S;
  readonly place: P;
}

export function key<S extends z.core.$ZodType, const P extends KeyPlace>(holds: S, place: P): Key<P, S> {
  return { holds, place };
}

/** A key that may be left out. */
export function may<S extends z.core.$ZodType, const P extends KeyPlace>(
  holds: S,
  place: P,
): Key<P, z.ZodOptional<S>> {
  return { holds: z.optional(holds), place };
}

/** The places that every key of a visit has: in the form, on the sheet, in print, and the words of a note. */
export function at<
  const F extends NonNullable<KeyPlace['form']>,
  const S extends NonNullable<KeyPlace['sheet']>,
  const L extends NonNullable<KeyPlace['log']>,
>(form: F, sheet: S, log: L, noted: string) {
  return { form, sheet, log, noted };
}

type Keys = Readonly<Record<string, z.core.$ZodType | Key>>;
type Shape<K extends Keys> = {
  -readonly [N in keyof K]: K[N] extends Key<KeyPlace, infer S>
    ? S
    : K[N] extends z.core.$ZodType
      ? K[N]
      : never;
};

const declared = new WeakMap<z.core.$ZodType, Readonly<Record<string, KeyPlace>>>();

/** A group of keys, strict, with the place of each. */
export function group<K extends Keys>(keys: K): z.ZodObject<Shape<K>, z.core.$strict> {
  const entries = Object.entries(keys).map(
    ([name, one]) => [name, 'holds' in one ? one : key(one, {})] as const,
  );
  const schema = z.strictObject(Object.fromEntries(entries.map(([name, { holds }]) => [name, holds])));
  declared.set(schema, Object.fromEntries(entries.map(([name, { place }]) => [name, place])));
  return schema as unknown as z.ZodObject<Shape<K>, z.core.$strict>;
}

/** The places of a group's keys, in the order of the format. */
export function placesOf(schema: z.core.$ZodType): Readonly<Record<string, KeyPlace>> {
  return declared.get(schema) ?? {};
}

/**
 * A key by the keys that lead to it, names and numbers of entries left out; undefined where there is none.
 *
 * Checked: tests/record/key.test.ts
 */
export function keyAt(root: z.core.$ZodType, way: string): Key | undefined {
  const known = found.get(root) ?? new Map<string, Key | undefined>();
  found.set(root, known);
  if (!known.has(way)) known.set(way, findKey(root, way));
  return known.get(way);
}

/** Asked for each value of each visit: looked for once. */
const found = new WeakMap<z.core.$ZodType, Map<string, Key | undefined>>();

function findKey(root: z.core.$ZodType, way: string): Key | undefined {
  const [first = '', ...rest] = way.split('.');
  for (const schema of groupsIn(root)) {
    const holds = schema.shape[first];
    if (holds && rest.length > 0) return keyAt(holds, rest.join('.'));
    if (holds) return { holds, place: placesOf(schema)[first] ?? {} };
  }
  return undefined;
}

/** Where a key has its place, by the keys that lead to it. */
export function placeOf(root: z.core.$ZodType, way: string): KeyPlace {
  return keyAt(root, way)?.place ?? {};
}

/** Whether a key takes values of this schema, one or several. */
export function takes(root: z.core.$ZodType, way: string, wanted: z.core.$ZodType): boolean {
  let schema = keyAt(root, way)?.holds;
  while (schema instanceof z.ZodOptional || schema instanceof z.ZodArray)
    schema = schema instanceof z.ZodOptional ? schema.unwrap() : schema.element;
  return schema === wanted;
}

/** The groups a key may hold, whether one, a list, or under names. */
function groupsIn(schema: z.core.$ZodType): z.ZodObject[] {
  if (schema instanceof z.ZodObject) return [schema];
  if (schema instanceof z.ZodOptional) return groupsIn(schema.unwrap());
  if (schema instanceof z.ZodArray) return groupsIn(schema.element);
  if (schema instanceof z.ZodRecord) return groupsIn(schema.valueType);
  return schema instanceof z.ZodUnion ? schema.options.flatMap((option) => groupsIn(option)) : [];
}

/** Every key of a group that has a place, those inside it too, by the way to it. */
export function keysWithin(root: z.core.$ZodType, under = ''): (readonly [way: string, place: KeyPlace])[] {
  return groupsIn(root).flatMap((schema) =>
    Object.entries(placesOf(schema)).flatMap(([name, place]) => [
      [under + name, place] as const,
      ...keysWithin(schema.shape[name], `${under}${name}.`),
    ]),
  );
}
