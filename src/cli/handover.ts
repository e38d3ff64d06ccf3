import { join } from 'node:path';
import { composeHandover } from '../handover/compose-handover.js';
import { handoverLimits } from '../handover/handover-limits.js';
import type { MadePicture } from '../handover/handover-page.js';
import { latestPictures, type LatestPicture } from '../handover/lesion-pictures.js';
import { renderHandover } from '../handover/render-handover.js';
import { draftMessage, type MailMessage } from '../post/draft-message.js';
import type { FarmRecord } from '../record/practice.js';
import { workOutCase } from '../schedule/work-out-case.js';
import { terminal } from '../problem/message.js';
import { given } from '../record/given.js';
import { type CommonOptions, type ExitCode, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { readOneCase } from '../run/find-case.js';
import { preparePicture } from '../picture/prepare-picture.js';
import { readPicture } from '../run/read-cases.js';
import type { DataTable, Fact } from '../book/page-parts.js';
import type { HandoverPage } from '../handover/page-of-handover.js';
import { mailboxOf } from '../post/mailbox.js';
import { type MailLine, type MailSummary, summaryHtml, summaryText } from '../post/mail-summary.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { type Words, wordsOf } from '../reference/words.js';

export type HandoverOptions = CommonOptions & { out: string; ask?: string; mail?: true };

/**
 * Writes the handover of one animal to the veterinary surgeon: one page to print or send, and with `--mail` a draft of a
 * mail to the vet that carries it. Nothing is sent, and nothing is written into the record.
 */
export async function handover(named: string, options: HandoverOptions, effects: Effects): Promise<ExitCode> {
  const ask = options.ask === undefined ? undefined : readAsk(options.ask);
  const one = readOneCase(named, options, effects);
  if ('ended' in one) return one.ended;
  const { run, farm, record } = one;
  const { known, today } = run;
  const { business } = known;
  const place = { farm: farm.slug, animal: record.slug };
  const prior = known.priors.priorOf(farm.slug, record.slug);
  const work = workOutCase(farm, record, { business, today, prior });
  const latest = latestPictures(record.animal, work.standing.lesions, today);
  const pictures = await handoverPictures(readPicture(effects, options.cases, farm.slug), latest);
  for (const { photo } of latest)
    if (!pictures.has(photo.file))
      run.warn(terminal('handover.no-picture', { ...place, picture: photo.file }));
  const page = composeHandover({ business, farm, work, today, ask, pictures });
  const html = renderHandover(page);
  const name = join(farm.slug, `${record.slug}-handover`);
  const file = run.write(`${name}.html`, html);
  run.say(terminal('page.written', { file, farm: farm.farm.farm, animal: record.animal.animal }));
  let draft: string | undefined;
  if (options.mail) {
    const mail = { business, farm, today, name: `${record.slug}-handover.html`, html };
    const { message, warnings } = handoverMessage(page, mail);
    draft = run.write(`${name}.eml`, (await draftMessage(message)).bytes);
    for (const warning of warnings) run.warn(`${place.farm}/${place.animal}: ${warning}`);
    run.say(terminal('handover.draft-written', { file: draft }));
  }
  run.say(`  ${page.leftOut}`);
  return run.end({ ...place, file, ...given({ draft }), leftOut: page.leftOut });
}

/** A question must appear whole on the page, since it is nowhere else. */
function readAsk(ask: string): string {
  const line = ask.trim().replaceAll(/\s+/g, ' ');
  const { askCharacters: most } = handoverLimits;
  const count = [...line].length;
  if (count === 0) throw new WrongUse(terminal('handover.ask-empty'));
  if (count > most) throw new WrongUse(terminal('handover.ask-long', { found: count, most }));
  return line;
}

/** Those of the pictures that can be made ready for a page, by the name the record writes; nothing is kept but the pixels. */
async function handoverPictures(
  read: (file: string) => Uint8Array | undefined,
  latest: readonly LatestPicture[],
): Promise<ReadonlyMap<string, MadePicture>> {
  const size = { longestPx: handoverLimits.picturePx, quality: handoverLimits.pictureQuality };
  const made = new Map<string, MadePicture>();
  for (const { photo } of latest) {
    const bytes = read(photo.file);
    const ready = bytes && (await preparePicture(bytes, size));
    if (ready?.kind !== 'made') continue;
    const { jpeg, widthPx, heightPx } = ready;
    made.set(photo.file, { base64: Buffer.from(jpeg).toString('base64'), widthPx, heightPx });
  }
  return made;
}

interface HandoverDraft {
  readonly business: Business;
  readonly farm: FarmRecord;
  readonly today: CalendarDay;
  /** Of the attached page. */
  readonly name: string;
  readonly html: string;
}

/**
 * A handover as a draft of a mail to the farm's vet: what is on the page as text on its own, and the page itself.
 * Without an address the draft has none, and says so.
 */
export function handoverMessage(
  page: HandoverPage,
  { business, farm, today, name, html }: HandoverDraft,
): { readonly message: MailMessage; readonly warnings: readonly string[] } {
  const { vet } = farm.farm;
  const boxOf = (written: string | undefined, called?: string) =>
    written === undefined ? undefined : mailboxOf(written, called);
  const to = boxOf(vet?.email, vet?.name ?? vet?.practice);
  const summary = summaryOf(page, name, to === undefined);
  const noAddress =
    vet?.email === undefined
      ? terminal('handover.no-address')
      : terminal('handover.bad-address', { found: vet.email });
  return {
    message: {
      to: to ? [to] : [],
      ...given({ from: boxOf(business.email, business.trimmer), replyTo: boxOf(business['reply-to']) }),
      subject: page.title,
      text: summaryText(summary),
      html: summaryHtml(summary),
      attachments: [{ name, type: 'text/html', content: Buffer.from(html) }],
      day: today,
    },
    warnings: to ? [] : [noAddress],
  };
}

/** A visit each, with what was measured, walked and done; what was not is not listed. */
function historyLines(words: Words, { columns, rows }: DataTable): MailLine[] {
  const none = words.say('handover.history.not-seen');
  return rows.map(({ cells: [day, ...rest] }) =>
    about(
      words,
      day?.text ?? '',
      ...rest.map(
        ({ text, note }, at) =>
          text !== none && `${columns[at + 1]?.head}: ${note === undefined ? text : `${text} (${note})`}`,
      ),
    ),
  );
}

function about(words: Words, name: string, ...said: (string | undefined | false)[]): MailLine {
  return { lead: words.say('cow.named', { name }), text: words.semicolons(said) };
}

function summaryOf(page: HandoverPage, attached: string, noTo: boolean): MailSummary {
  const words = wordsOf(page.language);
  const facts = (list: readonly Fact[]) => list.map(({ label, value }) => about(words, label, value));
  const ofBox = ({ heading, items }: HandoverPage['why']) => ({ heading, lines: items });
  const { table, nothing, heading } = page.treatments;
  const side = (at: number, ...said: (string | undefined)[]) =>
    `${table?.columns[at]?.head}: ${words.semicolons(said)}`;
  return {
    language: page.language,
    subject: page.title,
    heading: page.title,
    lead: noTo ? [words.say('handover.mail.no-to')] : [],
    sections: [
      {
        heading: page.kicker,
        lines: [
          { text: page.identity },
          ...(page.handling === undefined ? [] : [{ text: page.handling }]),
          ...facts(page.parties),
        ],
      },
      ofBox(page.why),
      ofBox(page.asks),
      ofBox(page.lesions),
      ...(page.history
        ? [{ heading: page.history.heading, lines: historyLines(words, page.history.table) }]
        : []),
      { heading: page.state.heading, lines: facts([...page.state.walks, ...page.state.facts]) },
      {
        heading,
        lines: table
          ? table.rows.map(({ cells: [day, product, by, milk, meat] }) =>
              about(
                words,
                `${day?.text}: ${product?.text}`,
                product?.note,
                side(2, by?.text, by?.note),
                side(3, milk?.text),
                side(4, meat?.text),
              ),
            )
          : [{ text: nothing ?? '' }],
      },
    ],
    foot: [words.say('handover.mail.attached', { name: attached }), page.reply.mail, page.leftOut, page.foot],
  };
}
