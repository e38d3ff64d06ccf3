import type { Cell } from '../book/page-parts.js';
import { phrase } from '../book/fact.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { ProductUse } from '../record/visit.js';
import { isDry } from '../schedule/is-dry.js';
import { withdrawalOf, type Withheld } from '../schedule/withdrawal.js';
import { planDay } from '../words/plan-day.js';
import type { HandoverOf } from './handover-of.js';
import type { HandoverPage } from './handover-page.js';
import { cut, cutName, firstOf } from './left-out.js';

interface Given {
  readonly use: ProductUse;
  readonly from: CalendarDay;
  readonly by: string;
  readonly lastDose: CalendarDay;
  readonly milk: Withheld;
  readonly meat: Withheld;
}

/**
 * What she was given in this run of trouble, and whatever is withheld still: each product with its last withheld and its
 * first clear day. Withheld ones first, then the latest. Only what was written; never a product, a dose or a period of ours.
 */
export function treatmentsTable(of: HandoverOf): HandoverPage['treatments'] {
  const { words, today, level, leftOut } = of;
  const given = usesOf(of).toSorted(
    (a, b) =>
      Number(stillHeld(b, today)) - Number(stillHeld(a, today)) || (a.lastDose < b.lastDose ? 1 : a.lastDose > b.lastDose ? -1 : 0), // prettier-ignore
  );
  const heading = words.say('handover.treatments.heading');
  if (given.length === 0) return { heading, nothing: words.say('handover.treatments.none') };
  return {
    heading,
    table: {
      id: 'treatments',
      caption: words.say('handover.treatments.caption'),
      columns: (['day', 'product', 'by', 'milk', 'meat'] as const).map((key) => ({
        head: words.say(`handover.treatments.${key}`),
      })),
      rows: firstOf(leftOut, 'treatments', given, level.treatments).map((one) => ({
        cells: cellsOf(of, one),
      })),
    },
  };
}

function usesOf({ work, farm, today }: HandoverOf): Given[] {
  const ofRun = new Set(work.standing.episode.visits);
  return [...work.record.animal.visits.entries()]
    .filter(([, { date }]) => date <= today)
    .flatMap(([at, { date, by, products = [] }]) =>
      products
        .map((use): Given => ({
          use,
          from: use.on ?? date,
          by: use['given-by'] ?? by,
          ...withdrawalOf(use, date, farm.farm['milkings-a-day']),
        }))
        .filter((one) => ofRun.has(at) || stillHeld(one, today)),
    );
}

function stillHeld({ milk, meat }: Given, today: CalendarDay): boolean {
  return [milk, meat].some((side) => side.outcome === 'withheld' && side.firstClear > today);
}

function cellsOf(of: HandoverOf, { use, from, by, lastDose, milk, meat }: Given): Cell[] {
  const { words, work, today, leftOut } = of;
  const name = (text: string) => cutName(leftOut, text);
  const day = (value: CalendarDay) => planDay(words, value, today);
  const dry = isDry(work.record.animal, lastDose) && milk.outcome === 'withheld';
  return [
    {
      text:
        from === lastDose
          ? day(from)
          : words.say('handover.treatments.days', { from: day(from), until: day(lastDose) }),
    },
    {
      text: name(use.product),
      note: cut(
        leftOut,
        phrase(
          use.class && words.say(`vocabulary.product-class.${use.class}`),
          use.active && words.say('book.product.active', { value: name(use.active) }),
          use.batch && words.say('book.product.batch', { value: name(use.batch) }),
          use.amount && words.say('book.product.amount', { value: name(use.amount) }),
          use.route && words.say('book.product.route', { value: name(use.route) }),
          use.note,
        ),
        of.level.characters,
      ),
    },
    {
      text: name(by),
      ...(use['prescribed-by']
        ? { note: words.say('handover.treatments.prescribed', { who: name(use['prescribed-by']) }) }
        : {}),
    },
    {
      text: phrase(withheldText(of, milk), dry && words.say('handover.treatments.dry')),
      strong: isHeld(milk, today),
    },
    { text: withheldText(of, meat), strong: isHeld(meat, today) },
  ];
}

function isHeld(side: Withheld, today: CalendarDay): boolean {
  return side.outcome === 'withheld' && side.firstClear > today;
}

function withheldText({ words, today }: HandoverOf, side: Withheld): string {
  switch (side.outcome) {
    case 'withheld':
      return words.say('handover.treatments.held', {
        last: planDay(words, side.lastWithheld, today),
        clear: planDay(words, side.firstClear, today),
      });
    case 'milkings-a-day-not-known':
      return words.say('handover.treatments.milkings', { count: side.milkings });
    case 'nothing':
    case 'not-recorded':
    case 'none-written':
      return words.say(`handover.treatments.${side.outcome}`);
  }
}
