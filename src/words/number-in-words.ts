/** A length as it was written, or rounded to a tenth where it was worked out. @example mm(4.04) // → 4 */
export function mm(length: number): number {
  return Math.round(length * 10) / 10;
}

/** A large count with its thousands apart. @example thousands(90000) // → '90,000' */
export function thousands(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, ',');
}

/** A sentence with a capital at its start. @example sentenceCase('growing down') // → 'Growing down' */
export function sentenceCase(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

/** Sentences of one paragraph; what is absent is left out. */
export function paragraph(...sentences: readonly (string | undefined)[]): string {
  return sentences.filter((sentence) => sentence !== undefined && sentence !== '').join(' ');
}
