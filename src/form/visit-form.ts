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
import {
  type Field,
  type FormValues,
  type AnswerField,
  type GroupField,
  formLayout,
  placeOfField,
} from './field.js';

const markKeys: ReadonlySet<string> = new Set([
  'distance',
  'tool',
  'lifted',
  'note',
] satisfies (keyof Found)[]);

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

/** The same for a growth mark. */
function fitsMark(key: string): boolean {
  return markKeys.has(key);
}

/** What is said again by one tap: how it stands and how it was read, and no length. */
const asLast = ['state', 'top-found', 'tool'] as const;

/** What the form of a visit is made for. */
export interface FormFor {
  readonly animal: Animal;
  /** The farm's gait scale on the day. */
  readonly gaitScale: GaitScale | undefined;
  /** The visit is handed over as a note, which carries no picture and declares no mark: there are no fields for those. */
  readonly asNote?: true;
  /** Blocks and wraps known to be on her: what became of each is asked with its place said. */
  readonly onHer?: OnHer;
  /** She has no case yet: this visit opens it. */
  readonly opens?: true;
}

/** By the key of the visit under which it stands. */
export type OnHer = Readonly<Record<'blocks' | 'wraps', readonly Readonly<Record<string, string>>[]>>;

/** Every field of a visit, by the key of the visit, and those of lesions and marks first met at it. */
export interface VisitForm {
  readonly fields: ReadonlyMap<string, Field>;
  /** `lesions.b`, `marks.m2`: declared with the visit where anything is said of them. */
  readonly declared: readonly Field[];
  /** Names free for lesions first met. */
  readonly newLesions: readonly string[];
  readonly newMark: string;
  /** Who she is, where the visit opens her case. */
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
  const { animal } = made;
  const declaredNames = [...Object.keys(animal.lesions), ...Object.keys(animal.marks ?? {})];
  const free = freeNames('lesions', declaredNames);
  const newLesions = free.slice(0, formLayout.newLesions);
  const [newMark = 'm1'] = freeNames('marks', declaredNames);
  const newMarks = made.asNote ? [] : [newMark];
  const fitting = fittingOf(made, answered, newLesions, newMarks);
  const wanted = wantedBy(visitSchema);
  if (wanted.kind !== 'group') throw new TypeError('a visit is a group of keys');
  const fields = [...wanted.keys]
    .filter(([key]) => fitting.fits([key]))
    .map(([key, inner]) => [key, fieldOf(inner.wanted, [key], inner.required, fitting)] as const);
  const declared = [
    ...newLesions.map((name) => fieldOf(wantedBy(lesionSchema), ['lesions', name], false, fitting)),
    ...newMarks.map((name) => fieldOf(wantedBy(markSchema), ['marks', name], false, fitting)),
  ];
  const who = wantedBy(animalSchema);
  const identity = [...(made.opens && who.kind === 'group' ? who.keys : [])].filter(([key]) => key === 'animal' || key === 'tag').map(([key, inner]) => fieldOf(inner.wanted, [key], inner.required, fitting)); // prettier-ignore
  return { fields: new Map(fields), declared, newLesions, newMark, identity };
}

function fittingOf(
  { animal, gaitScale: scale, asNote, onHer }: FormFor,
  answered: FormValues,
  newLesions: readonly string[],
  newMarks: readonly string[],
): Fitting {
  const isMark = (name: string): boolean => newMarks.includes(name) || animal.marks?.[name] !== undefined;
  const code = (name: string): LesionCode | undefined => {
    const said = answered.get(`found.${name}.code`)?.[0] || answered.get(`lesions.${name}.code`)?.[0];
    const lesion = animal.lesions[name];
    return (
      lesionCodes.find((one) => one === said) ??
      (lesion && codeOn(name, lesion, animal.visits, animal.visits.length - 1))
    );
  };
  const lesionNames = [...Object.keys(animal.lesions), ...newLesions];
  const fits = (path: readonly string[]): boolean => {
    const [group, name = '', key] = path;
    if (placeOfField(path.join('.')).form === 'none') return false;
    if (asNote && group === 'photos') return false;
    if (key === 'again-of') return Object.keys(animal.lesions).length > 0;
    if (group !== 'found' || key === undefined) return true;
    // One first met is called what it is declared as.
    if (key === 'code' && newLesions.includes(name)) return false;
    return isMark(name) ? fitsMark(key) : fitsLesion(key, code(name));
  };
  const known = ([list = '', at = '']: readonly string[]): GroupField['known'] => {
    const said = (key: string): string | undefined => answered.get(`${list}.${at}.${key}`)?.[0];
    const place = onHer?.[list as keyof OnHer]?.[Number(at)];
    const isOf = ([key, value]: [string, string]): boolean => (said(key) ?? value) === value;
    return place && Object.entries(place).every(isOf) && !isComing(said('event')) ? place : undefined;
  };
  return {
    fits,
    choices: (path, wanted) => {
      const [group, name = ''] = path;
      if (path.join('.') === 'gait' && scale) return scoresOf(scale);
      if (path.at(-1) === 'event' && known(path))
        return choicesOf(wanted, []).filter((word) => !isComing(word));
      if (group === 'found' && path.at(-1) === 'state') return statesOf(code(name), wanted);
      if (path.at(-1) === 'about') return [...lesionNames, ...Object.keys(animal.marks ?? {}), ...aboutWords];
      return choicesOf(
        wanted,
        path.at(-1) === 'again-of'
          ? Object.keys(animal.lesions)
          : path.at(-1) === 'joined'
            ? without(lesionNames, name)
            : lesionNames,
      );
    },
    spans: (path) => placeOfField(path.join('.')).spans ?? [],
    names: () => [
      ...Object.keys(animal.lesions),
      ...newLesions,
      ...Object.keys(animal.marks ?? {}),
      ...newMarks,
    ],
    room: (path) => {
      const name = path.join('.');
      const { length } = onHer?.[name as keyof OnHer] ?? [];
      const drawn = Math.max(length + (placeOfField(name).room ?? 1), lastDrawn(answered, name) + 1);
      return Math.min(drawn + (answered.has('more') ? 2 : 0), formLayout.mostRoom);
    },
    known,
    last: ([group, name = '']) => {
      if (group !== 'found' || isHealed(lastFound(animal.visits, name))) return undefined;
      const said = asLast.flatMap((key) => {
        const value = animal.visits.findLast(({ found }) => found?.[name]?.[key])?.found?.[name]?.[key];
        return value !== undefined && fits(['found', name, key]) ? [[key, value] as const] : [];
      });
      return said.some(([key]) => key === 'tool') ? Object.fromEntries(said) : undefined;
    },
  };
}

/** The place of the last entry of a list that came with the form, answered or not; -1 where none did. */
function lastDrawn(answered: FormValues, list: string): number {
  const places = [...answered.keys()].flatMap((name) => {
    const [at] = name.startsWith(`${list}.`) ? name.slice(list.length + 1).split('.') : [];
    return at !== undefined && /^\d{1,3}$/.test(at) ? [Number(at)] : [];
  });
  return largest(places, -1);
}

/** What happens to a block that is not on her yet. */
function isComing(event: string | undefined): boolean {
  return event === 'fitted' || event === 'already on';
}

function without(names: readonly string[], name: string): string[] {
  return names.filter((one) => one !== name);
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

/** What a form knows of one animal beyond the record model: which words fit, which names, how many entries. */
interface Fitting {
  /** Of a closed list, the words that fit there; of a name, the names there are; of a number, those of its scale. */
  readonly choices: (path: readonly string[], wanted: Wanted) => readonly string[];
  readonly spans: (path: readonly string[]) => readonly string[];
  /** Whether a key has its place there. */
  readonly fits: (path: readonly string[]) => boolean;
  /** The names under which groups stand. */
  readonly names: (path: readonly string[]) => readonly string[];
  /** How many entries a list has room for. */
  readonly room: (path: readonly string[]) => number;
  readonly known: (path: readonly string[]) => GroupField['known'];
  readonly last: (path: readonly string[]) => GroupField['last'];
}

/**
 * The field of a place in the record model, with all that stands under it.
 *
 * Made from the very schema that checks the files: a key added there has its field here. A schema of a kind no form
 * shows yet throws, and so fails the tests.
 *
 * Checked: tests/form/visit-form.test.ts
 */
function fieldOf(wanted: Wanted, path: readonly string[], required: boolean, fitting: Fitting): Field {
  const name = path.join('.');
  const key = path.at(-1) ?? '';
  switch (wanted.kind) {
    case 'group':
      return groupOf(wanted, path, required, fitting);
    case 'named': {
      const fields = fitting.names(path).map((one) => fieldOf(wanted.of, [...path, one], false, fitting));
      return { kind: 'group', name, key, fields, required };
    }
    case 'list': {
      const { of } = wanted;
      if (of.kind !== 'group') return answerOf(wanted, path, required, fitting);
      const entries = Array.from({ length: fitting.room(path) }, (_, at) =>
        groupOf(of, [...path, String(at)], false, fitting),
      );
      return { kind: 'entries', name, key, entries, required };
    }
    case 'either':
    case 'version':
    case 'slug':
      throw new TypeError(`no field of a form for ${name}, of the kind ${wanted.kind}`);
    default:
      return answerOf(wanted, path, required, fitting);
  }
}

function groupOf(
  { keys }: Extract<Wanted, { kind: 'group' }>,
  path: readonly string[],
  required: boolean,
  fitting: Fitting,
): GroupField {
  const fields = [...keys]
    .filter(([key]) => fitting.fits([...path, key]))
    .map(([key, inner]) => fieldOf(inner.wanted, [...path, key], inner.required, fitting));
  return {
    kind: 'group',
    name: path.join('.'),
    key: path.at(-1) ?? '',
    fields,
    required,
    ...given({ known: fitting.known(path), last: fitting.last(path) }),
  };
}

function answerOf(wanted: Wanted, path: readonly string[], required: boolean, fitting: Fitting): AnswerField {
  return {
    kind: 'answer',
    name: path.join('.'),
    key: path.at(-1) ?? '',
    wanted,
    choices: fitting.choices(path, wanted),
    spans: fitting.spans(path),
    required,
  };
}
