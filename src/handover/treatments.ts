import { told } from '../reference/words.js';
import type { Cell } from '../book/page-parts.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { heldByUse, type Side, type Use, usesOf, writtenPeriod } from '../schedule/withheld.js';
import { periodInWords } from '../words/compose-withheld.js';
import { planDay } from '../words/day-and-place.js';
import { type HandoverOf, type HandoverPage, cut, cutName, firstOf } from './handover-page.js';

interface Given extends Use {
  readonly by: string;
  /** Its days of milk or meat may still run. */
  readonly counts: boolean;
}

/**
 * What she was given in this lameness episode, and whatever may still be withheld: each product with its period as written;
 * her one milk day and one meat day stand among the facts. What still counts first, then the latest. Only what was
 * written; never a product, a dose or a period of ours.
 */
export function treatmentsTable(of: HandoverOf): HandoverPage['treatments'] {
  const { words, level, leftOut } = of;
  const given = givenTo(of).toSorted(
    (a, b) => Number(b.counts) - Number(a.counts) || (a.last < b.last ? 1 : a.last > b.last ? -1 : 0),
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

function givenTo({ work, farm, today }: HandoverOf): Given[] {
  const { animal } = work.record;
  const ofRun = new Set(work.standing.episode.visits);
  const counting = new Set(heldByUse(animal, farm.farm, today).flatMap(({ use, to }) => (to >= today ? [use] : []))); // prettier-ignore
  return usesOf(animal, today)
    .map((one) => ({
      ...one,
      by: one.use['given-by'] ?? animal.visits[one.visit]!.by,
      counts: counting.has(one.use),
    }))
    .filter(({ visit, counts }) => ofRun.has(visit) || counts);
}

function cellsOf(of: HandoverOf, { use, first, last, by, counts }: Given): Cell[] {
  const { words, farm, today, leftOut } = of;
  const name = (text: string) => told(cutName(leftOut, text));
  const day = (value: CalendarDay) => planDay(words, value, today);
  const period = (side: Side): Cell => ({
    text: periodInWords(words, writtenPeriod(use, side, farm.farm['milkings-a-day'])),
    strong: counts,
  });
  return [
    {
      text:
        first === last
          ? day(first)
          : words.say('handover.treatments.days', { from: day(first), until: day(last) }),
    },
    {
      text: name(use.product),
      note: cut(
        leftOut,
        words.semicolons([
          use.class && words.say(`vocabulary.product-class.${use.class}`),
          use.active && words.say('book.product.active', { value: name(use.active) }),
          use.batch && words.say('book.product.batch', { value: name(use.batch) }),
          use.amount && words.say('book.product.amount', { value: name(use.amount) }),
          use.route && words.say('book.product.route', { value: name(use.route) }),
          told(use.note),
        ]),
        of.level.characters,
      ),
    },
    {
      text: name(by),
      ...(use['prescribed-by']
        ? { note: words.say('handover.treatments.prescribed', { who: name(use['prescribed-by']) }) }
        : {}),
    },
    period('milk'),
    period('meat'),
  ];
}
