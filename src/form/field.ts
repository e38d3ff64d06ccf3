import type { Wanted } from '../casefile/wanted.js';
import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';
import { type Animal, animal as animalSchema } from '../record/animal.js';
import { type KeyPlace, placeOf } from '../record/key.js';
import { addDays, type CalendarDay, calendarDay } from '../record/calendar-day.js';
import { codeOn } from '../record/code-of-lesion.js';
import { lesionCodes } from '../record/words.js';
import { lesionInWords, placeInWords, sentenceCase } from '../words/day-and-place.js';
import { saidAt, type Words } from '../reference/words.js';
import type { FieldView, HeldView } from './form-view.js';

/** One answer of a form: what it is called there, and what it may be. */
export interface AnswerField {
  readonly kind: 'answer';
  /** The way to its key in a visit, joined with dots: `found.a.top`, `blocks.0.foot`. */
  readonly name: string;
  readonly key: string;
  readonly wanted: Wanted;
  /** The words or names to choose from; empty where the answer is typed. */
  readonly choices: readonly string[];
  /** How long from the visit, beside a day that may be typed too: `4 weeks`. */
  readonly spans: readonly string[];
  readonly required: boolean;
}

/** Keys that belong together under one: a foot, what was found of a lesion, one block. */
export interface GroupField {
  readonly kind: 'group';
  readonly name: string;
  readonly key: string;
  readonly fields: readonly Field[];
  readonly required: boolean;
  /** What is known of it before: of a block that is on her, its foot and claw. It says nothing by itself. */
  readonly known?: Readonly<Record<string, string>>;
  /** How the same lesion or mark stood and was read last time, never a length: one tap under `NAME.last` says so again. */
  readonly last?: Readonly<Record<string, string>>;
}

interface EntriesField {
  readonly kind: 'entries';
  readonly name: string;
  readonly key: string;
  readonly entries: readonly GroupField[];
  readonly required: boolean;
}

export type Field = AnswerField | GroupField | EntriesField;

/** What a browser sends: every value under its name, in the order of the form. */
export type FormValues = ReadonlyMap<string, readonly string[]>;

const shape = z.strictObject({
  about: z.string(),
  mostRoom: z.int(),
  /** What is due so soon is among what is due. */
  dueWithinDays: z.int(),
  newLesions: z.int(),
});

/** How large the form of a visit is: `shared/form.json`. */
export const formLayout = readShared('form.json', shape);

/** A key by the way to it, without numbers and names. @example bareName('found.a.top') // → 'found.top' */
export function bareName(name: string): string {
  const [group = '', ...rest] = name.split('.');
  const named = ['found', 'lesions', 'marks', 'feet'].includes(group);
  return [group, ...rest.slice(named && rest.length > 1 ? 1 : 0)]
    .filter((part) => !/^\d+$/.test(part))
    .join('.');
}

/** Keys of a form that are the animal's, not the visit's. */
const ofAnimal = /^(?:(?:lesions|marks)\.|(?:animal|tag)$)/;

/** What the record says of the key a field is for. */
export function placeOfField(name: string): KeyPlace {
  const way = bareName(name);
  return placeOf(animalSchema, ofAnimal.test(way) ? way : `visits.${way}`);
}

/** What a field is called on the page: by its key and where it is. */
export function labelOf(words: Words, name: string): string {
  const foot = `vocabulary.foot.${name.split('.').at(-1)}`;
  if (words.has(foot)) return sentenceCase(words.say(foot));
  const way = bareName(name);
  return words.say(saidAt(words, 'form', `${ofAnimal.test(way) ? 'animal' : 'visits'}.${way}`)!);
}

/** The unit of what is typed into a field; empty where it has none. */
export function unitOf(words: Words, name: string): string {
  const { unit } = placeOfField(name);
  return unit === undefined ? '' : words.say(`form.unit.${unit}`);
}

/** The same away from its place on the page: `a: Top`, `Blocks 2: Claw`. */
export function labelWithPlace(words: Words, name: string): string {
  const parts = name.split('.');
  const [group = '', inner = ''] = parts;
  const label = labelOf(words, name);
  if (parts.length === 1) return label;
  const whose = ['found', 'lesions', 'marks', 'feet'].includes(group) ? inner : labelOf(words, group);
  const number = /^\d+$/.test(inner) ? ` ${Number(inner) + 1}` : '';
  return `${whose}${number}: ${label}`;
}

/** A word of a closed list as the reader says it; a lesion by its name where names are chosen. */
export function optionOf(words: Words, animal: Animal, name: string, value: string): string {
  const { told = '' } = placeOfField(name);
  const code = lesionCodes.find((one) => one === value);
  if (told === 'lesion' && code) return sentenceCase(lesionInWords(words, code));
  for (const list of told.split(' '))
    if (words.has(`vocabulary.${list}.${value}`)) return words.say(`vocabulary.${list}.${value}`);
  if (words.has(`form.word.${value}`)) return words.say(`form.word.${value}`);
  const isHers = animal.lesions[value] !== undefined || animal.marks?.[value] !== undefined;
  return isHers ? findingName(words, animal, value) : value;
}

/** The same in as few words as a tile has room for. */
export function shortOf(words: Words, animal: Animal, name: string, value: string): string {
  const short = `form.short.${placeOfField(name).told}.${value}`;
  return words.has(short) ? words.say(short) : optionOf(words, animal, name, value);
}

/** The day so long from another. @example dayAfter('1 day ago', '2026-06-16') // → '2026-06-15' */
export function dayAfter(span: string, from: CalendarDay): CalendarDay {
  const [, count, unit, ago] = /^(\d+) (day|week)s?( ago)?$/.exec(span) ?? [];
  return addDays(from, Number(count) * (unit === 'week' ? 7 : 1) * (ago === undefined ? 1 : -1));
}

/** A lesion by its short name, what it is called today, and where it is. */
function lesionName(words: Words, animal: Animal, name: string): string {
  const lesion = animal.lesions[name];
  if (!lesion) return name;
  const code = codeOn(name, lesion, animal.visits, animal.visits.length - 1);
  return words.say('form.lesion.name', {
    name,
    lesion: lesionInWords(words, code),
    place: placeInWords(words, lesion.foot, lesion.claw),
  });
}

/** A lesion, a mark, or one first met, as the heading of its fields. */
export function findingName(words: Words, animal: Animal, name: string): string {
  if (animal.lesions[name]) return lesionName(words, animal, name);
  const mark = animal.marks?.[name];
  if (mark) return words.say('form.lesion.mark', { name, place: placeInWords(words, mark.foot, mark.claw) });
  return words.say(/^m\d+$/.test(name) ? 'form.lesion.new-mark' : 'form.lesion.new', { name });
}

/** What fields are shown with. */
export interface Showing {
  readonly words: Words;
  readonly animal: Animal;
  readonly values: FormValues;
  readonly troubles: ReadonlyMap<string, string>;
  /** Pictures already in the inbox, by the name of their field. */
  readonly held: ReadonlyMap<string, readonly HeldView[]>;
}

/** Above this many words a list opens by a tap; below, each word is a target of its own. */
const mostRadios = 7;

const blank = {
  trouble: '', type: 'text', keys: '', unit: '', value: '', options: [], notSaid: '', fields: [], more: [],
  moreLabel: '', moreOpen: false, folded: false, open: false, held: [], camera: '', phone: '',
} as const; // prettier-ignore

/** A field with all under it, as the page shows it. A list of groups is one group an entry. */
export function fieldViews(field: Field, showing: Showing): FieldView[] {
  switch (field.kind) {
    case 'answer':
      return [answerView(field, showing)];
    case 'group':
      return [groupView(field, labelOf(showing.words, field.name), showing)];
    case 'entries':
      return field.entries.map((entry, at) =>
        groupView(entry, `${labelOf(showing.words, field.name)} ${at + 1}`, showing),
      );
  }
}

export function groupView(field: GroupField, label: string, showing: Showing): FieldView {
  const { known = {} } = field;
  const fields = field.fields
    .flatMap((inner) => fieldViews(inner, showing))
    .map((view): FieldView => {
      const value = known[view.name.slice(field.name.length + 1)];
      return value === undefined ? view : { ...view, show: 'hidden', value };
    });
  const open = isBegun(field, showing);
  const picture = /^photos\.\d+$/.test(field.name);
  return {
    ...blank,
    show: picture ? 'picture' : 'group',
    name: field.name,
    label,
    trouble: showing.troubles.get(picture ? `${field.name}.file` : field.name) ?? '',
    fields,
    folded: true,
    open: open || (picture && (field.name === 'photos.0' || showing.held.has(field.name))),
    held: showing.held.get(field.name) ?? [],
    camera: showing.words.say('form.photo.camera'),
    phone: showing.words.say('form.photo.phone'),
  };
}

/** Whether anything under it is answered or wrong. */
export function isBegun(field: Field, showing: Showing): boolean {
  const under = (name: string): boolean => name === field.name || name.startsWith(`${field.name}.`);
  return (
    [...showing.troubles.keys()].some(under) ||
    [...showing.values].some(([name, values]) => under(name) && values.some((value) => value !== ''))
  );
}

function answerView(field: AnswerField, showing: Showing): FieldView {
  const { words, animal, values, troubles } = showing;
  const { name, wanted, choices, spans } = field;
  // A day so long from the visit is shown as that.
  const from = calendarDay.safeParse(values.get('date')?.[0]).data;
  const spanOf = (day: string): string => (from && spans.find((span) => dayAfter(span, from) === day)) ?? day;
  const given = (values.get(name) ?? []).map(spanOf);
  const options = [...choices, ...spans].map((value) => ({
    value,
    label: spans.includes(value) ? spanIn(words, name, value) : optionIn(words, animal, field, value),
    chosen: given.includes(value),
  }));
  const day = wanted.kind === 'day';
  const several = wanted.kind === 'list';
  // What is nearly always right as it is drawn takes one line.
  const settled = name === 'kind';
  const typed = choices.length === 0;
  const show = several ? 'checks' : wanted.kind === 'free-text' ? 'lines' : typed ? 'typed' : settled || options.length > mostRadios ? 'select' : 'radios'; // prettier-ignore
  return {
    ...blank,
    show,
    name,
    label: labelOf(words, name),
    trouble: troubles.get(name) ?? '',
    type: day ? 'date' : wanted.kind === 'time' ? 'time' : 'text',
    keys: wanted.kind === 'number' ? 'decimal' : '',
    unit: unitOf(words, name),
    value: given.findLast((value) => value !== '' && !spans.includes(value)) ?? '',
    options,
    folded: several && options.length > mostRadios,
    open: given.length > 0 || troubles.has(name),
    notSaid:
      field.required || several
        ? ''
        : words.say(day && spans.length > 0 ? 'form.visit.other-day' : 'form.visit.not-said'),
  };
}

function spanIn(words: Words, name: string, span: string): string {
  const short = `form.span.${name}.${span}`;
  return words.say(words.has(short) ? short : `form.span.${span}`);
}

function optionIn(words: Words, animal: Animal, { name, wanted }: AnswerField, value: string): string {
  const of = wanted.kind === 'list' ? wanted.of : wanted;
  if (of.kind === 'number') return value;
  if (of.kind === 'short-name') return findingName(words, animal, value);
  return sentenceCase(shortOf(words, animal, name, value));
}
