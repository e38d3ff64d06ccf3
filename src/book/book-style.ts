import { createHash } from 'node:crypto';
import { figureStyle } from '../figure/figure.js';
import { columnShares } from './cow-back.js';
import type { BookPage } from './book-page.js';
import { untold } from '../reference/words.js';
import { marginsMm } from './fit.js';
import { pageCss, type PrintedPage } from './layout-css.js';

/** The one style element of a book: palette and figures first, then type, page and print, then this farm's paper. */
export function bookStyle(book: BookPage): string {
  return [
    figureStyle(),
    pageCss('page.css', 'pictures.css', 'print.css', 'book.css'),
    columnRules(),
    paperRule(book) + sheetsOf(book),
  ].join('\n');
}

/** The columns of a back as wide as they were fitted. */
function columnRules(): string {
  return Object.entries(columnShares)
    .flatMap(([kind, shares]) => {
      const parts = Object.values(shares);
      const whole = parts.reduce((sum, part) => sum + part, 0);
      return parts.map(
        (part, at) =>
          `.every-visit.${kind} col:nth-child(${at + 1}){width:${((100 * part) / whole).toFixed(2)}%}`,
      );
    })
    .join('');
}

/** The style of a page that is no book and looks like one, with a sheet of its own. */
export function pageStyle(page: PrintedPage, ...ownSheets: readonly string[]): string {
  return [figureStyle(), pageCss('page.css', 'print.css', ...ownSheets), paperRule(page)].join('\n');
}

/**
 * The policy that lets a browser do nothing but show this one style and the face in it: no request, no script and no form
 * but what `more` allows. The style is named by its hash, so a style that is not ours is refused too.
 */
export function contentPolicy(style: string, more = "img-src data:; form-action 'none'"): string {
  return `default-src 'none'; font-src data:; style-src '${hashOf(style)}'; base-uri 'none'; ${more}`;
}

/** A style or script as a policy names it. */
export function hashOf(text: string): string {
  return `sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}`;
}

const marginType = 'font:8.5pt Growdown Sans,sans-serif;color:#3d4048';

/** Paper size, and the margin boxes that print farm, day and page number where a browser knows them. */
function paperRule({ paper, running, pageWord }: PrintedPage): string {
  const { above, beside, below } = marginsMm;
  return (
    `@page{size:${paper};margin:${above}mm ${beside}mm ${below}mm;` +
    `@bottom-left{content:${cssText(running)};${marginType}}` +
    `@bottom-right{content:${cssText(`${pageWord} `)} counter(page) " / " counter(pages);${marginType}}}`
  );
}

/**
 * Whose sheet it is, in the margin of both its sides.
 */
function sheetsOf({ cows, alone }: BookPage): string {
  return (alone ? [alone.cow] : cows)
    .map(
      ({ id, running }, index) =>
        `@page of-${index + 1}{@top-right{content:${cssText(running)};${marginType}}}#${id}{page:of-${index + 1}}`,
    )
    .join('');
}

/** A string of CSS that no text can break out of: all but letters, digits and spaces is written by its number. */
function cssText(text: string): string {
  const safe = untold(text).replaceAll(
    /[^\p{L}\p{N} ]/gu,
    (mark) => `\\${mark.codePointAt(0)!.toString(16)} `,
  );
  return `"${safe}"`;
}
