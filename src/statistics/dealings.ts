import { seededRandom } from './seeded-random.js';

/**
 * In how many ways so many can be chosen out of all.
 *
 * @example waysToChoose(6, 3) // → 20
 */
export function waysToChoose(all: number, chosen: number): number {
  let ways = 1;
  for (let k = 1; k <= Math.min(chosen, all - chosen); k++) ways = (ways * (all - k + 1)) / k;
  return Math.round(ways);
}

/**
 * Every choice of so many out of all, as lists of places, in the order of the dictionary.
 *
 * @example [...everyChoice(3, 2)] // → [[0, 1], [0, 2], [1, 2]]
 */
export function* everyChoice(all: number, chosen: number): Generator<number[]> {
  const places = Array.from({ length: chosen }, (_, k) => k);
  for (;;) {
    yield [...places];
    let moving = chosen - 1;
    while (moving >= 0 && places[moving] === all - chosen + moving) moving -= 1;
    if (moving < 0) return;
    places[moving]! += 1;
    for (let k = moving + 1; k < chosen; k++) places[k] = places[k - 1]! + 1;
  }
}

/**
 * So many blind choices, each as likely as any other (the first places of a Fisher-Yates shuffle).
 *
 * @example [...drawnChoices(2, 2, { seed: 1, draws: 1 })].flat().length // → 2
 */
export function* drawnChoices(
  all: number,
  chosen: number,
  { seed, draws }: { seed: number; draws: number },
): Generator<number[]> {
  const random = seededRandom(seed);
  const places = Array.from({ length: all }, (_, k) => k);
  for (let draw = 0; draw < draws; draw++) {
    for (let k = 0; k < chosen; k++) {
      const other = k + random.below(all - k);
      [places[k], places[other]] = [places[other]!, places[k]!];
    }
    yield places.slice(0, chosen);
  }
}
