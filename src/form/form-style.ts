import { contentPolicy } from '../book/book-style.js';
import { pageCss } from '../book/layout-css.js';
import { palette } from '../figure/figure.js';

let made: string | undefined;

/** The one style element of every form: the book's colours and type, then what a form needs. */
export function formStyle(): string {
  return (made ??= [
    `:root{${colours('light')}}`,
    `@media (prefers-color-scheme:dark){:root{${colours('dark')}}}`,
    pageCss('yard.css'),
  ].join('\n'));
}

function colours(scheme: 'light' | 'dark'): string {
  return Object.entries(palette().colours)
    .map(([role, colour]) => `--${role}:${colour[scheme]}`)
    .join(';');
}

/** No script, no request but the form's own, no frame around it; the style is named by its hash. */
export function formPolicy(): string {
  return contentPolicy(formStyle(), "form-action 'self'; frame-ancestors 'none'");
}
