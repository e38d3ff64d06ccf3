import type { CalendarDay } from '../record/calendar-day.js';
import { wordsOf } from '../words/words.js';
import type { Attachment, Message } from './draft-message.js';
import type { Mailbox } from './mailbox.js';
import type { MailSummary } from './mail-summary.js';
import { summaryHtml } from './summary-html.js';
import { summaryText } from './summary-text.js';
import { given } from '../record/given.js';

/** Something attached, with what the letter says of it. */
export interface Attached {
  readonly kind: 'html' | 'pdf' | 'calendar';
  /** Of a PDF. */
  readonly pages?: number;
  readonly file: Attachment;
}

export interface Letter {
  readonly summary: MailSummary;
  readonly from?: Mailbox;
  readonly to: readonly [Mailbox, ...Mailbox[]];
  readonly replyTo?: Mailbox;
  readonly attached: readonly Attached[];
  /** The last line: how far the farm's ledger goes, so that their mail box is an outside witness. */
  readonly witness?: string;
  readonly day: CalendarDay;
}

/** A farm's summary with its attachments as one message: what is attached is named in it, and the same is said twice. */
export function composeMessage({ summary, attached, witness, day, ...whose }: Letter): Message {
  const words = wordsOf(summary.language);
  const whole: MailSummary = {
    ...summary,
    sections: [
      ...summary.sections,
      {
        heading: words.say('mail.attached.heading'),
        lead: [],
        groups: [
          {
            entries: attached.map(({ kind, pages, file: { name } }) => ({
              title: words.say(`mail.attached.${kind}`, {
                name,
                ...given({ count: pages }),
              }),
              lines: [],
            })),
          },
        ],
      },
    ],
    foot: [...summary.foot, ...(witness === undefined ? [] : [witness])],
  };
  return {
    ...whose,
    subject: summary.subject,
    text: summaryText(whole),
    html: summaryHtml(whole),
    attachments: attached.map(({ file }) => file),
    day,
  };
}
