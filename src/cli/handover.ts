import { join } from 'node:path';
import { archiveOn } from '../herd/archive-on.js';
import { composeHandover } from '../handover/compose-handover.js';
import { handoverLimits } from '../handover/handover-limits.js';
import { latestPictures, type LatestPicture, type MadePicture } from '../handover/lesion-pictures.js';
import { renderHandover } from '../handover/render-handover.js';
import { draftMessage, type Message } from '../post/draft-message.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import { workOutCase } from '../schedule/work-out-case.js';
import { type CommonOptions, folderOf, type ExitCode, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { readOneCase } from '../run/find-case.js';
import { exitFor } from '../run/read-cases.js';
import { writeResult } from '../run/write-result.js';
import { preparePicture } from '../picture/prepare-picture.js';
import { readPicture } from '../run/read-picture.js';
import type { DataTable } from '../book/page-parts.js';
import type { HandoverPage } from '../handover/handover-page.js';
import { mailboxOf } from '../post/mailbox.js';
import { type MailEntry, type MailSummary, summaryHtml, summaryText } from '../post/mail-summary.js';
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
  const { farm, record } = one;
  const { practice, today, problems } = one.reading;
  const { business } = practice;
  const prior = archiveOn(practice, today).priors.priorOf(farm.slug, record.slug);
  const work = workOutCase(farm, record, { business, today, prior });
  const pictures = await picturesOf(farm, work, today, options, effects);
  const page = composeHandover({ business, farm, work, today, ask, pictures });
  const html = renderHandover(page);
  const name = join(farm.slug, `${record.slug}-handover`);
  const write = (ending: string, content: string | Uint8Array) => {
    writeResult(join(folderOf(effects, options.out), `${name}${ending}`), content, effects);
    return join(options.out, `${name}${ending}`);
  };
  const file = write('.html', html);
  const message = options.mail
    ? handoverMessage(page, { business, farm, today, name: `${record.slug}-handover.html`, html })
    : undefined;
  const draft = message && { ...message, file: write('.eml', (await draftMessage(message.message)).bytes) };
  for (const warning of draft?.warnings ?? []) effects.warn(`${farm.slug}/${record.slug}: ${warning}\n`);
  if (options.json === true) {
    const written = { farm: farm.slug, animal: record.slug, file, ...(draft ? { draft: draft.file } : {}) };
    effects.print(`${JSON.stringify({ ...written, leftOut: page.leftOut }, null, 2)}\n`);
  } else
    effects.print(
      `${[`${file}  ${farm.farm.farm}: ${record.animal.animal}`, ...(draft ? [`${draft.file}  a draft: open it, look it over, send it`] : []), `  ${page.leftOut}`].join('\n')}\n`,
    );
  return exitFor(problems);
}

/** A question must stand whole on the page, since it stands nowhere else. */
function readAsk(ask: string): string {
  const line = ask.trim().replaceAll(/\s+/g, ' ');
  const { askCharacters: most } = handoverLimits;
  const count = [...line].length;
  if (count === 0) throw new WrongUse('--ask is empty; write the question for the vet behind it, in quotes');
  if (count > most)
    throw new WrongUse(
      `--ask has ${count} characters, expected at most ${most}: the page has room for a question; put the rest into her record, as in \`growdown visit\` with --vet`,
    );
  return line;
}

async function picturesOf(
  farm: FarmRecord,
  work: CaseWork,
  today: string,
  options: HandoverOptions,
  effects: Effects,
) {
  const latest = latestPictures(work.record.animal, work.standing.lesions, today);
  const { made, notMade } = await handoverPictures(farm.slug, latest, options.cases, effects);
  for (const picture of notMade)
    effects.warn(
      `${farm.slug}/${work.record.slug}: ${picture} could not be read as a picture and is not on the page\n`,
    );
  return made;
}

/** Pictures made ready for a page, by the name the record writes, and those that could not be; nothing is kept but the pixels. */
async function handoverPictures(
  farm: string,
  latest: readonly LatestPicture[],
  cases: string,
  effects: Effects,
): Promise<{ readonly made: ReadonlyMap<string, MadePicture>; readonly notMade: readonly string[] }> {
  const read = readPicture(effects, cases, farm);
  const size = { longestPx: handoverLimits.picturePx, quality: handoverLimits.pictureQuality };
  const made = new Map<string, MadePicture>();
  const notMade: string[] = [];
  for (const { photo } of latest) {
    const bytes = read(photo.file);
    const ready = bytes && (await preparePicture(bytes, size));
    if (ready?.kind === 'made') {
      const { jpeg, widthPx, heightPx } = ready;
      made.set(photo.file, { base64: Buffer.from(jpeg).toString('base64'), widthPx, heightPx });
    } else notMade.push(photo.file);
  }
  return { made, notMade };
}

/** What a draft of a handover is made with, besides its page. */
interface HandoverDraft {
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
