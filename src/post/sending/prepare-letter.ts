import { type Head, shortHead } from '../../ledger/read-ledger.js';
import { composeSummary } from '../compose-summary.js';
import { draftMessage, type MailMessage, type Attachment } from '../draft-message.js';
import type { Mailbox } from '../mailbox.js';
import type { FarmRecord } from '../../record/practice.js';
import type { StaffLanguage } from '../../record/words.js';
import { mailNumbers } from '../../reference/numbers.js';
import { workOutFarm } from '../../schedule/work-out-case.js';
import { type Values, wordsOf } from '../../reference/words.js';
import { farmCalendar } from '../../round/calendar/farm-calendar.js';
import { NoLetter, type PostRun, type PostOptions, type FarmToTell } from './post-run.js';
import { countSheets, datedOn, PrintingTrouble } from '../../pdf/open-printer.js';
import { bookWithin } from '../../book/book-within.js';
import { isPictureThere, readPicture } from '../../run/read-cases.js';
import { pictureWarnings } from '../../book/pictures-said.js';
import { printingTroubleInWords } from '../../pdf/find-browser.js';
import { canonicalText, sha256Of } from '../../ledger/canonical.js';
import { type MailSummary, summaryHtml, summaryText } from '../mail-summary.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';
import { staffPages } from '../staff-page.js';
import { terminal } from '../../problem/message.js';

export interface LetterReady {
  readonly message: MailMessage;
  /** The hash of what it tells. */
  readonly content: string;
  /** How large it is as it travels. */
  readonly bytes: number;
  /** How far the ledger goes that the letter describes. */
  readonly head: Head | undefined;
  readonly warnings: readonly string[];
  /** Writes down which calendar entries the farm has been informed of. To be called once the letter is written or sent. */
  readonly remember: () => void;
}

/** What a farm would be told, without the work of a book: enough to see whether it is news. */
export function toldTo({ practice, today, pooled }: PostRun, farm: FarmRecord) {
  const summary = composeSummary(practice, farm, today, pooled);
  return { summary, content: newsHash(summary) };
}

/**
 * A farm's letter, whole: the summary, the book as the farm wishes it, the calendar.
 *
 * Error: NoLetter where it cannot be made, or is larger than asked
 */
export async function prepareLetter(
  run: PostRun,
  { farm, seals }: FarmToTell,
  to: readonly [Mailbox, ...Mailbox[]],
): Promise<LetterReady> {
  const { practice, today, pooled, options, effects } = run;
  const maxMb = options.maxMb ?? mailNumbers.messageMb.value;
  const { summary, content } = toldTo(run, farm);
  const { business } = practice;
  const { head } = seals;
  const cases = workOutFarm(farm, { business, today, priors: pooled.priors });
  const calendar = farmCalendar({ record: farm, business, cases }, options.cases, today, effects);
  if (calendar.outcome === 'damaged') throw new NoLetter('calendar-damaged', calendar.message);
  const witness = head && wordsOf(summary.language).say('mail.witness', { count: head.entries, head: shortHead(head) }); // prettier-ignore
  const { attached, warnings } = await attachBook(run, { farm, seals }, maxMb);
  const message = composeMessage({
    summary,
    ...given({ from: run.from, replyTo: run.replyTo }),
    to,
    attached: [
      ...attached,
      ...staffPages(practice, farm, today, pooled).map(({ language, name, html }): Attached => ({
        kind: 'staff',
        of: language,
        file: { name: `${name}-${today}.html`, type: 'text/html', content: Buffer.from(html) },
      })),
      {
        kind: 'calendar',
        file: { name: `${farm.slug}.ics`, type: 'text/calendar', content: Buffer.from(calendar.ics) },
      },
    ],
    ...given({ witness }),
    day: today,
  });
  const bytes = (await draftMessage(message)).bytes.length;
  if (bytes > maxMb * 1e6)
    throw new NoLetter('too-large', tooLarge(options, farm, message.attachments, { bytes, maxMb }));
  return { message, content, bytes, head, warnings, remember: calendar.remember };
}

/** How large it is, what of it is large, and every way out that is open here. */
export function tooLarge(
  options: Pick<PostOptions, 'attach' | 'openOnly'>,
  { slug, farm }: Pick<FarmRecord, 'slug' | 'farm'>,
  attachments: readonly Attachment[],
  { bytes, maxMb }: { readonly bytes: number; readonly maxMb: number },
): string {
  const mb = (size: number) => terminal('mail.megabytes', { mb: (size / 1e6).toFixed(1) });
  const most = mailNumbers.mostMb.value;
  const both = (options.attach ?? farm.send) === 'both';
  const ways = [
    ...(both ? [terminal('mail.large.once')] : []),
    ...(options.openOnly ? [] : [terminal('mail.large.open-only')]),
    ...(bytes <= most * 1e6 ? [terminal('mail.large.max-mb', { mb: Math.ceil(bytes / 1e6) })] : []),
    terminal('mail.large.another-way', { farm: slug }),
  ];
  const parts = attachments.map(({ name, content }) => `${name} ${mb(content.length)}`).join(', ');
  const said = terminal('mail.large.too-large', { size: mb(bytes), maxMb, parts });
  return [said, ...ways.map((way) => `  ${way}`)].join('\n');
}

/**
 * The farm's book as it is to travel: as HTML, as PDF printed from that very HTML, or both, small enough for the message.
 * A farm that has both sent gets the HTML alone, with a warning, where no browser prints.
 *
 * Error:   NoLetter where only a PDF is wanted, or one was asked for now, and no browser prints
 * Checked: tests/post/sending/draft.test.ts
 */
async function attachBook(run: PostRun, { farm, seals }: FarmToTell, maxMb: number) {
  const { practice, today, pooled, options, effects } = run;
  // What was asked for now, else what the farm wishes, else HTML, which needs no browser here.
  const form = options.attach ?? farm.farm.send ?? 'html';
  const share = hundredths((maxMb * mailNumbers.bookShare.value) / (form === 'both' ? 2 : 1));
  const book = await bookWithin(
    practice,
    farm,
    today,
    {
      pooled,
      openOnly: options.openOnly === true,
      seals,
      isPictureThere: isPictureThere(effects, options.cases, farm.slug),
    },
    { maxMb: share, read: readPicture(effects, options.cases, farm.slug) },
  );
  const name = `${farm.slug}-${today}`;
  const html: Attached = {
    kind: 'html',
    file: { name: `${name}.html`, type: 'text/html', content: Buffer.from(book.html) },
  };
  // How large the book is alone does not matter here: the message is measured whole.
  const warnings = pictureWarnings(farm.slug, { ...book, bytes: 0 });
  if (form === 'html') return { attached: [html], warnings };
  const sheets = await printed(run, book.html).catch((error: unknown) => {
    if (!(error instanceof NoLetter)) throw error;
    if (form === 'pdf' || options.attach)
      throw new NoLetter(error.why, `${error.message}\n${terminal('mail.without-pdf')}`);
    warnings.push(`${terminal('mail.html-alone', { farm: farm.slug, why: error.message })}\n`);
    return undefined;
  });
  if (!sheets) return { attached: [html], warnings };
  const pdf: Attached = {
    kind: 'pdf',
    pages: countSheets(sheets),
    file: { name: `${name}.pdf`, type: 'application/pdf', content: sheets },
  };
  return { attached: form === 'both' ? [html, pdf] : [pdf], warnings };
}

/** A book says its limit where a picture had to be left out. */
function hundredths(mb: number): number {
  return Math.round(mb * 100) / 100;
}

async function printed({ printer, today }: PostRun, html: string): Promise<Uint8Array> {
  try {
    return datedOn(await (await printer()).print(html), today);
  } catch (error) {
    if (!(error instanceof PrintingTrouble)) throw error;
    throw new NoLetter('no-browser', printingTroubleInWords(error));
  }
}

/**
 * The hash of what a summary tells: two with the same hash say the same, and the later is no news.
 *
 * The day it is written on is left out, or every day would be news; so are who writes and how to answer. Something that
 * has become overdue since is worded differently, and so is news. What is attached is not considered: a book names
 * its day on every page.
 */
export function newsHash({ sections }: MailSummary): string {
  return sha256Of(canonicalText({ sections }));
}

/** Something attached, with what the letter says of it. */
interface Attached {
  readonly kind: 'html' | 'pdf' | 'calendar' | 'staff';
  /** Of a list for the staff. */
  readonly of?: StaffLanguage;
  /** Of a PDF. */
  readonly pages?: number;
  readonly file: Attachment;
}

interface Letter {
  readonly summary: MailSummary;
  readonly from?: Mailbox;
  readonly to: readonly [Mailbox, ...Mailbox[]];
  readonly replyTo?: Mailbox;
  readonly attached: readonly Attached[];
  /** The last line: how far the farm's ledger goes, so that their mail box is an outside witness. */
  readonly witness?: string;
  readonly day: CalendarDay;
}

/** A farm's summary with its attachments as one message: what is attached is said in it, once as text and once as HTML. */
export function composeMessage({ summary, attached, witness, day, ...whose }: Letter): MailMessage {
  const words = wordsOf(summary.language);
  const whole: MailSummary = {
    ...summary,
    foot: [
      ...summary.foot,
      words.say('mail.attached.line', {
        list: words.semicolons(
          attached.map(({ kind, pages, of }) =>
            words.say(
              `mail.attached.${kind}`,
              given({ count: pages, language: of && words.say(`vocabulary.staff-language.${of}`) }) as Values,
            ),
          ),
        ),
      }),
      ...(witness === undefined ? [] : [witness]),
    ],
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
