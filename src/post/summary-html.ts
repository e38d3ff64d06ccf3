import { readFileSync } from 'node:fs';
import { contentPolicy } from '../book/book-style.js';
import { renderTemplate } from '../book/render-template.js';
import type { MailSummary } from './mail-summary.js';

const sheet = new URL('../../layouts/css/mail.css', import.meta.url);

/** A summary as the HTML part of a message: no script, no picture, nothing asked for from outside, every text escaped. */
export function summaryHtml(summary: MailSummary): string {
  const style = readFileSync(sheet, 'utf8');
  return renderTemplate('mail.njk', { it: summary, style, policy: contentPolicy(style) });
}
