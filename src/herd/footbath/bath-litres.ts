/**
 * What a bath holds, filled to a depth.
 *
 * Unit:    cm → litres
 * Checked: tests/herd/footbath.test.ts
 * @example bathLitres({ lengthCm: 300, widthCm: 50, depthCm: 12 }) // → 180
 */
export function bathLitres({
  lengthCm,
  widthCm,
  depthCm,
}: {
  readonly lengthCm: number;
  readonly widthCm: number;
  readonly depthCm: number;
}): number {
  return (lengthCm * widthCm * depthCm) / 1000;
}
