/**
 * A number written without quotes in a form that a number type would not give back: `0312`, `22.50`.
 *
 * Where text is wanted the source stays; where a number is wanted it becomes one.
 */
export class PlainScalar {
  constructor(readonly source: string) {}

  /** As a key it is its own source: the parser turns any key into text. */
  toString(): string {
    return this.source;
  }

  /** Keeps the parser from taking a key of this kind for a map. */
  get [Symbol.toStringTag](): string {
    return 'PlainScalar';
  }
}

/** Decimal digits, the only form of number the case format knows. */
export const decimalDigits = /^-?\d+(?:\.\d+)?$/;
