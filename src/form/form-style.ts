import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { palette } from '../figure/palette.js';

let made: string | undefined;

/** The one style element of every form: the book's colours and type, then what a form needs. */
export function formStyle(): string {
  return (made ??= [
    `:root{${colours('light')}}`,
    `@media (prefers-color-scheme:dark){:root{${colours('dark')}}}`,
    ...['type.css', 'yard.css'].map((name) =>
      readFileSync(new URL(`../../layouts/css/${name}`, import.meta.url), 'utf8'),
    ),
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
