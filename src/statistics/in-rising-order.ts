/**
 * Puts values from one place up to another, not with it, in rising order, in place: neighbours out of order take their weighted mean.
 *
 * Of all rising values these lie nearest to the given ones, by the weighted sum of squares.
 *
 * Valid:   weights above 0
 * Source:  the pooling of adjacent violators, R. E. Barlow and others (1972)
 * Checked: tests/statistics/share-bounds.test.ts (by hand)
 * @example inRisingOrder(Float64Array.of(1, 4, 2, 5), Float64Array.of(1, 1, 1, 1), 0, 4) // → undefined
 */
export function inRisingOrder(values: Float64Array, weights: Float64Array, start: number, end: number): void {
  const means: number[] = [];
  const sums: number[] = [];
  const ends: number[] = [];
  for (let k = start; k < end; k++) {
    let mean = values[k]!;
    let sum = weights[k]!;
    while (means.length > 0 && means.at(-1)! >= mean) {
      const before = sums.pop()!;
      mean = (mean * sum + means.pop()! * before) / (sum + before);
      sum += before;
      ends.pop();
    }
    means.push(mean);
    sums.push(sum);
    ends.push(k + 1);
  }
  let from = start;
  ends.forEach((to, at) => {
    values.fill(means[at]!, from, to);
    from = to;
  });
}
