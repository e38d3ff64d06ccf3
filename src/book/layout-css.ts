import { readFileSync } from 'node:fs';

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
 * The face stands in the page itself, so lines break where they broke in the tests, whatever fonts a machine has.
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
