import { type Head, shortHead } from '../../ledger/head-of.js';
import { composeMessage } from '../../post/compose-message.js';
import { composeSummary } from '../../post/compose-summary.js';
import { draftMessage, type Message } from '../../post/draft-message.js';
import type { Mailbox } from '../../post/mailbox.js';
import { newsHash } from '../../post/news.js';
import type { FarmRecord } from '../../record/practice.js';
import type { Language } from '../../record/words.js';
import { mailNumbers } from '../../reference/mail-numbers.js';
import { workOutFarm } from '../../schedule/work-out-farm.js';
import { wordsOf } from '../../words/words.js';
import { farmCalendar } from '../farm-calendar.js';
import { attachBook } from './attach-book.js';
import { NoLetter, type PostRun } from './post-run.js';
import type { FarmToTell } from './seal-for-mail.js';
import { tooLarge } from './too-large.js';

export interface LetterReady {
  readonly message: Message;
  /** The hash of what it tells. */
  readonly content: string;
  /** How large it is as it travels. */
  readonly bytes: number;
  /** How far the ledger goes that the letter tells of. */
  readonly head: Head | undefined;
  readonly warnings: readonly string[];
  /** Writes down which calendar entries the farm has been told of. To be called once the letter is written or sent. */
  readonly remember: () => void;
}

/** What a farm would be told, without the work of a book: enough to see whether it is news. */
export function toldTo({ practice, today, archive }: PostRun, farm: FarmRecord) {
  const summary = composeSummary(practice, farm, today, archive);
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
  const { practice, today, archive, options, effects } = run;
  const maxMb = options.maxMb ?? mailNumbers.messageMb.value;
  const { summary, content } = toldTo(run, farm);
  const { business } = practice;
  const { head } = seals;
  const cases = workOutFarm(farm, { business, today, priors: archive.priors });
  const calendar = farmCalendar({ record: farm, business, cases }, options.cases, today, effects);
  if (calendar.outcome === 'damaged') throw new NoLetter('calendar-damaged', calendar.message);
  const { attached, warnings } = await attachBook(run, { farm, seals }, maxMb);
  const message = composeMessage({
    summary,
    ...(run.from ? { from: run.from } : {}),
    ...(run.replyTo ? { replyTo: run.replyTo } : {}),
    to,
    attached: [
      ...attached,
      {
        kind: 'calendar',
        file: { name: `${farm.slug}.ics`, type: 'text/calendar', content: Buffer.from(calendar.ics) },
      },
    ],
    ...(head ? { witness: witnessLine(summary.language, head) } : {}),
    day: today,
  });
  const bytes = (await draftMessage(message)).bytes.length;
  if (bytes > maxMb * 1e6)
    throw new NoLetter('too-large', tooLarge(options, farm, message.attachments, { bytes, maxMb }));
  return { message, content, bytes, head, warnings, remember: calendar.remember };
}

function witnessLine(language: Language, head: Head): string {
  return wordsOf(language).say('mail.witness', { count: head.entries, head: shortHead(head) });
}
