import { pageCss } from '../../book/layout-css.js';
import { renderPage } from '../../book/render-page.js';
import type { Paper } from '../../record/words.js';
import type { SheetPage } from './sheet-page.js';

/** A yard sheet's page data as one self-contained HTML file, with no script and no request. */
export function renderSheet(page: SheetPage): string {
  return renderPage('sheet/page.njk', page, `${pageCss('sheet.css')}\n${paperRule(page.paper)}`);
}

/** A page a side: the height is the paper's less its margins and a little, so that no side spills over. */
function paperRule(paper: Paper): string {
  const height = paper === 'A4' ? 280 : 262;
  return `@page{size:${paper};margin:8mm 11mm}@media print{.side{min-height:${height}mm}}`;
}
