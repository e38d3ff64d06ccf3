import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { DueItem } from '../schedule/due-item.js';
import { planDay } from '../words/plan-day.js';
import type { Words } from '../words/words.js';
import { animalCell } from './animal-cell.js';
import type { Cell, TableSection } from './page-parts.js';
import type { PlacedCase } from './placed-case.js';
import { isOpen } from '../schedule/open-due.js';

const sides = ['milk', 'meat'] as const;

/** Whose milk or meat is withheld: one line an animal, of each the latest day; every product stands on her page. */
export function composeWithheld(
  words: Words,
  cases: readonly PlacedCase[],
  today: CalendarDay,
): TableSection {
  const animals = cases.flatMap((one) => {
    const held = withheldOf(words, one, today);
    return held ? [{ one, held }] : [];
  });
  const section = { id: 'withheld', heading: words.say('jobs.withheld.heading') };
  if (animals.length === 0) return { ...section, lead: [words.say('jobs.withheld.none')] };
  return {
    ...section,
    lead: [words.say('jobs.withheld.lead')],
    table: {
      id: 'withheld-table',
      caption: words.say('jobs.withheld.caption'),
      columns: [
        { head: words.say('jobs.animals') },
        ...sides.map((side) => ({ head: words.say(`jobs.withheld.${side}`) })),
      ],
      rows: animals.map(({ one, held }) => ({
        cells: [animalCell(words, one), ...sides.map((side) => held[side])],
      })),
    },
  };
}

/** What is withheld of one animal, or was never written down; undefined where nothing is. */
export function withheldOf(
  words: Words,
  { due }: Pick<CaseWork, 'due'>,
  today: CalendarDay,
): Readonly<Record<Side, Cell>> | undefined {
  const items = due.filter(isOpen);
  if (!items.some((item) => sides.some((side) => concerns(item, side)))) return undefined;
  return {
    milk: withheldCell(words, items, 'milk', today),
    meat: withheldCell(words, items, 'meat', today),
  };
}

type Side = (typeof sides)[number];

/** Until when milk or meat is withheld by what is due; a period nobody wrote down outweighs every day that is known. */
function withheldCell(words: Words, items: readonly DueItem[], side: Side, today: CalendarDay): Cell {
  const hers = items.filter((item) => concerns(item, side));
  const latest = hers
    .filter(({ lastWithheld }) => lastWithheld !== undefined)
    .toSorted((a, b) => (a.by < b.by ? -1 : 1))
    .at(-1);
  const through = latest?.lastWithheld && {
    last: planDay(words, latest.lastWithheld, today),
    clear: planDay(words, latest.by, today),
  };
  const said = through && words.say('jobs.withheld.through', through);
  if (hers.some(({ notRecorded }) => notRecorded !== undefined))
    return { text: words.say('jobs.withheld.not-known'), strong: true, ...(said ? { note: said } : {}) };
  if (!said) return { text: words.say('jobs.withheld.not-held') };
  const dry = hers.some(({ why }) => why.key.endsWith('-dry'));
  return { text: said, strong: true, ...(dry ? { note: words.say('jobs.withheld.dry') } : {}) };
}

function concerns({ what, notRecorded }: DueItem, side: Side): boolean {
  return what === `${side}-clear` || notRecorded === side || notRecorded === 'both';
}
