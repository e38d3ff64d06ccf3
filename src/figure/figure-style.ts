import { palette, type Scheme } from './palette.js';

/**
 * The style sheet of all figures: the palette as custom properties (`--ink`, `--horn` …) by day, by night and on
 * paper, and one rule a mark. To stand once on the page, before its own rules, which may use the same properties.
 */
export function figureStyle(): string {
  return [
    `:root{${properties('light')}}`,
    `@media screen and (prefers-color-scheme:dark){:root{${properties('dark')}}}`,
    `@media print{:root{${properties('print')}}}`,
    '.figure-scroll{overflow-x:auto}',
    '.fig{display:block}',
    '.fig text{text-anchor:middle}',
    '.fig .start{text-anchor:start}',
    '.fig .end{text-anchor:end}',
    ...Object.entries(palette().marks).map(([mark, look]) => `.fig .${mark}{${declarations(look)}}`),
    '@media print{.figure-scroll{overflow:visible}.fig{max-width:100%;height:auto;print-color-adjust:exact;-webkit-print-color-adjust:exact}}',
  ].join('\n');
}

function properties(scheme: Scheme): string {
  return Object.entries(palette().colours)
    .map(([role, colour]) => `--${role}:${colour[scheme]}`)
    .join(';');
}

function declarations(look: Readonly<Record<string, string | number>>): string {
  return Object.entries(look)
    .map(([name, value]) => {
      const colour = (name === 'fill' || name === 'stroke') && value !== 'none';
      return `${name}:${colour ? `var(--${value})` : name === 'font-size' ? `${value}px` : value}`;
    })
    .join(';');
}
