import { readFileSync } from 'node:fs';
import type { Language, Paper } from '../record/words.js';
import type { Fact } from './page-parts.js';
import { fileURLToPath } from 'node:url';
import nunjucks from 'nunjucks';
import { signsShown } from '../record/signs.js';
import { untold } from '../reference/words.js';

const folder = new URL('../../layouts/css/', import.meta.url);
const faces = new URL('../../shared/face/', import.meta.url);

/** Sheets of `layouts/css/`, one after the other: of two rules as strong as each other the later holds. */
export function layoutCss(...names: readonly string[]): string {
  return names.map((name) => readFileSync(new URL(name, folder), 'utf8')).join('\n');
}

let faceRules: string | undefined;

/**
 * The sheets of a page that is looked at or printed, its face and type first.
 *
 * The face is in the page itself, so lines break where they broke in the tests, whatever fonts a machine has.
 *
 * Checked: tests/face/face.test.ts, tests/browser/same-sides.test.ts
 */
export function pageCss(...names: readonly string[]): string {
  faceRules ??= `${faceRule(400, 'regular')}\n${faceRule(700, 'bold')}`;
  return `${faceRules}\n${layoutCss('type.css', ...names)}`;
}

function faceRule(weight: number, cut: string): string {
  const bytes = readFileSync(new URL(`${cut}.woff2`, faces)).toString('base64');
  return `@font-face{font-family:'Growdown Sans';font-weight:${weight};src:url(data:font/woff2;base64,${bytes})}`;
}

/** What every page of finished data has, whatever is on it. */
export interface PageBasis {
  readonly language: Language;
  readonly paper: Paper;
  /** The document's title. */
  readonly title: string;
  /** Said to who jumps over the head by keyboard. */
  readonly skip: string;
}

/** A page whose margins name it on each printed sheet. */
export interface PrintedPage extends PageBasis {
  /** What it is and of which day, in the margin of every printed sheet. */
  readonly running: string;
  /** Before the page number, where a browser prints one. */
  readonly pageWord: string;
}

/** A printed page that begins with what it is, who made it, and what it is based on. */
export interface CoveredPage extends PrintedPage {
  readonly kicker: string;
  readonly heading: string;
  readonly by: string;
  readonly facts: readonly Fact[];
}

let environment: nunjucks.Environment | undefined;

/** One template of `layouts/parts/` with finished data: for a page that is no book, and so needs no engine around it. */
export function renderTemplate(name: string, data: object): string {
  environment ??= new nunjucks.Environment(
    new nunjucks.FileSystemLoader(fileURLToPath(new URL('../../layouts/parts/', import.meta.url))),
    { autoescape: true, throwOnUndefined: true, trimBlocks: true, lstripBlocks: true },
  );
  return marksShown(environment.render(name, data));
}

const unseen = /<!--[\s\S]*?-->|<(title|style|script|svg|textarea|option)\b[\s\S]*?<\/\1>|<[^>]*>/;
const beforeUnit = / (?<=\d )(?=(?:mm|cm|m|km|kg|g|ha|ml|l|°C)(?![A-Za-z\d]))/;
const markOrUnseen = new RegExp(
  `${unseen.source}|${beforeUnit.source}|\\u2068([^<\\u2068\\u2069]*)\\u2069|[\\u2068\\u2069]`,
  'g',
);

/**
 * Finished HTML with each marked text of a record (`told`) in `<bdi>`; where no element may appear, in tags, titles,
 * styles, scripts, fields and drawings, the marks are taken out. No line ends between a number and its unit. Signs no
 * record may hold are shown by their number.
 *
 * Checked: tests/book/render-book.test.ts
 */
export function marksShown(html: string): string {
  const marked = html.replaceAll(markOrUnseen, (all, _, text?: string) =>
    all === ' ' ? '\u00a0' : text === undefined ? untold(all) : `<bdi>${text}</bdi>`,
  );
  return signsShown(marked);
}
