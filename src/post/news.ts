import { canonicalText, sha256Of } from '../ledger/canonical.js';
import type { MailSummary } from './mail-summary.js';

/**
 * The hash of what a summary tells: two with the same hash say the same, and the later is no news.
 *
 * The day it is written on is left out, or every day would be news; so are who writes and how to answer. Something that
 * has become overdue since is told of in other words, and so is news. What is attached is not asked after: a book names
 * its day on every page.
 */
export function newsHash({ sections }: MailSummary): string {
  return sha256Of(canonicalText({ sections }));
}
