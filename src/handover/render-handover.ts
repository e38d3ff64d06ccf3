import { readFileSync } from 'node:fs';
import { contentPolicy } from '../book/book-style.js';
import { renderTemplate } from '../book/render-template.js';
import { figureStyle } from '../figure/figure-style.js';
import type { Paper } from '../record/words.js';
import { handoverLimits } from './handover-limits.js';
import type { HandoverPage } from './handover-page.js';

const layouts = new URL('../../layouts/css/', import.meta.url);

/** A handover's page data as one self-contained HTML file, with no script and no request. */
export function renderHandover(page: HandoverPage): string {
  const style = [
    figureStyle(),
    ...['type.css', 'page.css', 'handover.css'].map((name) => readFileSync(new URL(name, layouts), 'utf8')),
    printRule(page.paper),
  ].join('\n');
  return renderTemplate('handover.njk', { it: page, style, policy: contentPolicy(style) });
}

/** One sheet: type, pictures and height as the sum of what fits takes them. */
function printRule(paper: Paper): string {
  const { type, pictureMm } = handoverLimits;
  const { heightMm } = handoverLimits.paper[paper];
  const margin = paper === 'A4' ? '11mm' : '11mm';
  return (
    `@page{size:${paper};margin:${margin}}` +
    `@media print{.head h1{font-size:${type.headingPt}pt}main{min-height:${heightMm}mm}body,dl,.identity,.handling{font-size:${type.textPt}pt;line-height:${type.lineHeight}}` +
    `table,caption,th,td,.note,figcaption,.foot,.left-out,.how{font-size:${type.tablePt}pt;line-height:${type.lineHeight}}` +
    `.shots img{max-width:${pictureMm}mm;max-height:${pictureMm}mm}.shots figure{width:${pictureMm}mm}}`
  );
}
