import type { CaseCosts, Costs } from './costs.js';
import type { YearCosts } from './year-costs.js';
import type { Animal } from '../record/animal.js';

/** One animal's line: her case, or her part of a period. */
export interface AnimalCosts extends Partial<Pick<CaseCosts, 'toFinish'>> {
  readonly slug: string;
  readonly animal: Animal;
  readonly costs: Costs;
  /** Since when, and whether it is over; absent in a period. */
  readonly since?: string;
  readonly closed?: boolean;
}

/** What a farm's cases come to, as the command gives it out. */
export interface FarmCosts {
  readonly farm: string;
  readonly name: string;
  readonly currency: string;
  readonly animals: readonly AnimalCosts[];
  readonly years: readonly YearCosts[];
  /** Of a period: all its animals together. */
  readonly total?: Costs;
}
