import { contentPolicy, pageStyle } from '../book/book-style.js';
import { renderTemplate } from '../book/render-template.js';
import type { OverviewPage } from './overview-page.js';

/** The overview's page data as one self-contained HTML file: no script, no request. */
export function renderOverview(page: OverviewPage): string {
  const style = pageStyle(page, 'overview.css');
  return renderTemplate('overview.njk', { it: page, style, policy: contentPolicy(style) });
}
