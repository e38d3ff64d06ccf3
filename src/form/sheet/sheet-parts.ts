import { drawingId } from '../../figure/figure.js';
import { footToMark } from '../../figure/foot-map.js';
import { blockTimeline } from '../../healing/block-timeline.js';
import { type FixtureSpan, wrapTimeline } from '../../healing/fixture-span.js';
import { listKeys } from '../../keep/list/read-list.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { codeOn } from '../../record/code-of-lesion.js';
import { given } from '../../record/given.js';
import type { SheetPart } from '../../record/key.js';
import { type FarmTask, farmTasks, feet } from '../../record/words.js';
import { saidAt, type Words } from '../../reference/words.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { openDue } from '../../schedule/next-lift.js';
import { dayInShort, lesionInWords, placeInWords } from '../../words/day-and-place.js';
import { findingName } from '../field.js';
import { keysOnLines, noItem, type SheetForm, sheetRows } from './sheet-items.js';
import { type PrintedPart, type SheetItem, type SheetSide, sheetLayout } from './sheet-page.js';

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
