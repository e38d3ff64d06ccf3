import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Paper } from '../../record/words.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { openDue } from '../../schedule/next-lift.js';
import { calvingInWords } from '../../words/compose-withheld.js';
import { dueInWords, whenDue, stopInWords } from '../../words/compose-due.js';
import { dayInWords, paragraph } from '../../words/day-and-place.js';
import { type Words, told } from '../../reference/words.js';
import {
  type SheetForm,
  sheetRowsOf,
  followedNames,
  foundParts,
  partNamed,
  sheetRows,
} from './sheet-items.js';
import {
  sheetLayout,
  type SheetAbout,
  type SheetLeaf,
  type PrintedPart,
  type SheetSide,
  type AfterMeasuring,
  sidesOf,
} from './sheet-page.js';
import { findingsInWords } from '../../book/work-in-words.js';
import { nextReadingSentence } from '../../words/compose-regrowth.js';

/** What one animal's pages are made of. */
export interface LeafFor {
  readonly sheet: SheetForm;
  readonly work: CaseWork;
  readonly farmName: string;
  readonly paper: Paper;
  /** The day of the visit. */
  readonly day: CalendarDay;
  /** The day it was worked out for. */
  readonly today: CalendarDay;
  readonly picture?: SheetAbout['picture'];
}

/**
 * One animal's pages. The front has nothing that could draw a reading to it; what was last read, and what is expected,
 * stands on the back.
 */
export function animalLeaf({ sheet, work, farmName, paper, day, today, picture }: LeafFor): SheetLeaf {
  const { words, animal } = sheet;
  const found = foundParts(sheet);
  const met = partNamed(sheetLayout.ifRoom, sheet);
  const [front, more, room] = parted(found, paper, openDue(work.due).length);
  const place = room >= sheetLayout.room[paper].met ? 'found' : 'back';
  if (place === 'found') for (const each of met) (more.at(-1) ?? front).push(each);
  const names = followedNames(animal);
  const sides: Omit<SheetSide, 'kicker' | 'side'>[] = [
    {
      heading: animal.animal,
      about: about(sheet, work, today, picture),
      parts: [
        ...sheetLayout.front.filter((name) => name !== 'found').flatMap((name) => partNamed(name, sheet)),
        ...front,
      ],
      ruled: false,
    },
    ...more.map((parts) => ({
      heading: words.say('sheet.more-of', { animal: animal.animal }),
      parts,
      ruled: false,
    })),
    {
      heading: words.say('sheet.back-of', { animal: animal.animal }),
      after: afterMeasuring(sheet, work, names, day),
      parts: [
        ...(place === 'back' ? met : []),
        ...sheetLayout.back.flatMap((name) => partNamed(name, sheet)),
      ],
      ruled: true,
    },
  ];
  return {
    id: `animal-${work.record.slug}`,
    sides: sidesOf(words, words.say('sheet.kicker', { farm: farmName, day: dayInWords(words, day) }), sides),
  };
}

/** The lesions of the front, those of each further page, and for how many more the last of them has room. */
function parted(
  found: readonly PrintedPart[],
  paper: Paper,
  due: number,
): [PrintedPart[], PrintedPart[][], number] {
  const { front, more } = sheetLayout.room[paper];
  const pages: PrintedPart[][] = [[]];
  const { dueLines, dueLine } = sheetLayout.room;
  let left = front - Math.max(0, due - dueLines) * dueLine;
  for (const part of found) {
    const takes = part.lesion ? 1 : sheetLayout.room.mark;
    if (takes > left) {
      pages.push([]);
      left = more;
    }
    pages.at(-1)?.push(part);
    left -= takes;
  }
  const [first = [], ...others] = pages;
  return [first, others, left];
}

function about(
  { words, animal }: SheetForm,
  work: CaseWork,
  today: CalendarDay,
  picture: SheetAbout['picture'],
): SheetAbout {
  const { due, record, calvingNear } = work;
  const open = openDue(due);
  const stop = stopInWords(words, [work]);
  return {
    identity: identity(words, record.animal),
    handling: paragraph(
      animal.handling === undefined
        ? words.say('sheet.handling-unknown')
        : words.say('sheet.handling', { handling: told(animal.handling) }),
      calvingNear && calvingInWords(words, calvingNear),
    ),
    dueHeading: words.say('sheet.due'),
    ...(stop ? { stop: `${stop.title}. ${stop.text}` } : {}),
    due:
      open.length === 0
        ? [words.say('sheet.due-none')]
        : open.map((item) =>
            words.say('sheet.due-line', {
              what: dueInWords(words, animal, item).what,
              when: whenDue(words, item, today, dayInWords(words, item.by)),
              who: words.say(`sheet.who.${item.who}`),
            }),
          ),
    ...(picture ? { picture } : {}),
  };
}

/** Her marks, breed and calvings: what tells her from another, and what bears on lifting her. */
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

/** What was last found of each lesion and mark still followed, and what its top should read on the day of the visit. */
function afterMeasuring(
  sheet: SheetForm,
  work: CaseWork,
  names: readonly string[],
  day: CalendarDay,
): AfterMeasuring {
  const { words, animal } = sheet;
  const [[tick] = []] = sheetRowsOf(sheetRows('after'), sheet);
  const lesions = names.map((name) => {
    const at = animal.visits.findLastIndex(({ found }) => found?.[name] !== undefined);
    const visit = animal.visits[at];
    const index = Object.keys(visit?.found ?? {}).indexOf(name);
    const fact = visit && findingsInWords(words, animal, at)[index];
    const line = work.growth.lesions.find(({ lesion }) => lesion === name);
    return {
      name,
      last:
        visit && fact
          ? words.say('sheet.after.on', { day: dayInWords(words, visit.date), value: fact.value })
          : words.say('sheet.after.no-last'),
      expected: (line && nextReadingSentence(words, line, day)) || words.say('sheet.after.none'),
    };
  });
  return {
    heading: words.say('sheet.after.heading'),
    says: words.say('sheet.after.says'),
    heads: ['lesion', 'last', 'expected'].map((key) => words.say(`sheet.after.${key}`)),
    rows: [...lesions, ...walk(words, work)],
    ...(tick ? { tick } : {}),
  };
}

function walk(words: Words, { record: { animal } }: CaseWork): AfterMeasuring['rows'] {
  const last = animal.visits.findLast(({ gait }) => gait !== undefined);
  if (last?.gait === undefined) return [];
  const key = last['on-block'] === undefined ? 'gait' : last['on-block'] ? 'gait-on' : 'gait-off';
  const value = words.say(`sheet.after.${key}`, { gait: last.gait });
  return [
    {
      name: words.say('sheet.after.walk'),
      last: words.say('sheet.after.on', { day: dayInWords(words, last.date), value }),
      expected: '',
    },
  ];
}
