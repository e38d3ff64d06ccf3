import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { CaseWork } from '../schedule/case-work.js';
import { antimicrobialBaths, isWithheld, type Side, sides } from '../schedule/withheld.js';
import { withheldInWords } from '../words/compose-withheld.js';
import type { Words } from '../words/words.js';
import { animalCell, type PlacedCase } from './animal-page-data.js';
import type { Cell, TableSection } from './page-parts.js';
import { given } from '../record/given.js';

/** Whose milk or meat is withheld: one line an animal, of each the latest day, or that it is not known. */
export function composeWithheld(
  words: Words,
  farm: Farm,
  cases: readonly PlacedCase[],
  today: CalendarDay,
): TableSection {
  const animals = cases.filter(({ withheld }) => isWithheld(withheld));
  const section = { id: 'withheld', heading: words.say('jobs.withheld.heading') };
  const herd = antimicrobialBaths(farm)
    .filter(({ from = '' }) => from <= today)
    .map(({ product }) => words.say('jobs.withheld.herd', { product }));
  if (animals.length === 0)
    return { ...section, lead: herd.length > 0 ? herd : [words.say('jobs.withheld.none')] };
  return {
    ...section,
    lead: [...herd, words.say('jobs.withheld.lead')],
    table: {
      id: 'withheld-table',
      caption: words.say('jobs.withheld.caption'),
      columns: [
        { head: words.say('jobs.animals') },
        ...sides.map((side) => ({ head: words.say(`jobs.withheld.${side}`) })),
      ],
      rows: animals.map((one) => {
        const cells = withheldCells(words, one, today);
        return { cells: [animalCell(words, one), ...sides.map((side) => cells[side])] };
      }),
    },
  };
}

/** What is withheld of one animal, in two cells; strong where something is, or may be. */
export function withheldCells(
  words: Words,
  { withheld }: Pick<CaseWork, 'withheld'>,
  today: CalendarDay,
): Readonly<Record<Side, Cell>> {
  const cell = (side: Side): Cell => {
    const { text, note, isHeld } = withheldInWords(words, withheld[side], side, today);
    return {
      text,
      ...(isHeld ? { strong: true } : {}),
      ...given({ note }),
    };
  };
  return { milk: cell('milk'), meat: cell('meat') };
}
