import { told } from '../reference/words.js';
import { type Cell, dataTable, heads } from '../book/page-parts.js';
import { given } from '../record/given.js';
import { heldByUse, type Side, type Use, usesOf, writtenPeriod } from '../schedule/withheld.js';
import { periodInWords } from '../words/compose-withheld.js';
import type { HandoverOf } from './handover-page.js';

interface Given extends Use {
  readonly by: string;
  /** Its days of milk or meat may still run. */
  readonly counts: boolean;
}

/**
 * What she was given in this lameness episode, and whatever may still be withheld: each product with its period as written;
 * her one milk day and one meat day are among the facts. What still counts first, then the latest. Only what was
 * written; never a product, a dose or a period of ours.
 */
export function treatmentsTable(of: HandoverOf) {
  const { words, say, level, firstOf } = of;
  const all = givenTo(of).toSorted(
    (a, b) => Number(b.counts) - Number(a.counts) || (a.last < b.last ? 1 : a.last > b.last ? -1 : 0),
  );
  const table = () =>
    dataTable(
      'treatments',
      say('treatments.caption'),
      heads(words, 'handover.treatments', 'day', 'product', 'by', 'milk', 'meat'),
      firstOf('treatments', all, level.treatments).map((one) => cellsOf(of, one)),
    );
  return {
    heading: say('treatments.heading'),
    ...given(all.length === 0 ? { nothing: say('treatments.none') } : { table: table() }),
  };
}

function givenTo({ animal, work, farm, today }: HandoverOf): Given[] {
  const ofRun = new Set(work.standing.episode.visits);
  const held = heldByUse(animal, farm.farm, today).filter(({ to }) => to >= today);
  return usesOf(animal, today)
    .map((one) => ({
      ...one,
      by: one.use['given-by'] ?? animal.visits[one.visit]!.by,
      counts: held.some(({ use }) => use === one.use),
    }))
    .filter(({ visit, counts }) => ofRun.has(visit) || counts);
}

function cellsOf(of: HandoverOf, { use, first, last, by, counts }: Given): (string | Cell)[] {
  const { words, say, farm, name, day, cut } = of;
  const product = (key: string, value: string | undefined) =>
    value && words.say(`book.product.${key}`, { value: name(value) });
  const period = (side: Side): Cell => ({
    text: periodInWords(words, writtenPeriod(use, side, farm.farm['milkings-a-day'])),
    strong: counts,
  });
  const about = words.semicolons([
    use.class && words.say(`vocabulary.product-class.${use.class}`),
    product('active', use.active),
    product('batch', use.batch),
    product('amount', use.amount),
    product('route', use.route),
    told(use.note),
  ]);
  const order = use['prescribed-by'];
  const note = order ? say('treatments.prescribed', { who: name(order) }) : undefined;
  return [
    first === last ? day(first) : say('treatments.days', { from: day(first), until: day(last) }),
    { text: name(use.product), note: cut(about) },
    { text: name(by), ...given({ note }) },
    period('milk'),
    period('meat'),
  ];
}
