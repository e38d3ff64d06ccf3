import { createHash } from 'node:crypto';
import { layoutCss } from '../book/layout-css.js';
import { palette } from '../figure/palette.js';

let made: string | undefined;

/** The one style element of every form: the book's colours and type, then what a form needs. */
export function formStyle(): string {
  return (made ??= [
    `:root{${colours('light')}}`,
    `@media (prefers-color-scheme:dark){:root{${colours('dark')}}}`,
    layoutCss('type.css', 'yard.css'),
  ].join('\n'));
}

function colours(scheme: 'light' | 'dark'): string {
  return Object.entries(palette().colours)
    .map(([role, colour]) => `--${role}:${colour[scheme]}`)
    .join(';');
}

/** No script, no request but the form's own, no frame around it; the style is named by its hash. */
export function formPolicy(): string {
  const hash = createHash('sha256').update(formStyle()).digest('base64');
  return `default-src 'none'; style-src 'sha256-${hash}'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'`;
}
