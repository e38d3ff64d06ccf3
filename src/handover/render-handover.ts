import { pageCss } from '../book/layout-css.js';
import { renderPage } from '../book/render-page.js';
import { figureStyle } from '../figure/figure.js';
import type { Paper } from '../record/words.js';
import { handoverLimits } from './handover-limits.js';
import type { HandoverPage } from './handover-page.js';

/** A handover's page data as one self-contained HTML file, with no script and no request. */
export function renderHandover(page: HandoverPage): string {
  const style = [
    figureStyle(),
    pageCss('page.css', 'handover.css', 'handover-print.css'),
    columnRule(),
    printRule(page.paper),
  ].join('\n');
  return renderPage('handover.njk', page, style);
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

/** One sheet: type, pictures and height as the sum of what fits takes them. */
function printRule(paper: Paper): string {
  const { type, pictureMm } = handoverLimits;
  const { heightMm } = handoverLimits.paper[paper];
  return (
    `@page{size:${paper};margin:11mm}` +
    `@media print{.head h1{font-size:${type.headingPt}pt}main{min-height:${heightMm}mm}body,dl,.identity,.handling{font-size:${type.textPt}pt;line-height:${type.lineHeight}}` +
    `table,caption,th,td,.note,figcaption,.foot,.left-out,.how{font-size:${type.tablePt}pt;line-height:${type.lineHeight}}` +
    `.shots img{max-width:${pictureMm}mm;max-height:${pictureMm}mm}.shots figure{width:${pictureMm}mm}}`
  );
}
