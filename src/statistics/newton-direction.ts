import type { MassLikelihood } from './mass-likelihood.js';
import { type SpanTable, sumInSpans, sumOverBoxes } from './span-sums.js';

/**
 * The step that Newton's method would take from a set of masses towards the most likely one.
 *
 * Boxes that are empty and do no good filled stay empty. For the others the equations "curvature times step =
 * slope" are solved by conjugate gradients: only products with the curvature are needed, and each costs one sweep over
 * boxes and spans, where writing the curvature down would cost the square of the boxes. It need not be solved to
 * the last digit far from the goal, but ever better as the slope falls.
 *
 * Where several sets of masses are equally likely the curvature does not tell them apart; a ten-thousand-millionth
 * of its diagonal is added so that the step stays short there.
 *
 * Source:  J. Nocedal and S. J. Wright, Numerical Optimization (2006): conjugate gradients, and Newton steps solved no further than need be
 * Checked: tests/statistics/interval-censored-survival.test.ts
 */
export function newtonDirection(table: SpanTable, masses: Float64Array, at: MassLikelihood): Float64Array {
  const bend = at.chances.map((chance, i) => table.count[i]! / (chance * chance));
  const diagonal = sumOverBoxes(table, bend);
  const free = masses.map((mass, box) => (mass > empty || at.slope[box]! > 0 ? 1 : 0));
  const step = masses.map((mass, box) => (free[box] ? 0 : -mass));
  const left = at.slope.map((slope, box) => slope * free[box]!);
  const eased = left.map((value, box) => value / diagonal[box]!);
  const direction = Float64Array.from(eased);
  let size = dot(left, eased);
  const goal = size * Math.min(1e-6, Math.max(1e-24, (at.shortBy / table.observations) ** 2));
  for (let round = 0; round < masses.length + 50 && size > goal; round++) {
    const curved = sumInSpans(table, direction);
    for (let i = 0; i < curved.length; i++) curved[i]! *= bend[i]!;
    const product = sumOverBoxes(table, curved);
    for (let box = 0; box < product.length; box++) {
      product[box] = free[box]! * (product[box]! + shortness * diagonal[box]! * direction[box]!);
    }
    const along = size / dot(direction, product);
    if (!Number.isFinite(along)) break;
    for (let box = 0; box < step.length; box++) {
      step[box]! += along * direction[box]!;
      left[box]! -= along * product[box]!;
    }
    for (let box = 0; box < step.length; box++) eased[box] = left[box]! / diagonal[box]!;
    const sizeNow = dot(left, eased);
    for (let box = 0; box < step.length; box++) {
      direction[box] = eased[box]! + (sizeNow / size) * direction[box]!;
    }
    size = sizeNow;
  }
  return step;
}

const empty = 1e-12;
const shortness = 1e-10;

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}
