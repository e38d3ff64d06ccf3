import { readAnswer } from '../keep/answer/read-answer.js';
import type { Declares } from '../keep/add-visit.js';
import type { VisitDraft } from '../keep/visit-draft.js';
import { type CalendarDay, calendarDay } from '../record/calendar-day.js';
import { timeOfDay } from '../record/measures.js';
import type { Photo } from '../record/visit.js';
import { messageWords } from '../reference/words.js';
import { type AnswerField, dayAfter, type Field, type FormValues, type GroupField } from './field.js';
import type { VisitForm } from './visit-form.js';

/** What a form says. Troubles are under the name of their field; what they are about is not in the draft. */
export interface FormReading {
  /** Without its pictures. */
  readonly draft: Partial<VisitDraft>;
  /** What is said of each picture, by the name of its fields: `photos.0`. */
  readonly shows: ReadonlyMap<string, Omit<Photo, 'file'>>;
  readonly declares: Declares;
  /** Who she is, where the visit opens her case. */
  readonly opens?: { readonly animal: string; readonly tag?: string };
  readonly troubles: ReadonlyMap<string, string>;
}

/**
 * What somebody filled in, as a visit under the keys of the case format. What was not answered is left out.
 *
 * Text is kept as typed, but for blanks around it, which phones add of themselves, and for line ends, which browsers
 * send as two signs. A number may have one comma for its point (`21,5`): some phones offer no point.
 *
 * Checked: tests/form/any-visit.test.ts
 */
export function readForm(form: VisitForm, values: FormValues, today: CalendarDay): FormReading {
  const troubles = new Map<string, string>();
  const [date = ''] = values.get('date') ?? [];
  const reading = { values, troubles, from: calendarDay.safeParse(date).success ? date : today };
  const fields = [...form.fields.values()].filter(({ key }) => key !== 'photos');
  const draft = readFields(fields, reading);
  for (const field of fields) askedFor(field, draft, troubles);
  const opens = readFields(form.identity, reading);
  for (const field of form.identity) askedFor(field, opens, troubles);
  const declares: { lesions?: Record<string, unknown>; marks?: Record<string, unknown> } = {};
  for (const field of form.declared) {
    const [group, name = ''] = field.name.split('.');
    const found = (draft?.['found'] as Record<string, unknown> | undefined)?.[name] !== undefined;
    const said = readField(field, reading, found);
    if (said === undefined) continue;
    if (group === 'lesions') declares.lesions = { ...declares.lesions, [name]: said };
    else declares.marks = { ...declares.marks, [name]: said };
  }
  const pictures = form.fields.get('photos');
  const shows = (pictures?.kind === 'entries' ? pictures.entries : []).map(
    (entry) => [entry.name, readField(entry, reading, false) ?? {}] as const,
  );
  return {
    draft: draft ?? {},
    shows: new Map(shows),
    declares: declares as Declares,
    ...(opens ? { opens: opens as { animal: string } } : {}),
    troubles,
  };
}

interface Reading {
  readonly values: FormValues;
  readonly troubles: Map<string, string>;
  readonly from: CalendarDay;
}

/** The keys answered; undefined where none is. */
function readFields(fields: readonly Field[], reading: Reading): Record<string, unknown> | undefined {
  const group: Record<string, unknown> = {};
  for (const field of fields) {
    const value = readField(field, reading, false);
    if (value !== undefined) group[field.key] = value;
  }
  return Object.keys(group).length === 0 ? undefined : group;
}

/** `begun`: something else already says that there is such an entry, so that what it must hold is asked for. */
function readField(field: Field, reading: Reading, begun: boolean): unknown {
  switch (field.kind) {
    case 'answer':
      return readOne(field, reading);
    case 'entries': {
      const entries = field.entries.flatMap((entry) => readField(entry, reading, false) ?? []);
      return entries.length === 0 ? undefined : entries;
    }
    case 'group': {
      const before = reading.troubles.size;
      const group = withKnown(field, readFields(field.fields, reading), reading.values);
      if (group === undefined && reading.troubles.size === before && !begun) return undefined;
      for (const inner of field.fields) askedFor(inner, group, reading.troubles);
      return group;
    }
  }
}

/** With what is known of a block that something is said of, and what was tapped as being like last time. */
function withKnown(
  { name, fields, known, last }: GroupField,
  group: Readonly<Record<string, unknown>> | undefined,
  values: FormValues,
): Readonly<Record<string, unknown>> | undefined {
  // One that was known when the form was drawn may already be off: its place alone says nothing still.
  if (known ?? values.has(`${name}.known`)) {
    const said = Object.keys(group ?? {}).some((key) => key !== 'foot' && key !== 'claw');
    return said ? { ...known, ...group } : undefined;
  }
  if (!last || !values.get(`${name}.last`)?.includes('yes')) return group;
  // How a length was read says nothing where none was.
  const isRead = (keys: readonly string[]): boolean => keys.some((key) => group?.[key] !== undefined);
  const again: Readonly<Record<string, string | undefined>> = {
    ...last,
    'top-found': isRead(['top']) || last['top-found'] === 'higher' ? last['top-found'] : undefined,
    tool: isRead(lengths) ? last['tool'] : undefined,
  };
  const said = fields.flatMap(({ key }) => {
    const value = group?.[key] ?? again[key];
    return value === undefined ? [] : [[key, value] as const];
  });
  return said.length === 0 ? undefined : Object.fromEntries(said);
}

const lengths = ['top', 'wall', 'length', 'width', 'depth', 'distance'];

function askedFor(
  { name, key, required }: Field,
  group: Readonly<Record<string, unknown>> | undefined,
  troubles: Map<string, string>,
): void {
  if (required && group?.[key] === undefined && !troubles.has(name))
    troubles.set(name, messageWords().say('answer.nothing'));
}

function readOne(field: AnswerField, { values, troubles, from }: Reading): unknown {
  const { name, wanted, choices } = field;
  const given = (values.get(name) ?? [])
    .map((value) => value.replaceAll(/\r\n?/g, '\n').trim())
    .filter((value) => value !== '');
  const typed = [...new Set(given)];
  if (typed.length === 0) return undefined;
  const wrong = (message: string): undefined => void troubles.set(name, message);
  if (choices.length > 0) {
    const unfit = typed.find((value) => !choices.includes(value));
    if (unfit !== undefined)
      return wrong(messageWords().say('answer.none-of', { typed: unfit, choices: choices.join(', ') }));
  }
  if (wanted.kind === 'list') return typed;
  const [only = '', other] = typed;
  if (other !== undefined) return wrong(messageWords().say('answer.both', { first: only, second: other }));
  if (['text', 'free-text', 'short-name', 'slug'].includes(wanted.kind)) return only;
  if (wanted.kind === 'time')
    return timeOfDay.safeParse(only).success
      ? only
      : wrong(messageWords().say('answer.no-time', { typed: only }));
  if (field.spans.includes(only)) return dayAfter(only, from);
  const point = wanted.kind === 'number' ? only.replace(/^(\d+),(\d{1,2})$/, '$1.$2') : only;
  const answer = readAnswer(wanted, point, { from });
  return answer.outcome === 'value' ? answer.value : wrong(answer.message.replaceAll(/`([^`]*)`/g, '“$1”'));
}
