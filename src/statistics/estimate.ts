/** An estimate with its bounds. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}
