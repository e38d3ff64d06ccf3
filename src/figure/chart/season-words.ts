import type { LesionRates } from '../../herd/lesion-rates.js';
import type { Words } from '../../words/words.js';

/** The season and its months, a line each; the months alone where the hemisphere is not known. */
export function seasonInWords(
  words: Words,
  { quarter, season }: Pick<LesionRates['byQuarter'][number], 'quarter' | 'season'>,
): string[] {
  const months = words.say(`herd.rates.months.${quarter}`);
  return season ? [words.say(`herd.rates.seasons.${season}`), months] : [months];
}
