import { standingOrder, walkOrder, type CaseStanding } from './standing.js';

/** What the order looks at: the file's short name settles what is otherwise alike. */
export interface Ordered {
  readonly slug: string;
  readonly standing: CaseStanding;
  /** Of her most urgent standing notice: 0 stop work, 1 the same day, 2 at this visit; absent without one. */
  readonly urgency?: number;
}

/**
 * The one order of books and rounds: open cases before closed, then the vet's most urgent, then severely lame,
 * then the worst standing lesion, then how she walks, then the file's name.
 *
 * Why this way: whoever reads only the first page must meet the cow that cannot wait.
 *
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function worstFirst<T extends Ordered>(cases: readonly T[]): T[] {
  return cases.toSorted((a, b) => {
    const others = sortKeys(b);
    const apart = sortKeys(a).map((key, at) => key - others[at]!);
    return apart.find((by) => by !== 0) ?? (a.slug < b.slug ? -1 : a.slug > b.slug ? 1 : 0);
  });
}

function sortKeys({ standing, urgency }: Ordered): readonly number[] {
  const { closed, gait, leading } = standing;
  return [
    closed ? 1 : 0,
    urgency ?? Number.MAX_SAFE_INTEGER,
    gait.last?.severe ? 0 : 1,
    leading ? standingOrder.indexOf(leading.standing) : standingOrder.length,
    walkOrder.indexOf(gait.standing),
  ];
}
