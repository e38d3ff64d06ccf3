import { standingOrder } from '../healing/standing.js';
import type { CaseWork, PlacedCase } from './case-work.js';

/** Cases in the order of the book: open before closed, worst first, then by number; each with its place. */
export function placeCases(cases: readonly CaseWork[]): PlacedCase[] {
  return [...cases]
    .sort((a, b) => rank(a) - rank(b) || (a.record.slug < b.record.slug ? -1 : 1))
    .map((one, at) => ({ ...one, id: `animal-${one.record.slug}`, place: at + 1, of: cases.length }));
}

function rank({ standing: { closed, leading } }: CaseWork): number {
  return (closed ? 1000 : 0) + (leading ? standingOrder.indexOf(leading.standing) : standingOrder.length);
}
