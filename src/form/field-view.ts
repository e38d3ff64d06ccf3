import type { Animal } from '../record/animal.js';
import { calendarDay } from '../record/calendar-day.js';
import { sentenceCase } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import {
  type AnswerField,
  type Field,
  type FormValues,
  type GroupField,
  dayAfter,
  findingName,
  labelOf,
  shortOf,
  unitOf,
} from './field.js';
import type { FieldView, HeldView } from './form-view.js';

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
