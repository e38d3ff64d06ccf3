import { pageStyle } from '../book/book-style.js';
import { renderPage } from '../book/render-page.js';
import type { OverviewPage } from './compose-overview.js';

/** The overview's page data as one self-contained HTML file: no script, no request. */
export function renderOverview(page: OverviewPage): string {
  return renderPage('overview.njk', page, pageStyle(page, 'overview.css'));
}
