import type { Animal } from '../../src/record/animal.js';
import type { Found, Visit } from '../../src/record/visit.js';
import type { Lesion } from '../../src/record/lesion.js';
import { growingConditions } from '../../src/growth/growth-line.js';
import { growthOfAnimal, publishedPrior } from '../../src/growth/growth-of-animal.js';
import type { AnimalGrowth, LesionGrowth } from '../../src/growth/animal-growth.js';

export const gap: Lesion = { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' };

/** One visit by Orla Venn. */
export function visit(date: string, found: Record<string, Found>, more: Partial<Visit> = {}): Visit {
  return { date, kind: 'recheck', by: 'Orla Venn', found, ...more };
}

/** What is found of a gap read with a ruler. */
export function top(mm: number, more: Found = {}): Found {
  return { state: 'open', top: mm, 'top-found': 'seen', tool: 'ruler', ...more };
}

/** An animal of no known calvings with one gap on the heel line, unless told otherwise. */
export function animalWith(visits: Visit[], more: Partial<Animal> = {}): Animal {
  return { casefile: 1, animal: '2086', lesions: { a: gap }, visits, ...more };
}

/** A farm of which neither housing nor hemisphere is known: no season. */
export const noSeason = growingConditions({});

export const grazedNorth = growingConditions({ herd: { housing: 'grazed' }, hemisphere: 'north' });

/** Her growth as published numbers have it, worked out long after the last visit. */
export function growthOf(animal: Animal, today = '2030-01-01', conditions = noSeason): AnimalGrowth {
  return growthOfAnimal(animal, conditions, { today, prior: publishedPrior });
}

/** The growth of her first gap. */
export function gapOf(animal: Animal, today?: string): LesionGrowth {
  return growthOf(animal, today).lesions[0]!;
}

/** The kinds of the readings of her first gap. */
export function kindsOf(animal: Animal): string[] {
  return gapOf(animal).readings.map(({ kind }) => kind);
}
