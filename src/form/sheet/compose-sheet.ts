import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { FarmRecord } from '../../record/practice.js';
import { type Language, type Paper, lesionCodes } from '../../record/words.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { dayInWords } from '../../words/day-and-place.js';
import { told, wordsOf } from '../../reference/words.js';
import { visitForm } from '../visit-form.js';
import { animalLeaf } from './animal-leaf.js';
import { type LastPicture, pictureView, type SheetPicture } from './last-picture.js';
import { type SheetForm, sheetRowsOf, partNamed, sheetRows } from './sheet-items.js';
import {
  type SheetPage,
  type SheetItem,
  type SheetLeaf,
  type PrintedPart,
  sheetLayout,
  sidesOf,
} from './sheet-page.js';
import { animal as animalSchema } from '../../record/animal.js';
import { listKeys } from '../../keep/list/read-list.js';

/** A first-visit sheet of no animal yet: who she is is written too, and the names of lesions stand for looking up. */
function blankLeaf(sheet: SheetForm, farmName: string | undefined): SheetLeaf {
  const { words, form } = sheet;
  const [first = '', second] = form.newLesions;
  const front = sheetLayout.front.filter((name) => name !== 'found' && name !== 'off');
  const lesion: PrintedPart = {
    heading: words.say('sheet.blank.lesion', { name: first }),
    lesion: true,
    rows: sheetRowsOf([...sheetRows('met').slice(0, 2), ...sheetRows('lesion')], sheet, first),
  };
  const codes = lesionCodes.map((code) =>
    words.say('sheet.blank.code', { code, name: words.say(`vocabulary.lesion-name.${code}`) }),
  );
  return {
    id: 'blank',
    sides: sidesOf(words, farmName ?? words.say('sheet.kicker-blank'), [
      {
        heading: words.say('sheet.title-blank'),
        parts: [who(sheet, farmName), ...front.flatMap((name) => partNamed(name, sheet)), lesion],
        ruled: false,
      },
      {
        heading: words.say('sheet.back-of', { animal: words.say('sheet.title-blank') }),
        parts: [sheetLayout.ifRoom, ...sheetLayout.back].flatMap((name) => partNamed(name, sheet, second)),
        ruled: true,
        codes: { heading: words.say('sheet.blank.codes'), items: codes },
      },
    ]),
  };
}

/** Every key of her identity, and since when she is lame. */
function who({ words }: SheetForm, farmName: string | undefined): PrintedPart {
  const item = (key: string, line: SheetItem['line']): SheetItem => ({
    label: words.say(key),
    boxes: [],
    line,
    unit: '',
  });
  const own = (key: string, line: SheetItem['line']): SheetItem => item(`key.${key}.sheet`, line);
  const rest = [...listKeys.keys()].filter(
    (key) => !['animal', 'tag', 'electronic', 'breed', 'born', 'handling'].includes(key),
  );
  return {
    heading: words.say('sheet.blank.who'),
    lesion: false,
    rows: [
      [
        item('sheet.blank.animal', 'middle'),
        ...(farmName === undefined ? [item('sheet.blank.farm', 'rest')] : []),
        own('tag', 'rest'),
      ],
      [own('electronic', 'rest'), own('breed', 'middle'), own('born', 'day')],
      rest.map((key) => own(key, key === 'calvings' ? 'rest' : key === 'calved-before' ? 'short' : 'day')),
      [own('lame-since', 'day'), own('told-by', 'middle'), own('handling', 'rest')],
    ],
  };
}

/** The animal a blank sheet is made for. */
const nobody = animalSchema.parse({ casefile: 1, animal: '?', lesions: {}, visits: [] });

export interface SheetFor {
  readonly farm: FarmRecord;
  readonly language: Language;
  /** The animals it is for, in their order. */
  readonly work: readonly CaseWork[];
  /** The day of the visit. */
  readonly day: CalendarDay;
  /** The day it was worked out for. */
  readonly today: CalendarDay;
  /** Of an animal, by her slug. */
  readonly pictures: ReadonlyMap<string, { readonly last: LastPicture; readonly made: SheetPicture }>;
}

/**
 * A farm's yard sheet as page data: for each animal a front to measure by and a back to read and write after measuring.
 *
 * Checked: tests/form/sheet.test.ts, tests/browser/sheet.test.ts
 */
export function composeSheet({ farm, language, work, day, today, pictures }: SheetFor): SheetPage {
  const words = wordsOf(language);
  const paper = farm.farm.paper ?? 'A4';
  const scale = gaitScaleOn(farm.farm, day);
  const said = { farm: told(farm.farm.farm), day: dayInWords(words, day) };
  return {
    language,
    paper,
    title: words.say('sheet.title', said),
    lead: words.say(work.length === 1 ? 'sheet.lead-one' : 'sheet.lead', { count: work.length }),
    skip: words.say('sheet.skip'),
    leaves: work.map((one) => {
      const { animal, slug } = one.record;
      const sheet: SheetForm = {
        words,
        animal,
        form: visitForm({ animal, gaitScale: scale }, new Map()),
        scale: scale && words.say(`vocabulary.gait-scale.${scale}`),
      };
      const picture = pictures.get(slug);
      return animalLeaf({
        sheet,
        work: one,
        farmName: told(farm.farm.farm),
        paper,
        day,
        today,
        ...(picture ? { picture: pictureView(words, animal.animal, picture.last, picture.made) } : {}),
      });
    }),
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
  const scale = farm && gaitScaleOn(farm.farm, day);
  const sheet: SheetForm = {
    words,
    animal: nobody,
    form: visitForm({ animal: nobody, gaitScale: scale }, new Map()),
    scale: scale && words.say(`vocabulary.gait-scale.${scale}`),
  };
  return {
    language,
    paper,
    title: farm
      ? words.say('sheet.title-blank-farm', { farm: told(farm.farm.farm) })
      : words.say('sheet.title-blank'),
    lead: words.say('sheet.lead-one'),
    skip: words.say('sheet.skip'),
    leaves: [blankLeaf(sheet, told(farm?.farm.farm))],
  };
}
