/** A joint normal distribution: means, and covariances row by row. */
export interface JointNormal {
  mean: number[];
  covariance: number[][];
}

/** One line for the sum over all readings: its rate, its own deviation, and its readings in months from a common day. */
export interface BatchLine {
  rate: number;
  deviation: number;
  readings: { months: number; mm: number; sigmaMm: number }[];
}

/**
 * The factor given all readings of all lines, and the expected length of one more reading, by conditioning
 * one joint normal distribution: no filter, no order, no state.
 *
 * A line that starts with a flat prior informs only by the differences to its first reading, so the data are those
 * differences: ρ (g + h) T + uneven growth up to T + error − error of the first.
 */
export function allReadingsAtOnce(
  prior: { mean: number; variance: number },
  lines: readonly BatchLine[],
  next: { line: number; months: number },
): { factor: { mean: number; variance: number }; next: { mean: number; variance: number } } {
  const data = lines.flatMap((line, index) =>
    line.readings.slice(1).map((reading) => ({ index, line, reading })),
  );
  const time = ({ line, reading }: (typeof data)[number]) => reading.months - line.readings[0]!.months;
  const covarianceOf = data.map((a, row) =>
    data.map((b, column) => {
      let sum = a.line.rate * time(a) * b.line.rate * time(b) * prior.variance;
      if (a.index === b.index) {
        sum += a.line.rate ** 2 * time(a) * time(b) * a.line.deviation ** 2;
        sum += uneven(a.line.rate, Math.min(time(a), time(b))) + a.line.readings[0]!.sigmaMm ** 2;
      }
      return sum + (row === column ? a.reading.sigmaMm ** 2 : 0);
    }),
  );
  const surprise = data.map(
    (d) => d.reading.mm - d.line.readings[0]!.mm - d.line.rate * time(d) * prior.mean,
  );
  const withFactor = data.map((d) => d.line.rate * time(d) * prior.variance);
  const target = lines[next.line]!;
  const ahead = next.months - target.readings[0]!.months;
  const withNext = data.map((d) => {
    let sum = d.line.rate * time(d) * target.rate * ahead * prior.variance;
    if (d.index === next.line) {
      sum += target.rate ** 2 * time(d) * ahead * target.deviation ** 2;
      sum += uneven(target.rate, Math.min(time(d), ahead)) + target.readings[0]!.sigmaMm ** 2;
    }
    return sum;
  });
  const weightsFactor = solve(covarianceOf, withFactor);
  const weightsNext = solve(covarianceOf, withNext);
  const priorNext =
    (target.rate * ahead) ** 2 * (prior.variance + target.deviation ** 2) +
    uneven(target.rate, ahead) +
    target.readings[0]!.sigmaMm ** 2;
  return {
    factor: {
      mean: prior.mean + dot(weightsFactor, surprise),
      variance: prior.variance - dot(weightsFactor, withFactor),
    },
    next: {
      mean: target.readings[0]!.mm + target.rate * ahead * prior.mean + dot(weightsNext, surprise),
      variance: priorNext - dot(weightsNext, withNext),
    },
  };
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, index) => sum + value * b[index]!, 0);
}

/** Gauss's elimination with the largest pivot. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, index) => [...row, right[index]!]);
  const size = rows.length;
  for (let at = 0; at < size; at++) {
    let pivot = at;
    for (let row = at; row < size; row++) {
      if (Math.abs(rows[row]![at]!) > Math.abs(rows[pivot]![at]!)) pivot = row;
    }
    [rows[at], rows[pivot]] = [rows[pivot]!, rows[at]!];
    for (let row = 0; row < size; row++) {
      if (row === at) continue;
      const share = rows[row]![at]! / rows[at]![at]!;
      for (let column = at; column <= size; column++) rows[row]![column]! -= share * rows[at]![column]!;
    }
  }
  return rows.map((row, index) => row[size]! / row[index]!);
}

function uneven(rate: number, months: number): number {
  return (0.1 * rate) ** 2 * months;
}
