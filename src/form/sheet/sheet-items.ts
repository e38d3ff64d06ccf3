import type { Animal } from '../../record/animal.js';
import { sentenceCase } from '../../words/number-in-words.js';
import type { Words } from '../../words/words.js';
import { type AnswerField, type Field, labelOf, optionOf, formLayout } from '../field.js';
import type { VisitForm } from '../visit-form.js';
import { sheetLayout } from './sheet-layout.js';
import type { SheetItem } from './sheet-page.js';

/** What the rows of a sheet are made with: the same fields a phone's form has. */
export interface SheetForm {
  readonly words: Words;
  readonly animal: Animal;
  readonly form: VisitForm;
  /** The farm's gait scale in words; undefined where none is said. */
  readonly scale: string | undefined;
}

/**
 * The rows of a part as things to tick and to write. A key that does not fit the lesion has no place on paper either;
 * a name that is no field at all throws, and so fails the tests.
 */
export function rowsOf(rows: readonly (readonly string[])[], sheet: SheetForm, name = ''): SheetItem[][] {
  return rows
    .map((row) => row.flatMap((key) => itemsOf(key.replace('*', name), sheet, name)))
    .filter((row) => row.length > 0);
}

function itemsOf(at: string, sheet: SheetForm, name: string): SheetItem[] {
  // What is done to one lesion stands with it, as its own box.
  if (at === 'cut-back' && name !== '')
    return fits(sheet, name, 'state') ? [{ ...blank, boxes: [sheet.words.say('sheet.key.cut-back')] }] : [];
  const field = fieldAt(sheet.form, at);
  if (!field) {
    if (at.startsWith('found.')) return [];
    throw new RangeError(`a sheet has a place for ${at}, which is no field of a visit`);
  }
  return field.kind === 'answer' ? [itemOf(field, sheet, name)] : [];
}

const blank: SheetItem = { label: '', boxes: [], line: '', unit: '' };

/** A key by the way to it, without numbers and names. @example bareName('found.a.top') // → 'found.top' */
export function bareName(name: string): string {
  const [group, ...rest] = name.split('.');
  const named = ['found', 'lesions', 'marks', 'feet'].includes(group ?? '');
  return [group, ...rest.slice(named && rest.length > 1 ? 1 : 0)]
    .filter((part) => !/^\d+$/.test(part ?? ''))
    .join('.');
}

function itemOf(field: AnswerField, { words, animal, form, scale }: SheetForm, name: string): SheetItem {
  const { wanted, key } = field;
  const bare = bareName(field.name);
  const isNew = form.newLesions.includes(name);
  const written = sheetLayout.written.includes(bare) || (isNew && sheetLayout.writtenOnNew.includes(bare));
  const label = labelled(words, bare, field.name, scale);
  if (wanted.kind === 'yes-no' && !sheetLayout.bothWays.includes(bare)) return { ...blank, boxes: [label] };
  if (bare === 'found.wall-at') return { ...blank, boxes: [label] };
  const own = sheetLayout.words[field.name] ?? sheetLayout.words[bare];
  const choices = written
    ? []
    : [...field.choices.filter((word) => own === undefined || own.includes(word)), ...field.spans];
  const boxes = choices.map((word) =>
    words.has(`sheet.word.${key}.${word}`)
      ? words.say(`sheet.word.${key}.${word}`)
      : field.spans.includes(word)
        ? words.say(words.has(`sheet.span.${word}`) ? `sheet.span.${word}` : `form.span.${word}`)
        : optionOf(words, animal, key, word),
  );
  const unit = formLayout.units[key];
  const typed = field.choices.length === 0 || written || field.spans.length > 0;
  return {
    label,
    boxes,
    line: typed ? (sheetLayout.widths[bare] ?? widthOf(wanted.kind)) : '',
    unit: unit === undefined ? '' : words.say(`form.unit.${unit}`),
  };
}

function widthOf(kind: AnswerField['wanted']['kind']): SheetItem['line'] {
  if (kind === 'number') return 'short';
  return kind === 'day' || kind === 'day-or-unknown' || kind === 'time' ? 'day' : 'rest';
}

/** Short where the sheet has its own word for it; else as on the phone. */
function labelled(words: Words, bare: string, name: string, scale: string | undefined): string {
  if (bare === 'gait')
    return scale === undefined
      ? words.say('sheet.key.gait-unscaled')
      : sentenceCase(words.say('sheet.key.gait', { scale }));
  return words.has(`sheet.key.${bare}`) ? words.say(`sheet.key.${bare}`) : labelOf(words, name);
}

function fits({ form }: SheetForm, name: string, key: string): boolean {
  return fieldAt(form, `found.${name}.${key}`) !== undefined;
}

/** A field by the way to it; undefined where the form has none. */
export function fieldAt(form: VisitForm, name: string): Field | undefined {
  const [first = ''] = name.split('.');
  const roots = [...form.fields.values(), ...form.declared];
  const root =
    roots.find((field) => name === field.name || name.startsWith(`${field.name}.`)) ?? form.fields.get(first);
  let field: Field | undefined = root;
  while (field && field.name !== name) {
    const inner: readonly Field[] =
      field.kind === 'group' ? field.fields : field.kind === 'entries' ? field.entries : [];
    field = inner.find((one) => name === one.name || name.startsWith(`${one.name}.`));
  }
  return field;
}
