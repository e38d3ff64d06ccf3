import type { Language } from '../record/words.js';
import { layoutCss } from '../book/layout-css.js';
import { renderPage } from '../book/render-page.js';
import { untold } from '../reference/words.js';
import { oneLine } from './mailbox.js';

/** What somebody is written, in words: one content, said once as text and once as HTML. */
export interface MailSummary {
  readonly language: Language;
  readonly subject: string;
  readonly heading: string;
  readonly lead: readonly string[];
  readonly sections: readonly MailSection[];
  /** What the rest is not, what goes along, how to answer. */
  readonly foot: readonly string[];
}

export interface MailSection {
  readonly heading: string;
  readonly lines: readonly MailLine[];
  /** In a frame where there is one: what must not be passed over. */
  readonly loud?: boolean;
}

/** A job, an animal, a day: what it is about, and what there is to know of it. */
export interface MailLine {
  readonly lead?: string;
  readonly text?: string;
}

/** A summary as the HTML part of a message: no script, no picture, nothing asked for from outside, every text escaped. */
export function summaryHtml(summary: MailSummary): string {
  return renderPage('mail.njk', summary, layoutCss('mail.css'));
}

/**
 * A summary as plain text: headings in capitals, a line each, none as long as 78 characters unless a word is.
 *
 * No text from a record begins a line of its own making: what runs on is set in.
 */
export function summaryText({ language, heading, lead, sections, foot }: MailSummary): string {
  const parts = [
    [heading, ...lead],
    ...sections.map(({ heading: title, lines }) => [
      title.toLocaleUpperCase(language),
      ...lines.map(({ lead: about = '', text = '' }) => `${about} ${text}`),
    ]),
    foot,
  ];
  return `${parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.map(plainLines).join('\n'))
    .join('\n\n')}\n`;
}

/** The longest line RFC 5322 would have. */
const longest = 78;

function plainLines(text: string): string {
  const lines: string[] = [];
  for (const word of oneLine(untold(text)).split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length + 1 < longest) lines[lines.length - 1] += ` ${word}`;
    else lines.push(last === undefined ? word : `  ${word}`);
  }
  return lines.join('\n');
}
