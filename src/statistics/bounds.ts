/** What is known of a number: it is no lower and no higher than this. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
}
