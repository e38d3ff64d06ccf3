import { readFileSync } from 'node:fs';
import { contentPolicy } from '../../book/book-style.js';
import type { Paper } from '../../record/words.js';
import { renderTemplate } from '../../book/render-template.js';
import type { SheetPage } from './sheet-page.js';

const layouts = new URL('../../../layouts/', import.meta.url);

/** A yard sheet's page data as one self-contained HTML file, with no script and no request. */
export function renderSheet(page: SheetPage): string {
  const style = [
    ...['type.css', 'sheet.css'].map((name) => readFileSync(new URL(`css/${name}`, layouts), 'utf8')),
    paperRule(page.paper),
  ].join('\n');
  return renderTemplate('sheet/page.njk', { it: page, style, policy: contentPolicy(style) });
}

/** A page a side: the height is the paper's less its margins and a little, so that no side spills over. */
function paperRule(paper: Paper): string {
  const height = paper === 'A4' ? 280 : 262;
  return `@page{size:${paper};margin:8mm 11mm}@media print{.side{min-height:${height}mm}}`;
}
