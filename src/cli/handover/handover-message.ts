import type { DataTable } from '../../book/page-parts.js';
import type { HandoverPage } from '../../handover/handover-page.js';
import type { Message } from '../../post/draft-message.js';
import { mailboxOf } from '../../post/mailbox.js';
import type { MailEntry, MailSummary } from '../../post/mail-summary.js';
import { summaryHtml } from '../../post/summary-html.js';
import { summaryText } from '../../post/summary-text.js';
import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { FarmRecord } from '../../record/practice.js';
import { type Words, wordsOf } from '../../words/words.js';

/** What a draft of a handover is made with, besides its page. */
export interface HandoverDraft {
  readonly business: Business;
  readonly farm: FarmRecord;
  readonly today: CalendarDay;
  /** Of the attached page. */
  readonly name: string;
  readonly html: string;
}

/**
 * A handover as a draft of a mail to the farm's vet: what is on the page as text that stands alone, and the page itself.
 * Without an address the draft has none, and says so.
 */
export function handoverMessage(
  page: HandoverPage,
  { business, farm, today, name, html }: HandoverDraft,
): { readonly message: Message; readonly warnings: readonly string[] } {
  const { vet } = farm.farm;
  const to = vet?.email === undefined ? undefined : mailboxOf(vet.email, vet.name ?? vet.practice);
  const from = business.email === undefined ? undefined : mailboxOf(business.email, business.trimmer);
  const replyTo = business['reply-to'] === undefined ? undefined : mailboxOf(business['reply-to']);
  const summary = summaryOf(page, name, to === undefined);
  return {
    message: {
      to: to ? [to] : [],
      ...(from ? { from } : {}),
      ...(replyTo ? { replyTo } : {}),
      subject: page.title,
      text: summaryText(summary),
      html: summaryHtml(summary),
      attachments: [{ name, type: 'text/html', content: Buffer.from(html) }],
      day: today,
    },
    warnings: to ? [] : [noAddress(vet?.email)],
  };
}

function noAddress(written: string | undefined): string {
  return written === undefined
    ? 'the draft has no address: farm.md has no `vet.email`; write it there, or put it into the draft'
    : `the draft has no address: \`vet.email\` of farm.md is \`${written}\`, expected one address and nothing more; correct it, or put it into the draft`;
}

function entry(title: string, ...lines: string[]): MailEntry {
  return { title, lines };
}

/** A visit each, with what was measured, walked and done; what was not is not listed. */
function historyEntries(words: Words, { columns, rows }: DataTable): MailEntry[] {
  const none = words.say('handover.history.not-seen');
  return rows.map(({ cells }) => {
    const [day, ...rest] = cells;
    const lines = rest.flatMap(({ text, note }, at) =>
      text === none ? [] : [`${columns[at + 1]?.head}: ${note === undefined ? text : `${text} (${note})`}`],
    );
    return entry(day?.text ?? '', ...lines);
  });
}

function summaryOf(page: HandoverPage, attached: string, noTo: boolean): MailSummary {
  const words = wordsOf(page.language);
  const section = (heading: string, entries: readonly MailEntry[]) => ({
    heading,
    lead: [],
    groups: [{ entries }],
  });
  const ofBox = ({ heading, items }: HandoverPage['why']) =>
    section(
      heading,
      items.map(({ lead, text }) => (lead === undefined ? entry(text) : entry(lead, text))),
    );
  const { table, nothing, heading } = page.treatments;
  return {
    language: page.language,
    subject: page.title,
    heading: page.title,
    lead: noTo ? [words.say('handover.mail.no-to')] : [],
    sections: [
      section(page.kicker, [
        entry(page.identity),
        ...(page.handling === undefined ? [] : [entry(page.handling)]),
        ...page.parties.map(({ label, value }) => entry(`${label}: ${value}`)),
      ]),
      ofBox(page.why),
      ofBox(page.asks),
      ofBox(page.lesions),
      ...(page.history ? [section(page.history.heading, historyEntries(words, page.history.table))] : []),
      section(
        page.state.heading,
        page.state.facts.map(({ label, value }) => entry(`${label}: ${value}`)),
      ),
      section(
        heading,
        table
          ? table.rows.map(({ cells }) => {
              const [day, product, by, milk, meat] = cells;
              const side = (at: number, text: string | undefined) =>
                `${table.columns[at]?.head}: ${text ?? ''}`;
              return entry(
                `${day?.text}: ${product?.text}`,
                ...(product?.note ? [product.note] : []),
                side(2, [by?.text, by?.note].filter(Boolean).join('; ')),
                side(3, milk?.text),
                side(4, meat?.text),
              );
            })
          : [entry(nothing ?? '')],
      ),
    ],
    quiet: false,
    foot: [words.say('handover.mail.attached', { name: attached }), page.reply.mail, page.leftOut, page.foot],
  };
}
