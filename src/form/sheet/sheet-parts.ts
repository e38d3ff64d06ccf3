import type { Animal } from '../../record/animal.js';
import { farmTasks, feet } from '../../record/words.js';
import { visitQuestions } from '../../keep/questions.js';
import { sentenceCase, lesionInWords, placeInWords } from '../../words/number-in-words.js';
import { codeOn } from '../../record/code-of-lesion.js';
import { findingName } from '../field.js';
import { rowsOf, type SheetForm } from './sheet-items.js';
import { sheetLayout } from './sheet-layout.js';
import type { SheetGrid, SheetPart } from './sheet-page.js';

/** Lesions still followed, then her marks. */
export function followedNames(animal: Animal): string[] {
  const names = visitQuestions(animal).flatMap(({ path, name }) =>
    path[0] === 'found' && name !== undefined ? [name] : [],
  );
  return [...new Set(names)];
}

/** The lesions still followed and her marks, each a part of its own to measure in. */
export function foundParts(sheet: SheetForm): SheetPart[] {
  const { words, animal } = sheet;
  return followedNames(animal).map((name) => {
    const isMark = animal.marks?.[name] !== undefined;
    return {
      heading: isMark ? findingName(words, animal, name) : placed(sheet, name),
      lesion: !isMark,
      rows: rowsOf(isMark ? sheetLayout.mark : sheetLayout.lesion, sheet, name),
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
): SheetPart[] {
  const { words, form } = sheet;
  if (name === 'found') return foundParts(sheet);
  const heading = words.say(`sheet.part.${name}`);
  if (name === 'feet') return [{ heading, lesion: false, rows: [], grid: feetGrid(sheet) }];
  if (name === 'farm') return [{ heading, lesion: false, rows: [], grid: farmGrid(sheet) }];
  const part = {
    heading,
    lesion: name === 'met',
    rows: rowsOf(sheetLayout.parts[name] ?? [], sheet, name === 'met' ? fresh : ''),
  };
  if (name !== 'met') return [part];
  return [
    part,
    {
      heading: words.say('sheet.part.new-mark'),
      lesion: false,
      rows: rowsOf(sheetLayout.newMark, sheet, form.newMark),
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
