import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import nunjucks from 'nunjucks';
import { contentPolicy } from '../book/book-style.js';
import type { MailSummary } from './mail-summary.js';

const layouts = new URL('../../layouts/', import.meta.url);

/** A summary as the HTML part of a message: no script, no picture, nothing asked for from outside, every text escaped. */
export function summaryHtml(summary: MailSummary): string {
  const style = readFileSync(new URL('css/mail.css', layouts), 'utf8');
  const environment = new nunjucks.Environment(
    new nunjucks.FileSystemLoader(fileURLToPath(new URL('parts/', layouts))),
    { autoescape: true, throwOnUndefined: true, trimBlocks: true, lstripBlocks: true },
  );
  return environment.render('mail.njk', { it: summary, style, policy: contentPolicy(style) });
}
