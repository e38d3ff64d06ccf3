import { type Animal, animal as animalSchema } from '../../record/animal.js';
import { sentenceCase, lesionInWords, placeInWords } from '../../words/day-and-place.js';
import { saidAt, type Words } from '../../reference/words.js';
import { keysWithin } from '../../record/key.js';
import {
  type AnswerField,
  bareName,
  type Field,
  labelOf,
  optionOf,
  findingName,
  placeOfField,
  unitOf,
} from '../field.js';
import type { VisitForm } from '../visit-form.js';
import { sheetLayout, type SheetItem, type SheetGrid, type PrintedPart } from './sheet-page.js';
import { farmTasks, feet } from '../../record/words.js';
import { visitQuestions } from '../../keep/questions.js';
import { codeOn } from '../../record/code-of-lesion.js';

/** What the rows of a sheet are made with: the same fields a phone's form has. */
export interface SheetForm {
  readonly words: Words;
  readonly animal: Animal;
  readonly form: VisitForm;
  /** The farm's gait scale in words; undefined where none is said. */
  readonly scale: string | undefined;
}

/** Every place on the sheet: the part, the row, the place in the row, and the way to the field, `*` for a name. */
const places = keysWithin(animalSchema).flatMap(([way, { sheet = [] }]) =>
  [sheet].flat().flatMap((place) => {
    const [, part = '', row, at] = /^(\S+) (\d+)\/(\d+)/.exec(place) ?? [];
    const name = nameIn(part, way.replace(/^visits\./, ''));
    return row === undefined ? [] : [{ part, row: Number(row), at: Number(at), name }];
  }),
);

/** What comes off stands before what was found, as the first entry of a list; what goes on, as the second. */
function nameIn(part: string, way: string): string {
  const [group = '', ...rest] = way.split('.');
  if (rest.length === 0) return group;
  const entry = ['found', 'lesions', 'marks'].includes(group) ? '*' : part === 'on' ? '1' : '0';
  const isOne = placeOfField(group).room === undefined && entry !== '*';
  return [group, ...(isOne ? [] : [entry]), ...rest].join('.');
}

/** The rows of a part of the sheet: the ways to their fields, `*` for the name of a lesion or mark. */
export function sheetRows(part: string): string[][] {
  const own = places.filter((place) => place.part === part).toSorted((a, b) => a.row - b.row || a.at - b.at);
  return [...new Set(own.map(({ row }) => row))].map((row) =>
    own.filter((place) => place.row === row).map(({ name }) => name),
  );
}

/**
 * The rows of a part as things to tick and to write. A key that does not fit the lesion has no place on paper either;
 * a name that is no field at all throws, and so fails the tests.
 */
export function sheetRowsOf(
  rows: readonly (readonly string[])[],
  sheet: SheetForm,
  name = '',
): SheetItem[][] {
  return rows
    .map((row) => row.flatMap((key) => itemsOf(key.replace('*', name), sheet, name)))
    .filter((row) => row.length > 0);
}

function itemsOf(at: string, sheet: SheetForm, name: string): SheetItem[] {
  // What is done to one lesion stands with it, as its own box.
  if (at === 'cut-back' && name !== '')
    return fits(sheet, name, 'state') ? [{ ...blank, boxes: [sheet.words.say('key.cut-back.sheet')] }] : [];
  const field = fieldAt(sheet.form, at);
  if (!field) {
    if (at.startsWith('found.')) return [];
    throw new RangeError(`a sheet has a place for ${at}, which is no field of a visit`);
  }
  return field.kind === 'answer' ? [itemOf(field, sheet, name)] : [];
}

const blank: SheetItem = { label: '', boxes: [], line: '', unit: '' };

function itemOf(field: AnswerField, { words, animal, form, scale }: SheetForm, name: string): SheetItem {
  const { wanted, key } = field;
  const bare = bareName(field.name);
  const isNew = form.newLesions.includes(name);
  const at = [placeOfField(field.name).sheet ?? ''].flat().at(isNew ? -1 : 0);
  const line = widths.find((width) => at?.endsWith(` ${width}`));
  const written = line !== undefined;
  const label = labelled(words, bare, field.name, scale);
  if (wanted.kind === 'yes-no' && !at?.endsWith(' both')) return { ...blank, boxes: [label] };
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
        : optionOf(words, animal, field.name, word),
  );
  const typed = field.choices.length === 0 || written || field.spans.length > 0;
  return {
    label,
    boxes,
    line: typed ? (line ?? widthOf(wanted.kind)) : '',
    unit: unitOf(words, field.name),
  };
}

const widths = ['short', 'day', 'middle', 'rest'] as const;

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

function fits({ form }: SheetForm, name: string, key: string): boolean {
  return fieldAt(form, `found.${name}.${key}`) !== undefined;
}

/** A field by the way to it; undefined where the form has none. */
function fieldAt(form: VisitForm, name: string): Field | undefined {
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

/** Lesions still followed, then her marks. */
export function followedNames(animal: Animal): string[] {
  const names = visitQuestions(animal).flatMap(({ path, name }) =>
    path[0] === 'found' && name !== undefined ? [name] : [],
  );
  return [...new Set(names)];
}

/** The lesions still followed and her marks, each a part of its own to measure in. */
export function foundParts(sheet: SheetForm): PrintedPart[] {
  const { words, animal } = sheet;
  return followedNames(animal).map((name) => {
    const isMark = animal.marks?.[name] !== undefined;
    return {
      heading: isMark ? findingName(words, animal, name) : placed(sheet, name),
      lesion: !isMark,
      rows: sheetRowsOf(sheetRows(isMark ? 'mark' : 'lesion'), sheet, name),
    };
  });
}

/** A lesion by its short name, what it is called today, and just where its lengths run. */
function placed({ words, animal }: SheetForm, name: string): string {
  const lesion = animal.lesions[name];
  if (!lesion) return name;
  const { foot, claw, site, line } = lesion;
  const more = [site && words.say(`vocabulary.site.${site}`), line && words.say(`vocabulary.line.${line}`)];
  const said = more.filter((one) => one !== undefined);
  return words.say(said.length > 0 ? 'sheet.lesion-more' : 'sheet.lesion', {
    name,
    lesion: lesionInWords(words, codeOn(name, lesion, animal.visits, animal.visits.length - 1)),
    place: placeInWords(words, foot, claw),
    more: said.join(', '),
  });
}

/** One part of the sheet by its name in the layout. */
export function partNamed(
  name: string,
  sheet: SheetForm,
  fresh = sheet.form.newLesions[0] ?? '',
): PrintedPart[] {
  const { words, form } = sheet;
  if (name === 'found') return foundParts(sheet);
  const heading = words.say(`sheet.part.${name}`);
  if (name === 'feet') return [{ heading, lesion: false, rows: [], grid: feetGrid(sheet) }];
  if (name === 'farm') return [{ heading, lesion: false, rows: [], grid: farmGrid(sheet) }];
  const part = {
    heading,
    lesion: name === 'met',
    rows: sheetRowsOf(sheetRows(name), sheet, name === 'met' ? fresh : ''),
  };
  if (name !== 'met') return [part];
  return [
    part,
    {
      heading: words.say('sheet.part.new-mark'),
      lesion: false,
      rows: sheetRowsOf(sheetRows('new-mark'), sheet, form.newMark),
    },
  ];
}

function feetGrid({ words }: SheetForm): SheetGrid {
  const signs = sheetLayout.words['feet.signs'] ?? [];
  return {
    caption: words.say('sheet.grid.caption-feet'),
    corner: words.say('sheet.grid.foot'),
    heads: [
      words.say('sheet.grid.lifted'),
      words.say('sheet.grid.trimmed'),
      ...signs.map((sign) => words.say(`vocabulary.sign.${sign}`)),
      words.say('sheet.grid.note'),
    ],
    rows: feet.map((foot) => ({
      head: sentenceCase(words.say(`vocabulary.foot.${foot}`)),
      cells: ['box', 'box', ...signs.map(() => 'box' as const), 'blank'],
    })),
  };
}

function farmGrid({ words }: SheetForm): SheetGrid {
  const row = (key: string) => ({
    head: words.say(`sheet.grid.${key}`),
    cells: farmTasks.map(() => 'blank' as const),
  });
  return {
    caption: words.say('sheet.grid.caption-farm'),
    corner: words.say('sheet.grid.task'),
    heads: farmTasks.map((task) => words.say(`vocabulary.task.${task}`)),
    rows: [row('ask'), row('did')],
  };
}
