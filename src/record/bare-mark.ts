/** A mark as it is compared: capitals, no spaces or hyphens. @example bareMark('uk 000123-402086') // → 'UK000123402086' */
export function bareMark(mark: string): string {
  return mark.replaceAll(/[\s-]/g, '').toUpperCase();
}
