/** Days people count in: weeks, fours of weeks, and so on. */
const steps = [1, 2, 7, 14, 28, 56, 84, 112, 168, 336, 672, 1344, 2688];

/** Days from 0 to a last one, at most so many, in steps of weeks where that is enough. @example daySteps(84, 5) // → [0, 28, 56, 84] */
export function daySteps(last: number, most: number): number[] {
  const step = steps.find((days) => last / days < most) ?? last;
  return Array.from({ length: Math.floor(last / step) + 1 }, (_, at) => at * step);
}
