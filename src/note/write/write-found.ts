import type { Found } from '../../record/found.js';
import type { Sign } from '../../record/words.js';
import { quoted } from './quoted.js';

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

/** Before the signs that are seen, so that `heat gone, pus` can mean one thing only. */
export function writeGone(signs: readonly Sign[]): string {
  return signs.map((sign) => `${sign} gone`).join(', ');
}

/**
 * What was found of one lesion or mark: `lesion a: open, top 21, top seen, ruler, wall 43`. `looking`: feet were looked
 * at, so that a lesion without a word on its state says so.
 */
export function writeFound(name: string, mark: boolean, found: Found, looking: boolean): string {
  const unsaid = looking && !mark && (found.state ?? found.stage ?? found.joined) === undefined;
  const words = [...(unsaid ? ['state not said'] : []), ...inWords(written, found)];
  return `${mark ? 'mark' : 'lesion'} ${name}: ${words.join(', ')}`;
}

/** The keys that are there, in the order of the table. */
export function inWords<T extends object>(
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
