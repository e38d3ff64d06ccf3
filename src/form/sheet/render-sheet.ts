import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import nunjucks from 'nunjucks';
import { contentPolicy } from '../../book/book-style.js';
import type { Paper } from '../../record/words.js';
import type { SheetPage } from './sheet-page.js';

const layouts = new URL('../../../layouts/', import.meta.url);
let environment: nunjucks.Environment | undefined;

/** A yard sheet's page data as one self-contained HTML file, with no script and no request. */
export function renderSheet(page: SheetPage): string {
  environment ??= new nunjucks.Environment(
    new nunjucks.FileSystemLoader(fileURLToPath(new URL('parts/', layouts))),
    { autoescape: true, throwOnUndefined: true, trimBlocks: true, lstripBlocks: true },
  );
  const style = [
    ...['type.css', 'sheet.css'].map((name) => readFileSync(new URL(`css/${name}`, layouts), 'utf8')),
    paperRule(page.paper),
  ].join('\n');
  return environment.render('sheet/page.njk', { it: page, style, policy: contentPolicy(style) });
}

/** A page a side: the height is the paper's less its margins and a little, so that no side spills over. */
function paperRule(paper: Paper): string {
  const height = paper === 'A4' ? 280 : 262;
  return `@page{size:${paper};margin:8mm 11mm}@media print{.side{min-height:${height}mm}}`;
}
