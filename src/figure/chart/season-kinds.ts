import type { LesionRates } from '../../herd/lesion-rates.js';
import type { LesionCode } from '../../record/words.js';

/** A part of every season's bar: one kind, or several that are seldom. */
export interface SeasonKind {
  readonly codes: readonly LesionCode[];
  /** Lesions of it in each season, those a rate counts where rates are drawn. */
  readonly counts: readonly number[];
}

/** More patterns than these are not told apart. */
const apart = 4;

/** The most frequent kinds by themselves, the rest together; of equals the one first in the list of codes. */
export function seasonKinds({ byQuarter }: LesionRates, isRate: boolean): SeasonKind[] {
  const codes = [...new Set(byQuarter.flatMap(({ kinds }) => kinds.map(({ code }) => code)))];
  const countsOf = (among: readonly LesionCode[]) =>
    byQuarter.map(({ kinds }) =>
      kinds
        .filter(({ code }) => among.includes(code))
        .reduce((sum, { counted, lesions }) => sum + (isRate ? counted : lesions), 0),
    );
  const sumOf = (code: LesionCode) => countsOf([code]).reduce((sum, count) => sum + count, 0);
  const frequent = codes.filter((code) => sumOf(code) > 0).sort((a, b) => sumOf(b) - sumOf(a));
  const alone = frequent.length > apart + 1 ? frequent.slice(0, apart) : frequent.slice(0, apart + 1);
  const groups = [...alone.map((code) => [code]), frequent.slice(alone.length)].filter(
    (group) => group.length > 0,
  );
  return groups.map((group) => ({ codes: group, counts: countsOf(group) }));
}
