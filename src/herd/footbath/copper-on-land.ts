import { footbathNumbers } from '../../reference/footbath-numbers.js';

/** What copper does to the land it is spread on, if it goes on as it is. */
export interface CopperOnLand {
  /** kg copper a hectare and year. */
  readonly kgPerHectare: number;
  /** Rise of the soil a year, mg/kg: with all that crops can take off gone, and with nothing taken off. */
  readonly risePerYear: { readonly least: number; readonly most: number };
  /** Years until the soil has risen by the step asked for; `most` is Infinity where crops may take it all off. */
  readonly yearsUntilRise: { readonly riseMgPerKg: number; readonly least: number; readonly most: number };
  /** Years until the load on the land reaches the US limit for sewage sludge, by analogy. */
  readonly yearsUntilLoad: { readonly kgPerHectare: number; readonly years: number };
}

/**
 * Copper from a footbath on the land that takes the slurry.
 *
 * The layer of 20 cm and 1.3 t a m³ weighs 2600 t a hectare, so 1 kg of copper raises it by 0.385 mg/kg. All copper is taken to reach the
 * slurry and to stay in that layer, but for what crops take off: between nothing and 0.6 kg a hectare and year.
 * What the soil holds to begin with only its analysis tells.
 *
 * Unit:    kg copper a year; hectares; mg/kg; years
 * Valid:   hectares above 0, a step above 0
 * Error:   RangeError
 * Source:  shared/footbath.json
 * Checked: tests/herd/footbath.test.ts (by hand)
 */
export function copperOnLand(
  kgCopperAYear: number,
  hectares: number,
  riseMgPerKg: number = footbathNumbers.soilRise.value,
): CopperOnLand {
  if (!(hectares > 0 && riseMgPerKg > 0))
    throw new RangeError(`${hectares} ha, a rise of ${riseMgPerKg}: both must be above 0`);
  const kgPerHectare = kgCopperAYear / hectares;
  const least = Math.max(0, kgPerHectare - footbathNumbers.cropsTakeOff.value) * mgPerKgOfOneKg;
  const most = kgPerHectare * mgPerKgOfOneKg;
  const load = footbathNumbers.usLoadLimit.value;
  return {
    kgPerHectare,
    risePerYear: { least, most },
    yearsUntilRise: { riseMgPerKg, least: riseMgPerKg / most, most: riseMgPerKg / least },
    yearsUntilLoad: { kgPerHectare: load, years: load / kgPerHectare },
  };
}

const squareMetresAHectare = 10_000;
const soilTonnesAHectare =
  squareMetresAHectare * (footbathNumbers.soilDepth.value / 100) * footbathNumbers.soilDensity.value;

/** 1 kg is 1,000,000 mg and 1 t is 1000 kg. */
const mgPerKgOfOneKg = 1_000_000 / (soilTonnesAHectare * 1000);
