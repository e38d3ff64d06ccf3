/** Fills that read without colour. `open`: dense slanting lines. `expected`: thin and wide apart. `covered`: beads of horn. */
export type Hatch = 'open' | 'expected' | 'covered';

/** The definition of a fill and the value that uses it; ids begin with the drawing's own. */
export function hatch(id: string, kind: Hatch): { readonly def: string; readonly fill: string } {
  const name = `${id}-${kind[0]}`;
  const [size, turn, ground, mark] = fills[kind];
  return {
    def:
      `<pattern id="${name}" patternUnits="userSpaceOnUse" width="${size}" height="${size}"` +
      `${turn ? ` patternTransform="rotate(${turn})"` : ''}>` +
      `${ground && `<path class="${ground}" d="M0 0H${size}V${size}H0z"/>`}${mark}</pattern>`,
    fill: `url(#${name})`,
  };
}

const fills: Readonly<Record<Hatch, readonly [size: number, turn: number, ground: string, mark: string]>> = {
  open: [7, 45, 'ground', '<path class="hatch" d="M3 0V7"/>'],
  expected: [9, 45, '', '<path class="faint" d="M4 0V9"/>'],
  covered: [7, 0, 'plate', '<path class="bead" d="M2 2h3v3H2z"/>'],
};
