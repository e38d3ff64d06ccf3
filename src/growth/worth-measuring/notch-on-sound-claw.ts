import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { type Claw, type Foot, type WallLine, claws, feet } from '../../record/words.js';
import { growthNumbers } from '../../reference/growth-numbers.js';
import { type GrowthLine, lactationOn, referenceRate } from '../growth-line.js';

/** A notch that could be filed, and its line, not yet read. */
export interface NotchToFile {
  readonly foot: Foot;
  readonly claw: Claw;
  readonly line: WallLine;
  readonly growth: GrowthLine;
}

/** The line whose growth is best known. */
const line: WallLine = 'dorsal';

/**
 * Where a growth mark could be filed: the front wall of the first claw with no trouble on record, hind feet first.
 *
 * Valid:   undefined where every foot has a lesion that is not healed on both claws; whether the wall is thick enough is for who files it
 * Checked: tests/growth/worth-measuring.test.ts
 */
export function notchOnSoundClaw(animal: Animal, on: CalendarDay): NotchToFile | undefined {
  const sore = Object.entries(animal.lesions).filter(([name]) => !isHealed(animal, name, on));
  const places = feet.toReversed().flatMap((foot) => claws.toReversed().map((claw) => ({ foot, claw })));
  const place = places.find(
    ({ foot, claw }) => !sore.some(([, lesion]) => lesion.foot === foot && (lesion.claw ?? claw) === claw),
  );
  if (place === undefined) return undefined;
  const rate = referenceRate({ ...place, line, lactation: lactationOn(animal, on) });
  const { deviation } = growthNumbers.lines[line];
  return { ...place, line, growth: { name: '', of: 'mark', rate, deviation: deviation.value, readings: [] } };
}

function isHealed(animal: Animal, lesion: string, on: CalendarDay): boolean {
  const last = animal.visits.findLast(
    ({ date, found }) => date <= on && (found?.[lesion]?.state ?? found?.[lesion]?.stage) !== undefined,
  )?.found?.[lesion];
  return last?.state === 'healed' || last?.stage === 'M0';
}
