import { contentPolicy, pageStyle } from '../../book/book-style.js';
import { renderTemplate } from '../../book/render-template.js';
import type { RoundPage } from './round-page.js';

/** The round's page data as one self-contained HTML file: no script, no request. */
export function renderRound(page: RoundPage): string {
  const style = pageStyle(page, 'round.css');
  return renderTemplate('round.njk', { it: page, style, policy: contentPolicy(style) });
}
