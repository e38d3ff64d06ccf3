import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** The script of axe, to be run in a page before `axeOver`. */
export const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** WCAG 2.2 up to AA, and what axe holds good besides. */
export const allRules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** Runs axe, which must be loaded, over the whole page and gives one line a finding. */
export function axeOver(rules: unknown): string {
  return `axe.run(document, { resultTypes: ['violations'], runOnly: ${JSON.stringify(rules)} })
    .then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes[0].html.slice(0, 200) + ' (' + nodes.length + ')'))`;
}
