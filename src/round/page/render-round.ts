import { pageStyle } from '../../book/book-style.js';
import { renderPage } from '../../book/render-page.js';
import type { RoundPage } from './round-page.js';

/** The round's page data as one self-contained HTML file: no script, no request. */
export function renderRound(page: RoundPage): string {
  return renderPage('round.njk', page, pageStyle(page, 'round.css'));
}
