/** A smooth course: how high it is at x, and how fast it rises there. */
type Course = Readonly<{ at: (x: number) => number; slope: (x: number) => number }>;

/** Where to look, and how finely: no more than one peak of the course may lie within one step. */
type Search = Readonly<{ from: number; to: number; step: number }>;

/**
 * The first x at which a course is at or above a level; undefined where it never does.
 *
 * A course need not only rise: it may touch the level on a peak, fall back and pass it for good
 * much later. So it is walked in steps, and where a step holds a peak (rising at its start, falling
 * at its end) the peak is sought out before the step is passed over.
 *
 * Valid:   `to` itself is looked at
 * Error:   x within 1e-9 of the crossing, or as near as doubles allow
 * Source:  own; Newton's method kept inside a bracket
 * Checked: tests/statistics/first-reach.test.ts, against a walk in very small steps
 * @example firstReach({ at: (x) => x, slope: () => 1 }, 2.5, { from: 0, to: 10, step: 1 }) // → 2.5
 */
export function firstReach(course: Course, level: number, search: Search): number | undefined {
  let low = search.from;
  if (course.at(low) >= level) return low;
  let rising = course.slope(low) > 0;
  while (low < search.to) {
    const high = Math.min(low + search.step, search.to);
    if (course.at(high) >= level) return crossing(course, level, low, high);
    const stillRising = course.slope(high) > 0;
    if (rising && !stillRising) {
      const peak = peakBetween(course, low, high);
      if (course.at(peak) >= level) return crossing(course, level, low, peak);
    }
    low = high;
    rising = stillRising;
  }
  return undefined;
}

const near = 1e-9;

/** Newton's steps, halving the bracket wherever a step would leave it or gains too little. */
function crossing(course: Course, level: number, below: number, reached: number): number {
  let low = below;
  let high = reached;
  let x = reached;
  let step = high - low;
  while (high - low > near) {
    const over = course.at(x) - level;
    if (over >= 0) high = x;
    else low = x;
    const newton = over / course.slope(x);
    const wanted = x - newton;
    if (Math.abs(newton) <= near) return wanted;
    const gains = Math.abs(newton) < step / 2 && wanted > low && wanted < high;
    const next = gains ? wanted : (low + high) / 2;
    step = Math.abs(next - x);
    if (step <= near || next === low || next === high) return next;
    x = next;
  }
  return high;
}

/** The peak itself counts as risen, so that a level just touched is found. */
function peakBetween(course: Course, rising: number, falling: number): number {
  let low = rising;
  let high = falling;
  while (high - low > near) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (course.slope(middle) > 0) low = middle;
    else high = middle;
  }
  return low;
}
