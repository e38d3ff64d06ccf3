import { type Animal, animal as animalSchema } from '../../record/animal.js';
import { keysWithin, type SheetPart, type SheetWay } from '../../record/key.js';
import { saidAt, type Words } from '../../reference/words.js';
import { sentenceCase } from '../../words/day-and-place.js';
import { type AnswerField, bareName, type Field, labelOf, optionOf, unitOf } from '../field.js';
import type { VisitForm } from '../visit-form.js';
import { sheetLayout, type SheetItem } from './sheet-page.js';

/** What the rows of a sheet are made with: the same fields a phone's form has. */
export interface SheetForm {
  readonly words: Words;
  readonly animal: Animal;
  readonly form: VisitForm;
  /** The farm's gait scale in words; undefined where none is said. */
  readonly scale: string | undefined;
}

const declared = keysWithin(animalSchema).map(
  ([way, { sheet = [] }]) => [way.replace(/^visits\./, ''), [sheet].flat()] as const,
);

/** Every place on the sheet: the part, the row, the place in the row, how it is answered, and the way to its key. */
const places = declared.flatMap(([way, sheet]) =>
  sheet.flatMap((place) => {
    const [, part = '', row, at, as = ''] = /^(\S+) (\d+)\/(\d+)(?: (\S+))?$/.exec(place) ?? [];
    return row === undefined
      ? []
      : [{ part, row: Number(row), at: Number(at), as: as as SheetWay, way: way.split('.') }];
  }),
);
type Place = (typeof places)[number];

/** The ways to the keys that have a place in a part of the sheet. */
export function keysOnSheet(part: SheetPart): string[] {
  return places.filter((place) => place.part === part).map(({ way }) => way.join('.'));
}

/** What is written in words on the lines: every key without a place of its own, but notes, which are nothing else. */
export function keysOnLines(): string[] {
  return declared.flatMap(([way, [sheet]]) => (sheet === 'lines' && !way.endsWith('note') ? [way] : []));
}

/**
 * The rows of a part as things to tick, ring and write, of one lesion or mark where it is named. A key that does not
 * fit the lesion has no place on paper either; one that no form has throws, and so fails the tests.
 */
export function sheetRows(sheet: SheetForm, part: SheetPart, name = ''): SheetItem[][] {
  const own = places.filter((place) => place.part === part).toSorted((a, b) => a.row - b.row || a.at - b.at);
  return [...new Set(own.map(({ row }) => row))]
    .map((row) => own.filter((place) => place.row === row).flatMap((place) => itemsAt(place, sheet, name)))
    .filter((row) => row.length > 0);
}

export const noItem: SheetItem = { label: '', boxes: [], digits: 0, ring: [], other: '', line: '', unit: '' };

function itemsAt(place: Place, sheet: SheetForm, name: string): SheetItem[] {
  const { way } = place;
  // What is done to one lesion stands with it, as its own box.
  if (way[0] === 'cut-back')
    return fieldAt(sheet.form, ['found', 'state'], name)
      ? [{ ...noItem, boxes: [sheet.words.say('key.cut-back.sheet')] }]
      : [];
  const field = fieldAt(sheet.form, way, name);
  if (!field && way[0] !== 'found')
    throw new RangeError(`a sheet has a place for ${way.join('.')}, which is no field of a visit`);
  return field?.kind === 'answer' ? [itemOf(field, place, sheet)] : [];
}

/** The field of a key: of a list its first entry, of what stands under names the one named, of feet the first. */
function fieldAt(
  { fields, declared: fresh }: VisitForm,
  way: readonly string[],
  name: string,
): Field | undefined {
  const [first = '', ...rest] = way;
  let field = fields.get(first) ?? fresh.find((one) => one.name === `${first}.${name}`);
  for (const key of first === 'found' ? [name, ...rest] : first === 'feet' ? ['LF', ...rest] : rest) {
    const inner: Field | undefined = field?.kind === 'entries' ? field.entries[0] : field;
    field = inner?.kind === 'group' ? inner.fields.find((one) => one.key === key) : undefined;
  }
  return field;
}

function itemOf(field: AnswerField, { part, as }: Place, { words, animal, scale }: SheetForm): SheetItem {
  const { wanted, key, name, choices, spans } = field;
  const bare = bareName(name);
  const label = labelled(words, bare, name, scale);
  const unit = unitOf(words, name);
  const ticks = sheetLayout.ticks[bare];
  if (ticks) return { ...noItem, label, boxes: ticks.map((word) => words.say(`sheet.word.${key}.${word}`)) };
  const single = wanted.kind === 'yes-no' || (wanted.kind === 'word' && choices.length === 1);
  if (single && as !== 'both') return { ...noItem, boxes: [label] };
  if (as === 'digits' || (as === '' && unit !== '')) return { ...noItem, label, digits: 2, unit };
  const own = sheetLayout.words[`${part} ${bare}`];
  const said = (word: string): string =>
    firstSaid(words, [
      `sheet.word.${key}.${word}`,
      ...(spans.includes(word) ? [`sheet.span.${word}`] : []),
    ]) ?? (spans.includes(word) ? words.say(`form.span.${word}`) : optionOf(words, animal, name, word));
  const isWritten = as === 'short' || as === 'day' || as === 'middle' || as === 'rest';
  const told = isWritten
    ? []
    : [...(own?.filter((word) => choices.includes(word)) ?? choices), ...spans].map(said);
  if (as === 'ring' || (as === '' && part === 'new'))
    return {
      ...noItem,
      label,
      ring: told.length > 0 ? told : [firstSaid(words, [`sheet.word.${key}`]) ?? unit],
    };
  if (as === 'other')
    return { ...noItem, label, boxes: told, line: 'rest', other: otherOf(words, part, bare) };
  const day = spans.length > 0 && told.length > 0;
  const line = isWritten ? as : day ? 'short' : choices.length > 0 ? '' : widthOf(wanted.kind);
  return { ...noItem, label, boxes: told, line, other: day ? words.say('sheet.other.day') : '', unit };
}

function otherOf(words: Words, part: string, bare: string): string {
  return (
    firstSaid(words, [`sheet.other.${part}.${bare}`, `sheet.other.${bare}`]) ?? words.say('sheet.other.any')
  );
}

function firstSaid(words: Words, keys: readonly string[]): string | undefined {
  const key = keys.find((one) => words.has(one));
  return key === undefined ? undefined : words.say(key);
}

function widthOf(kind: AnswerField['wanted']['kind']): SheetItem['line'] {
  if (kind === 'number') return 'short';
  return kind === 'day' || kind === 'day-or-unknown' || kind === 'time' ? 'day' : 'rest';
}

/** Short where the sheet has its own word for it; else as on the phone. */
function labelled(words: Words, bare: string, name: string, scale: string | undefined): string {
  if (bare === 'gait')
    return scale === undefined
      ? words.say('sheet.gait-unscaled')
      : sentenceCase(words.say('key.gait.sheet', { scale }));
  const own = saidAt(words, 'sheet', `visits.${bare}`);
  return own === undefined ? labelOf(words, name) : words.say(own);
}
