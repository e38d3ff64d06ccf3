import { marginsMm, roomOn } from '../book/fit.js';
import { pageCss } from '../book/layout-css.js';
import { renderPage } from '../book/render-page.js';
import { figureStyle } from '../figure/figure.js';
import { handoverLimits } from './handover-limits.js';
import type { HandoverPage } from './page-of-handover.js';
import { boxesSideBySide } from './room-on-page.js';

/** A handover's page data as one self-contained HTML file, with no script and no request. */
export function renderHandover(page: HandoverPage): string {
  const { above, beside, below } = marginsMm;
  const { pictureMm } = handoverLimits;
  const style = [
    figureStyle(),
    pageCss('page.css', 'book.css', 'handover.css', 'handover-print.css'),
    columnRule(),
    `@page{size:${page.paper};margin:${above}mm ${beside}mm ${below}mm}`,
    `@media print{main{min-height:${roomOn(page.paper).heightMm - 1}mm}.shots figure{width:${pictureMm}mm}.shots img{max-width:${pictureMm}mm;max-height:${pictureMm}mm}}`,
  ].join('\n');
  return renderPage('handover.njk', { ...page, sideBySide: boxesSideBySide(page) }, style);
}

/** How wide the columns of both tables are, on all but a narrow screen, where each row is a list. */
function columnRule(): string {
  const { history, treatments } = handoverLimits.columns;
  const widths = [
    ['.history th:first-child', history.day],
    ['.history th:nth-last-child(3)', history.walkOff],
    ['.history th:nth-last-child(2)', history.walkOn],
    ['.history th:last-child', history.work],
    ...treatments.map((width, at) => [`.treatments th:nth-child(${at + 1})`, width]),
  ];
  const rules = widths.map(([which, width]) => `${which}{width:${width}%}`).join('');
  return `@media print,screen and (min-width:40rem){${rules}}`;
}
