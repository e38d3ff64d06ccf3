import { largest } from '../statistics/estimate.js';
import { wantedBy, type Wanted } from '../casefile/wanted.js';
import { type Animal, animal as animalSchema } from '../record/animal.js';
import { given } from '../record/given.js';
import { codeOn } from '../record/code-of-lesion.js';
import { lesion as lesionSchema, mark as markSchema, freeNames } from '../record/lesion.js';
import { type Found, isHealed, lastFound, visit as visitSchema } from '../record/visit.js';
import { aboutWords, type GaitScale, lesionCodes, type LesionCode } from '../record/words.js';
import { lesionKinds, measures, wallGapKeys } from '../reference/lesions.js';
import { gaitScale } from '../reference/scales.js';
import { type Field, type FormValues, formLayout, type GroupField, placeOfField } from './field.js';

/** The keys of `found` that have their place on a growth mark. */
const markKeys: ReadonlySet<string> = new Set<keyof Found>(['distance', 'tool', 'lifted', 'note']);

/**
 * Whether a key of `found` has its place on a lesion of this code, as the checks of the reader hold it; without a code,
 * on some lesion.
 *
 * Checked: tests/form/visit-form.test.ts, against those checks
 */
export function fitsLesion(key: string, code: LesionCode | undefined): boolean {
  if (key === 'distance') return false;
  if (code === undefined) return true;
  const { family, measures: measured } = lesionKinds[code];
  const measure = measures.find((one) => one === key);
  if (measure) return measured.has(measure);
  if (key === 'tool') return measured.size > 0;
  if (key === 'infected') return family !== 'dermatitis';
  return !wallGapKeys.has(key) || family === 'wall';
}

/** What is said again by one tap: its status and how it was read, and no length. */
const asLast = ['state', 'top-found', 'tool'] as const;

/** What the form of a visit is made for. */
export interface FormFor {
  readonly animal: Animal;
  readonly gaitScale: GaitScale | undefined;
  /** The visit is handed over as a note, which carries no picture and declares no mark: there are no fields for those. */
  readonly asNote?: true;
  /** Blocks and wraps known to be on her: what became of each is asked with its place said. */
  readonly onHer?: OnHer;
  /** She has no case yet: this visit opens it. */
  readonly opens?: true;
}

/** By the key of the visit under which it is. */
export type OnHer = Readonly<Record<'blocks' | 'wraps', readonly Readonly<Record<string, string>>[]>>;

/** Every field of a visit, by the key of the visit, and those of lesions and marks first met at it. */
export interface VisitForm {
  readonly fields: ReadonlyMap<string, Field>;
  /** `lesions.b`, `marks.m2`: declared with the visit where anything is said of them. */
  readonly declared: readonly Field[];
  /** Names free for lesions first met. */
  readonly newLesions: readonly string[];
  readonly newMark: string;
  readonly identity: readonly Field[];
}

/**
 * The form of a visit of one animal, made from the record model: a field for every key of a visit but those
 * the model leaves out with the reason.
 *
 * Shape:   the animal and what was answered so far → fields. Answers change which words fit: a lesion whose name is
 *          said to have changed is asked what fits the new one; a list has room for all that is answered.
 * Checked: tests/form/visit-form.test.ts
 */
export function visitForm(made: FormFor, answered: FormValues): VisitForm {
  const { animal, gaitScale: scale, asNote, onHer } = made;
  const ownLesions = Object.keys(animal.lesions);
  const ownMarks = Object.keys(animal.marks ?? {});
  const newLesions = freeNames('lesions', [...ownLesions, ...ownMarks]).slice(0, formLayout.newLesions);
  const [newMark = 'm1'] = freeNames('marks', [...ownLesions, ...ownMarks]);
  const newMarks = asNote ? [] : [newMark];
  const lesionNames = [...ownLesions, ...newLesions];
  const names = [...lesionNames, ...ownMarks, ...newMarks];
  const said = (name: string): string | undefined => answered.get(name)?.[0];
  const code = (name: string): LesionCode | undefined => {
    const typed = said(`found.${name}.code`) || said(`lesions.${name}.code`);
    const lesion = animal.lesions[name];
    return (
      lesionCodes.find((one) => one === typed) ??
      (lesion && codeOn(name, lesion, animal.visits, animal.visits.length - 1))
    );
  };

  const fits = (path: readonly string[]): boolean => {
    const [group, name = '', key] = path;
    if (placeOfField(path.join('.')).form === 'none') return false;
    if (asNote && group === 'photos') return false;
    if (key === 'again-of') return ownLesions.length > 0;
    if (group !== 'found' || key === undefined) return true;
    // One first met is called what it is declared as.
    if (key === 'code' && newLesions.includes(name)) return false;
    const isMark = newMarks.includes(name) || ownMarks.includes(name);
    return isMark ? markKeys.has(key) : fitsLesion(key, code(name));
  };

  const knownAt = ([list = '', at = '']: readonly string[]): GroupField['known'] => {
    const of = (key: string): string | undefined => said(`${list}.${at}.${key}`);
    const place = onHer?.[list as keyof OnHer]?.[Number(at)];
    const isOf = ([key, value]: [string, string]): boolean => (of(key) ?? value) === value;
    return place && Object.entries(place).every(isOf) && !isComing(of('event')) ? place : undefined;
  };

  const lastAt = ([group, name = '']: readonly string[]): GroupField['last'] => {
    if (group !== 'found' || isHealed(lastFound(animal.visits, name))) return undefined;
    const last = asLast.flatMap((key) => {
      const value = animal.visits.findLast(({ found }) => found?.[name]?.[key])?.found?.[name]?.[key];
      return value !== undefined && fits(['found', name, key]) ? [[key, value] as const] : [];
    });
    return last.some(([key]) => key === 'tool') ? Object.fromEntries(last) : undefined;
  };

  /** Of a closed list, the words that fit there; of a name, the names there are; of a number, those of its scale. */
  const choicesAt = (path: readonly string[], wanted: Wanted): readonly string[] => {
    const [group, name = ''] = path;
    const key = path.at(-1);
    if (path.join('.') === 'gait' && scale) return scoresOf(scale);
    if (key === 'event' && knownAt(path)) return choicesOf(wanted, []).filter((word) => !isComing(word));
    if (group === 'found' && key === 'state') return statesOf(code(name), wanted);
    if (key === 'about') return [...lesionNames, ...ownMarks, ...aboutWords];
    if (key === 'again-of') return choicesOf(wanted, ownLesions);
    const others = key === 'joined' ? lesionNames.filter((one) => one !== name) : lesionNames;
    return choicesOf(wanted, others);
  };

  const roomAt = (name: string): number => {
    const { length } = onHer?.[name as keyof OnHer] ?? [];
    const drawn = Math.max(length + (placeOfField(name).room ?? 1), lastDrawn(answered, name) + 1);
    return Math.min(drawn + (answered.has('more') ? 2 : 0), formLayout.mostRoom);
  };

  /**
   * The field of a place in the record model, with all that is under it: made from the very schema that checks the
   * files, so that a key added there has its field here. A schema of a kind no form shows yet throws, and so fails the tests.
   */
  const fieldOf = (wanted: Wanted, path: readonly string[], required: boolean): Field => {
    const name = path.join('.');
    const at = { name, key: path.at(-1) ?? '', required };
    switch (wanted.kind) {
      case 'group':
        return groupOf(wanted, path, required);
      case 'named':
        return {
          ...at,
          kind: 'group',
          fields: names.map((one) => fieldOf(wanted.of, [...path, one], false)),
        };
      case 'either':
      case 'version':
      case 'slug':
        throw new TypeError(`no field of a form for ${name}, of the kind ${wanted.kind}`);
    }
    if (wanted.kind === 'list' && wanted.of.kind === 'group') {
      const { of } = wanted;
      const entry = (_: unknown, index: number) => groupOf(of, [...path, String(index)], false);
      return { ...at, kind: 'entries', entries: Array.from({ length: roomAt(name) }, entry) };
    }
    const spans = placeOfField(name).spans ?? [];
    return { ...at, kind: 'answer', wanted, choices: choicesAt(path, wanted), spans };
  };

  const groupOf = ({ keys }: WantedGroup, path: readonly string[], required: boolean): GroupField => ({
    kind: 'group',
    name: path.join('.'),
    key: path.at(-1) ?? '',
    fields: fieldsOf(keys, path),
    required,
    ...given({ known: knownAt(path), last: lastAt(path) }),
  });

  const fieldsOf = (keys: WantedGroup['keys'], path: readonly string[]): Field[] =>
    [...keys]
      .map(([key, { wanted, required }]) => ({ to: [...path, key], wanted, required }))
      .filter(({ to }) => fits(to))
      .map(({ to, wanted, required }) => fieldOf(wanted, to, required));

  const own = keysOf(animalSchema);
  const identity = new Map([...own].filter(([key]) => key === 'animal' || key === 'tag'));
  return {
    fields: new Map(fieldsOf(keysOf(visitSchema), []).map((field) => [field.key, field])),
    declared: [
      ...newLesions.map((name) => fieldOf(wantedBy(lesionSchema), ['lesions', name], false)),
      ...newMarks.map((name) => fieldOf(wantedBy(markSchema), ['marks', name], false)),
    ],
    newLesions,
    newMark,
    identity: made.opens ? fieldsOf(identity, []) : [],
  };
}

type WantedGroup = Extract<Wanted, { kind: 'group' }>;

function keysOf(schema: Parameters<typeof wantedBy>[0]): WantedGroup['keys'] {
  const wanted = wantedBy(schema);
  if (wanted.kind !== 'group') throw new TypeError('a record is a group of keys');
  return wanted.keys;
}

/** The place of the last entry of a list that came with the form, answered or not; -1 where none did. */
function lastDrawn(answered: FormValues, list: string): number {
  const places = [...answered.keys()].flatMap((name) => {
    const [at] = name.startsWith(`${list}.`) ? name.slice(list.length + 1).split('.') : [];
    return at !== undefined && /^\d{1,3}$/.test(at) ? [Number(at)] : [];
  });
  return largest(places, -1);
}

function isComing(event: string | undefined): boolean {
  return event === 'fitted' || event === 'already on';
}

function scoresOf(scale: GaitScale): string[] {
  const { lowest, highest, step } = gaitScale[scale];
  return Array.from({ length: Math.round((highest - lowest) / step) + 1 }, (_, at) =>
    String(lowest + at * step),
  );
}

function statesOf(code: LesionCode | undefined, wanted: Wanted): readonly string[] {
  const words = choicesOf(wanted, []);
  return code === undefined ? words : words.filter((word) => lesionKinds[code].states.has(word));
}

function choicesOf(wanted: Wanted, names: readonly string[]): readonly string[] {
  if (wanted.kind === 'list') return choicesOf(wanted.of, names);
  if (wanted.kind === 'word') return wanted.words;
  if (wanted.kind === 'yes-no') return ['yes', 'no'];
  return wanted.kind === 'short-name' ? names : [];
}
