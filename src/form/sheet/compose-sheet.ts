import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { FarmRecord } from '../../record/practice.js';
import type { Language, Paper } from '../../record/words.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { dayInWords } from '../../words/day-in-words.js';
import { wordsOf } from '../../words/words.js';
import { visitForm } from '../visit-form.js';
import { animalLeaf } from './animal-leaf.js';
import { blankLeaf, nobody } from './blank-leaf.js';
import { type LastPicture, pictureView, type SheetPicture } from './last-picture.js';
import type { SheetForm } from './sheet-items.js';
import type { SheetPage } from './sheet-page.js';

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
  const said = { farm: farm.farm.farm, day: dayInWords(words, day) };
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
        farmName: farm.farm.farm,
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
      ? words.say('sheet.title-blank-farm', { farm: farm.farm.farm })
      : words.say('sheet.title-blank'),
    lead: words.say('sheet.lead-one'),
    skip: words.say('sheet.skip'),
    leaves: [blankLeaf(sheet, farm?.farm.farm)],
  };
}
