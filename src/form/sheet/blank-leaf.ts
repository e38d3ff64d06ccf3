import { animal as animalSchema } from '../../record/animal.js';
import { lesionCodes } from '../../record/words.js';
import { lesionKinds } from '../../reference/lesions.js';
import { listKeys } from '../../keep/list/list-keys.js';
import type { SheetItem, SheetLeaf, SheetPart } from './sheet-page.js';
import { rowsOf, type SheetForm } from './sheet-items.js';
import { sheetLayout } from './sheet-layout.js';
import { partNamed } from './sheet-parts.js';
import { sidesOf } from './sides-of.js';

/** A first-visit sheet of no animal yet: who she is is written too, and the names of lesions stand for looking up. */
export function blankLeaf(sheet: SheetForm, farmName: string | undefined): SheetLeaf {
  const { words, form } = sheet;
  const [first = '', second] = form.newLesions;
  const front = sheetLayout.front.filter((name) => name !== 'found' && name !== 'off');
  const lesion: SheetPart = {
    heading: words.say('sheet.blank.lesion', { name: first }),
    lesion: true,
    rows: rowsOf([...(sheetLayout.parts['met'] ?? []).slice(0, 2), ...sheetLayout.lesion], sheet, first),
  };
  const codes = lesionCodes.map((code) => `${code} ${lesionKinds[code].name}`);
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
function who({ words }: SheetForm, farmName: string | undefined): SheetPart {
  const item = (key: string, line: SheetItem['line']): SheetItem => ({
    label: words.say(key),
    boxes: [],
    line,
    unit: '',
  });
  const own = (key: string, line: SheetItem['line']): SheetItem => item(`sheet.blank.key.${key}`, line);
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
export const nobody = animalSchema.parse({ casefile: 1, animal: '?', lesions: {}, visits: [] });
