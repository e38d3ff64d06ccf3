/** A share or a ratio as whole per cent. @example percent(0.803) // → 80 */
export function percent(share: number): number {
  return Math.round(100 * share);
}
