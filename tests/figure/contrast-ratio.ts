/**
 * Contrast of two colours, 1 to 21.
 *
 * Shape:   two `#rrggbb` → ratio, the same either way round
 * Source:  WCAG 2.2, definitions of relative luminance and contrast ratio (W3C)
 * @example contrastRatio('#000000', '#ffffff') // → 21
 */
export function contrastRatio(one: string, other: string): number {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
