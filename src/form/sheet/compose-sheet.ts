import { linesIn } from '../../book/fit.js';
import { cutText } from '../../figure/wrap-text.js';
import { type Animal, animal as animalSchema } from '../../record/animal.js';
import { type CalendarDay, addDays } from '../../record/calendar-day.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { FarmRecord } from '../../record/practice.js';
import { type Language, lesionCodes, type Paper } from '../../record/words.js';
import { type Words, told, wordsOf } from '../../reference/words.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { stopInWords } from '../../words/compose-due.js';
import { calvingInWords } from '../../words/compose-withheld.js';
import { dayInWords } from '../../words/day-and-place.js';
import { visitForm } from '../visit-form.js';
import {
  type SheetForm,
  afterMeasuring,
  backParts,
  feetPart,
  foundPart,
  linesToWrite,
  newPart,
  onHer,
  partsNamed,
  who,
} from './sheet-parts.js';
import {
  type AfterMeasuring,
  type SheetAbout,
  type PrintedPart,
  type SheetItem,
  type SheetLeaf,
  type SheetPage,
  type SheetSide,
  sheetLayout,
} from './sheet-page.js';
import { followedNames } from '../known-of-animal.js';
import type { Farm } from '../../record/farm.js';
import { isOpen, plannedVisit } from '../../schedule/next-lift.js';
import { formLayout } from '../field.js';
import { given } from '../../record/given.js';

interface SheetFor {
  readonly farm: FarmRecord;
  readonly language: Language;
  readonly work: readonly CaseWork[];
  readonly day: CalendarDay;
  /** The day it was worked out for. */
  readonly today: CalendarDay;
}

/**
 * A farm's yard sheet as page data: for each animal a front to measure by and a back to read and write after measuring.
 *
 * What could draw a reading to it (an earlier one, what is expected, a picture with a ruler) is on the back alone,
 * and with more lesions than a front has room for on the back of the last sheet. The number of sides is even, so each
 * animal begins on a front.
 *
 * Checked: tests/form/sheet.test.ts, tests/browser/sheet.test.ts
 */
export function composeSheet(of: SheetFor): SheetPage {
  const { farm, language, work, day } = of;
  const words = wordsOf(language);
  return {
    language,
    paper: farm.farm.paper ?? 'A4',
    title: words.say('sheet.title', { farm: told(farm.farm.farm), day: dayInWords(words, day) }),
    lead: words.say(work.length === 1 ? 'sheet.lead-one' : 'sheet.lead', { count: work.length }),
    skip: words.say('sheet.skip'),
    leaves: work.map((one) => animalLeaf(words, of, one)),
  };
}

/** A first-visit sheet, of a farm or of none. */
export function composeBlankSheet(
  farm: FarmRecord | undefined,
  language: Language,
  paper: Paper,
  day: CalendarDay,
): SheetPage {
  const words = wordsOf(language);
  return {
    language,
    paper,
    title: farm
      ? words.say('sheet.title-blank-farm', { farm: told(farm.farm.farm) })
      : words.say('sheet.title-blank'),
    lead: words.say('sheet.lead-one'),
    skip: words.say('sheet.skip'),
    leaves: [blankLeaf(sheetForm(words, nobody, farm, day), told(farm?.farm.farm))],
  };
}

const nobody = animalSchema.parse({ casefile: 1, animal: '?', lesions: {}, visits: [] });

function sheetForm(words: Words, animal: Animal, farm: FarmRecord | undefined, day: CalendarDay): SheetForm {
  const scale = farm && gaitScaleOn(farm.farm, day);
  const form = visitForm({ animal, gaitScale: scale }, new Map());
  return { words, animal, form, scale: scale && words.say(`vocabulary.gait-scale.${scale}`) };
}

type Side = Omit<SheetSide, 'kicker' | 'side' | 'long'>;

function animalLeaf(words: Words, { farm, day, today }: SheetFor, work: CaseWork): SheetLeaf {
  const { slug, animal } = work.record;
  const sheet = sheetForm(words, animal, farm, day);
  const { width, height } = sheetLayout.paper[farm.farm.paper ?? 'A4'];
  const { mm } = sheetLayout;
  const about = aboutHer(words, work, width);
  const before = [...partsNamed(sheet, 'urgent', 'walk'), ...onHer(sheet, day)];
  const behind = [feetPart(sheet)];
  const texts = [about.stop ?? '', ...about.handling];
  const boxed = texts.reduce((all, text) => all + linesIn(text, width, { pt: 11.5 }), 0);
  const found = followedNames(animal).map((name) => foundPart(sheet, name, slug));
  const fresh = newPart(sheet, slug);
  const after = afterMeasuring(sheet, work, day, today);
  const room = {
    front: height - mm.head - boxed * mm.boxed - heightOf([...before, ...behind]),
    more: height - mm.head,
    back: height - mm.head - mm.ruled - heightOfAfter(after, width),
  };
  const { measured, back, spare } = paged(found, fresh, (products) => backParts(sheet, work, products), room);
  const [first = [], ...more] = measured;
  const number = told(animal.animal);
  const turn = words.say('sheet.foot.measure');
  const sides: Side[] = [
    { heading: number, about, parts: [...before, ...first, ...behind], says: turn },
    ...more.map((parts) => ({ heading: words.say('sheet.more-of', { animal: number }), parts, says: turn })),
  ];
  const toWrite = (parts: readonly PrintedPart[]): Side =>
    ({ heading: words.say('sheet.lines-of', { animal: number }), parts, lines: linesToWrite(sheet), says: turn }); // prettier-ignore
  if (spare.length > 0) sides.push(toWrite(spare));
  if (sides.length % 2 === 0) sides.push(toWrite([]));
  sides.push({
    heading: words.say('sheet.back-of', { animal: number }),
    after,
    parts: back,
    lines: linesToWrite(sheet),
    says: words.say('sheet.foot.back'),
  });
  const kicker = words.say('sheet.kicker', { farm: told(farm.farm.farm), day: dayInWords(words, day) });
  return { id: `animal-${slug}`, sides: sidesOf(words, kicker, sides) };
}

/** A first-visit sheet of no animal yet: who she is is written too, and the names of lesions stand for looking up. */
function blankLeaf(sheet: SheetForm, farmName: string | undefined): SheetLeaf {
  const { words, form } = sheet;
  const heading = words.say('sheet.title-blank');
  const codes = lesionCodes.map((code) =>
    words.say('sheet.blank.code', { code, name: words.say(`vocabulary.lesion-name.${code}`) }),
  );
  const fresh = form.newLesions.map((name) => ({
    ...newPart(sheet, `blank-${name}`, name),
    heading: words.say('sheet.blank.lesion', { name }),
  }));
  return {
    id: 'blank',
    sides: sidesOf(words, farmName ?? words.say('sheet.kicker-blank'), [
      {
        heading,
        parts: [
          who(words, farmName),
          ...partsNamed(sheet, 'urgent', 'walk', 'arrival'),
          ...fresh,
          feetPart(sheet),
        ],
        says: words.say('sheet.foot.blank'),
      },
      {
        heading: words.say('sheet.back-of', { animal: heading }),
        parts: backParts(sheet, undefined, sheetLayout.products),
        lines: linesToWrite(sheet),
        codes: { heading: words.say('sheet.blank.codes'), items: codes },
        says: words.say('sheet.foot.back'),
      },
    ]),
  };
}

/** Each told where it belongs: paper comes apart. */
function sidesOf(words: Words, kicker: string, sides: readonly Side[]): SheetSide[] {
  return sides.map((side, at) => ({
    ...side,
    long: side.heading.length > 12,
    kicker,
    side: words.say('sheet.side', { side: at + 1, of: sides.length }),
  }));
}

/**
 * What is measured, page by page, and what is on the back. Two lesions stay on the front whatever else does; where
 * room is short the slot for something new moves to the back, where a second product yields to it, and at last to a page
 * of its own. What the back has no room for at all is spare. Room in mm.
 */
function paged(
  found: readonly PrintedPart[],
  fresh: PrintedPart,
  back: (products: number) => readonly PrintedPart[],
  room: Readonly<Record<'front' | 'more' | 'back', number>>,
): Record<'back' | 'spare', readonly PrintedPart[]> & {
  readonly measured: readonly (readonly PrintedPart[])[];
} {
  const measured: PrintedPart[][] = [[]];
  let left = room.front;
  let lesions = 0;
  for (const part of found) {
    lesions += part.kind === 'lesion' ? 1 : 0;
    const takes = heightOf([part]);
    if (takes > left && (lesions > 2 || part.kind === 'mark')) {
      measured.push([]);
      left = room.more;
    }
    measured.at(-1)!.push(part);
    left -= takes;
  }
  const { products } = sheetLayout;
  const fits = (parts: readonly PrintedPart[]): boolean => heightOf(parts) <= room.back;
  let behind = back(fits(back(products)) ? products : 1);
  if (heightOf([fresh]) <= left) measured.at(-1)!.push(fresh);
  else if (fits([fresh, ...back(1)])) behind = [fresh, ...back(1)];
  else measured.push([fresh]);
  const at = behind.findIndex((_, from) => fits(behind.slice(from)));
  return { measured, back: behind.slice(at), spare: behind.slice(0, at) };
}

/** The least height of parts, mm. */
function heightOf(parts: readonly PrintedPart[]): number {
  const { mm } = sheetLayout;
  const row = (items: readonly SheetItem[], kind: PrintedPart['kind']): number =>
    kind === 'walk' ? mm.walk : kind !== 'rows' && items.some(({ digits }) => digits > 0) ? mm.digits : kind === 'jobs' ? Math.ceil(items.length / 4) * mm.row : mm.row; // prettier-ignore
  return parts
    .map(({ kind, rows }) => {
      const high = rows.reduce((all, items) => all + row(items, kind), mm.gap);
      return kind === 'lesion' ? Math.max(mm.lesion, high + mm.heading) : high;
    })
    .reduce((sum, each) => sum + each, 0);
}

const px = (mm: number): number => (mm * 96) / 25.4;

const ptPx = (pt: number): number => (pt * 96) / 72;

/** Who she is and how she is to be handled; a long text is cut, for the front must hold what is measured. */
function aboutHer(words: Words, work: CaseWork, width: number): SheetAbout {
  const { animal } = work.record;
  const stop = stopInWords(words, [work]);
  const cut = (text: string): string => cutText(text, px(width) * 4, ptPx(11.5), 'bold');
  return {
    ...(stop ? { stop: cut(`${stop.title}. ${stop.text}`) } : {}),
    identity: identity(words, animal),
    handling: [
      cut(
        animal.handling === undefined
          ? words.say('sheet.handling-unknown')
          : words.say('sheet.handling', { handling: told(animal.handling) }),
      ),
      ...(work.calvingNear ? [calvingInWords(words, work.calvingNear)] : []),
    ],
  };
}

/** Her marks, breed and calvings: what identifies her, and what bears on lifting her. */
function identity(words: Words, animal: Animal): string {
  const calved = animal.calvings?.at(-1);
  const due = animal['due-to-calve'];
  return [
    animal.tag,
    animal.electronic,
    told(animal.breed),
    calved && words.say('sheet.calved', { day: dayInWords(words, calved) }),
    due && words.say('sheet.due-to-calve', { day: dayInWords(words, due) }),
  ]
    .filter(Boolean)
    .join(' · ');
}

function heightOfAfter({ rows, due, dueHeading, items }: AfterMeasuring, width: number): number {
  const { mm } = sheetLayout;
  const cells = rows.map(({ last, expected }) => 1 + mm.line * Math.max(linesIn(last, width * 0.44, { pt: 8.5 }), linesIn(expected, width * 0.38, { pt: 8.5 }))); // prettier-ignore
  const asked = items.map(
    ({ label, ring }) => mm.line * linesIn(`${label} ${ring.join(' · ')}`, width - 12, { pt: 10 }),
  );
  const said =
    mm.heading + mm.line * (1 + linesIn(`${dueHeading} ${due.join(' · ')}`, width - 8, { pt: 8.5 }));
  return [...cells, ...asked, mm.row].reduce((sum, each) => sum + each, said);
}

/** The days a sheet is for: what falls due from the one to the other, both in; without `from`, all that is overdue too. */
interface SheetDays {
  readonly from?: CalendarDay;
  readonly to: CalendarDay;
  /** The day of the visit: the farm's next one where it is written, else the day of asking. */
  readonly visit: CalendarDay;
}

export function sheetDays(
  farm: Farm,
  today: CalendarDay,
  asked: { readonly from?: CalendarDay; readonly to?: CalendarDay },
): SheetDays {
  const visit = plannedVisit(farm, today) ?? today;
  const to = asked.to ?? (visit > today ? visit : addDays(today, formLayout.dueWithinDays));
  return { ...given({ from: asked.from }), to, visit };
}

/** The animals with something due to the trimmer in those days, soonest first; with `all`, every open case, those due first. */
export function dueOnSheet(
  work: readonly CaseWork[],
  { from = '', to }: SheetDays,
  all: boolean,
): CaseWork[] {
  const due = ({ due: items }: CaseWork): CalendarDay | undefined =>
    items
      .filter((item) => item.who === 'trimmer' && isOpen(item) && item.by >= from && item.by <= to)
      .map(({ by }) => by)
      .toSorted()[0];
  return work
    .map((one) => ({ one, by: due(one) }))
    .filter(({ one, by }) => by !== undefined || (all && !one.standing.closed))
    .toSorted((a, b) => ((a.by ?? '9') < (b.by ?? '9') ? -1 : (a.by ?? '9') > (b.by ?? '9') ? 1 : 0))
    .map(({ one }) => one);
}
