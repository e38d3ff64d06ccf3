import { layoutCss } from '../book/layout-css.js';
import { renderPage } from '../book/render-page.js';
import type { MailSummary } from './mail-summary.js';

/** A summary as the HTML part of a message: no script, no picture, nothing asked for from outside, every text escaped. */
export function summaryHtml(summary: MailSummary): string {
  return renderPage('mail.njk', summary, layoutCss('mail.css'));
}
