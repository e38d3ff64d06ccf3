import type { CaseForecast, NoForecast } from './animal-growth.js';
import { type WayDown, type WhenOut, whenOut } from './when-out.js';

/** One gap's part in the forecast of the whole animal. */
export interface GapOutlook {
  readonly lesion: string;
  readonly why?: NoForecast;
  readonly way?: WayDown;
  /** When it should be out, where nothing speaks against a date. */
  readonly whenOut?: WhenOut;
  readonly ifSoundHornFollows: boolean;
}

/**
 * When the last of her gaps should be out, counted from the latest of their readings.
 *
 * Valid:   gaps that are healed, or joined and followed elsewhere, do not count; no date if any other has none
 * Checked: tests/growth/case-forecast.test.ts
 */
export function caseForecast(gaps: readonly GapOutlook[]): CaseForecast {
  const counting = gaps.filter(({ why }) => why !== 'healed' && why !== 'joined');
  const ways = counting.flatMap(({ way, why }) => (why === undefined && way !== undefined ? way : []));
  const only = counting.length === 1 ? counting[0]?.whenOut : undefined;
  if (ways.length === 0 || ways.length < counting.length) {
    const silent = counting.length === 0 ? gaps : counting;
    return {
      outcome: 'none',
      because: silent.flatMap(({ lesion, why }) => (why === undefined ? [] : { lesion, why })),
    };
  }
  const ifSoundHornFollows = counting.some((gap) => gap.ifSoundHornFollows);
  return { outcome: 'range', ...(only ?? whenOut(ways)), ifSoundHornFollows };
}
