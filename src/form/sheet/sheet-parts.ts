import { drawingId } from '../../figure/figure.js';
import { footToMark } from '../../figure/foot-map.js';
import { blockTimeline } from '../../healing/block-timeline.js';
import { type FixtureSpan, wrapTimeline } from '../../healing/fixture-span.js';
import { listKeys } from '../../keep/list/read-list.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { codeOn } from '../../record/code-of-lesion.js';
import { given } from '../../record/given.js';
import { type SheetPart, keysWithin, type SheetWay } from '../../record/key.js';
import { type FarmTask, farmTasks, feet, type Sign } from '../../record/words.js';
import { saidAt, type Words } from '../../reference/words.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { openDue } from '../../schedule/next-lift.js';
import {
  dayInShort,
  lesionInWords,
  placeInWords,
  sentenceCase,
  dayInWords,
} from '../../words/day-and-place.js';
import { findingName, type AnswerField, bareName, type Field, labelOf, optionOf, unitOf } from '../field.js';
import {
  type PrintedPart,
  type SheetItem,
  type SheetSide,
  sheetLayout,
  type AfterMeasuring,
} from './sheet-page.js';
import { type Animal, animal as animalSchema } from '../../record/animal.js';
import type { VisitForm } from '../visit-form.js';
import { dueInWords, whenDue } from '../../words/compose-due.js';
import { followedNames, readBefore } from '../known-of-animal.js';

export function partsNamed(sheet: SheetForm, ...names: readonly SheetPart[]): PrintedPart[] {
  return names.map((name) => ({
    heading: sheet.words.say(`sheet.part.${name}`),
    kind: name === 'walk' ? 'walk' : 'rows',
    rows: sheetRows(sheet, name),
  }));
}

/** Blocks and wraps as far as is known, with room for what became of each; where none is, room for what came with her. */
export function onHer(sheet: SheetForm, day: CalendarDay): PrintedPart[] {
  const { words, animal } = sheet;
  const told = (
    what: 'block' | 'wrap',
    { foot, claw, from, fitted, material }: FixtureSpan,
  ): SheetItem[][] => {
    const [[event = noItem, ...rest] = [], ...rows] = sheetRows(sheet, what);
    const isNamed = material !== undefined && material !== 'other';
    const label = words.say(`sheet.on-her.${what}${isNamed ? '-of' : ''}-${fitted ? 'since' : 'seen'}`, {
      place: [words.say(`sheet.word.foot.${foot}`), claw && words.say(`sheet.word.claw.${claw}`)]
        .filter(Boolean)
        .join(' '),
      day: dayInShort(words, from),
      material: isNamed ? words.say(`sheet.word.material.${material}`) : '',
    });
    return [[{ ...event, label }, ...rest], ...rows];
  };
  const isOn = ({ end }: FixtureSpan): boolean => end === undefined;
  const known = [
    ...blockTimeline(animal, day)
      .spans.filter(isOn)
      .map((span) => told('block', span)),
    ...wrapTimeline(animal, day)
      .filter(isOn)
      .map((span) => told('wrap', span)),
  ];
  if (known.length === 0) return partsNamed(sheet, 'arrival');
  return known.map((rows) => ({ heading: words.say('sheet.part.block'), kind: 'rows', rows }));
}

/** One lesion or mark to measure; a lesion with its foot, on which only the declared place is marked. */
export function foundPart(sheet: SheetForm, name: string, slug: string): PrintedPart {
  const { words, animal } = sheet;
  const lesion = animal.lesions[name];
  if (!lesion)
    return { heading: findingName(words, animal, name), kind: 'mark', rows: sheetRows(sheet, 'mark', name) };
  const { foot, claw, site, line } = lesion;
  const what = lesionInWords(words, codeOn(name, lesion, animal.visits, animal.visits.length - 1));
  const more = [site && words.say(`vocabulary.site.${site}`), line && words.say(`vocabulary.line.${line}`)];
  const drawn = { ...given({ claw, site }), lesion: name, name: what, healed: false };
  return {
    heading: words.say(site || line ? 'sheet.lesion-more' : 'sheet.lesion', {
      name,
      lesion: what,
      place: placeInWords(words, foot, claw),
      more: more.filter((one) => one !== undefined).join(', '),
    }),
    kind: 'lesion',
    foot: footToMark({ id: drawingId('sheet', slug, name), foot, lesions: [drawn] }, words),
    rows: sheetRows(sheet, 'lesion', name),
  };
}

/** The same slot for a lesion first met. */
export function newPart(sheet: SheetForm, slug: string, name = sheet.form.newLesions[0] ?? ''): PrintedPart {
  const { words } = sheet;
  return {
    heading: words.say('sheet.part.new'),
    kind: 'lesion',
    foot: footToMark({ id: drawingId('sheet', slug, 'new'), foot: 'LF', lesions: [] }, words),
    rows: sheetRows(sheet, 'new', name),
  };
}

/** Each foot up and trimmed, its other signs, and what of her only the farm or a look tells. */
export function feetPart({ words }: SheetForm): PrintedPart {
  const done = ['lifted', 'trimmed'].map((key) => words.say(`sheet.feet.${key}`));
  const now = (sheetLayout.ticks['now'] ?? []).map((word) => words.say(`sheet.word.now.${word}`));
  return {
    heading: words.say('sheet.part.feet'),
    kind: 'rows',
    rows: [
      feet.map((foot) => ({ ...noItem, label: words.say(`sheet.word.foot.${foot}`), boxes: done })),
      [
        { ...noItem, label: words.say('sheet.feet.signs'), line: 'rest' },
        { ...noItem, label: words.say('sheet.feet.now'), boxes: now },
      ],
    ],
  };
}

/** What is done, given, asked and agreed, with room for so many products. */
export function backParts(sheet: SheetForm, work: CaseWork | undefined, products: number): PrintedPart[] {
  const [on, product, care, ...last] = partsNamed(sheet, 'on', 'product', 'care', 'photos', 'next', 'visit');
  const put = { ...on!, rows: [...on!.rows, ...sheetRows(sheet, 'new-mark', sheet.form.newMark)] };
  return [put, ...Array.from({ length: products }, () => product!), care!, farmPart(sheet, work), ...last];
}

/** What the farm is asked to do, each job with its day, and what of what it was asked it says is done. */
function farmPart({ words }: SheetForm, work: CaseWork | undefined): PrintedPart {
  const asked = new Set(
    openDue(work?.due ?? []).map((item) => (item.who === 'farm' ? item.task : undefined)),
  );
  const said = (task: FarmTask): string => words.say(`sheet.task.${task}`);
  const jobs = farmTasks.map((task): SheetItem => ({ ...noItem, boxes: [said(task)], line: 'rest' }));
  const ring = farmTasks.filter((task) => asked.has(task)).map(said);
  const other = ring.length === 0 ? '' : words.say('sheet.other.farm-did');
  const done: SheetItem = { ...noItem, label: words.say('sheet.farm-did'), ring, line: 'rest', other };
  return { heading: words.say('sheet.part.farm'), kind: 'jobs', rows: [jobs, [done]] };
}

/** Lines for words, and what else may be written there: every key that has no place of its own. */
export function linesToWrite({ words }: SheetForm): NonNullable<SheetSide['lines']> {
  const keys = keysOnLines()
    .flatMap((way) => saidAt(words, 'sheet', way) ?? [])
    .map((key) => words.say(key));
  return {
    heading: words.say('sheet.lines.heading'),
    says: words.say('sheet.lines.says', { list: words.commas(keys) }),
  };
}

/** Every key of her identity, and since when she is lame. */
export function who(words: Words, farmName: string | undefined): PrintedPart {
  const own = (key: string, line: SheetItem['line']): SheetItem => ({
    ...noItem,
    label: words.say(`key.${key}.sheet`),
    line,
  });
  const called = (key: string, line: SheetItem['line']): SheetItem => ({ ...noItem, label: words.say(`sheet.blank.${key}`), line }); // prettier-ignore
  const rest = [...listKeys.keys()].filter(
    (key) => !['animal', 'tag', 'electronic', 'breed', 'born', 'handling'].includes(key),
  );
  return {
    heading: words.say('sheet.blank.who'),
    kind: 'rows',
    rows: [
      [
        called('animal', 'middle'),
        ...(farmName === undefined ? [called('farm', 'rest')] : []),
        own('tag', 'rest'),
      ],
      [own('electronic', 'rest'), own('breed', 'middle'), own('born', 'day')],
      rest.map((key) => own(key, key === 'calvings' ? 'rest' : key === 'calved-before' ? 'short' : 'day')),
      [own('lame-since', 'day'), own('told-by', 'middle'), own('handling', 'rest')],
    ],
  };
}

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

const noItem: SheetItem = { label: '', boxes: [], digits: 0, ring: [], other: '', line: '', unit: '' };

function itemsAt(place: Place, sheet: SheetForm, name: string): SheetItem[] {
  const { way } = place;
  // What is done to one lesion is with it, as its own box.
  if (way[0] === 'cut-back')
    return fieldAt(sheet.form, ['found', 'state'], name)
      ? [{ ...noItem, boxes: [sheet.words.say('key.cut-back.sheet')] }]
      : [];
  const field = fieldAt(sheet.form, way, name);
  if (!field && way[0] !== 'found')
    throw new RangeError(`a sheet has a place for ${way.join('.')}, which is no field of a visit`);
  return field?.kind === 'answer' ? [itemOf(field, place, sheet)] : [];
}

/** The field of a key: of a list its first entry, of what is under names the one named, of feet the first. */
function fieldAt({ fields, declared: fresh }: VisitForm, way: readonly string[], name: string) {
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

/** What was last found of each lesion and mark still followed, what its top should read on the day, and what is due. */
export function afterMeasuring(
  sheet: SheetForm,
  work: CaseWork,
  day: CalendarDay,
  today: CalendarDay,
): AfterMeasuring {
  const { words, animal } = sheet;
  const names = followedNames(animal);
  const gone = [...names.map((name) => [name, lastSigns(animal, name)] as const), ...feet.map((foot) => [words.say(`sheet.word.foot.${foot}`), footSigns(animal, foot)] as const)]; // prettier-ignore
  const due = openDue(work.due).map((item) =>
    words.say('sheet.due-line', {
      what: dueInWords(words, animal, item).what,
      when: whenDue(words, item, today, dayInWords(words, item.by)),
      who: words.say(`sheet.who.${item.who}`),
    }),
  );
  return {
    heading: words.say('sheet.after.heading'),
    heads: ['lesion', 'last', 'expected'].map((key) => words.say(`sheet.after.${key}`)),
    rows: readBefore(words, work, day),
    items: [
      ...sheetRows(sheet, 'after').flat(),
      ...gone
        .filter(([, signs]) => signs.length > 0)
        .map(([name, signs]): SheetItem => ({
          ...noItem,
          label: words.say('sheet.after.gone', { name }),
          ring: signs.map((sign) => words.say(`vocabulary.sign.${sign}`)),
        })),
    ],
    dueHeading: words.say('sheet.due'),
    due: due.length === 0 ? [words.say('sheet.due-none')] : due,
  };
}

function lastSigns({ visits }: Animal, name: string): readonly Sign[] {
  return visits.findLast(({ found }) => found?.[name])?.found?.[name]?.signs ?? [];
}

/** Signs seen on a foot and not written gone since. */
function footSigns({ visits }: Animal, foot: (typeof feet)[number]): Sign[] {
  const seen = new Set<Sign>();
  for (const { feet: looked } of visits) {
    for (const sign of looked?.[foot]?.signs ?? []) seen.add(sign);
    for (const sign of looked?.[foot]?.gone ?? []) seen.delete(sign);
  }
  return [...seen];
}
