import type { Language } from '../record/words.js';
import { layoutCss } from '../book/layout-css.js';
import { renderPage } from '../book/render-page.js';
import { untold } from '../reference/words.js';
import { oneLine } from './mailbox.js';

/** What a farm is written, in words: one content, said once as text and once as HTML. */
export interface MailSummary {
  readonly language: Language;
  readonly subject: string;
  readonly heading: string;
  /** Whose letter, and when they come next. */
  readonly lead: readonly string[];
  readonly sections: readonly MailSection[];
  /** Nothing is open, due, withheld or the vet's: a farm that had no mail yet need not have one. */
  readonly quiet: boolean;
  /** How to answer, and what this is. */
  readonly foot: readonly string[];
}

export interface MailSection {
  readonly heading: string;
  readonly lead: readonly string[];
  readonly groups: readonly MailGroup[];
}

interface MailGroup {
  readonly heading?: string;
  readonly entries: readonly MailEntry[];
}

/** A job or an animal, and what there is to know of it. */
export interface MailEntry {
  readonly title: string;
  readonly lines: readonly string[];
}

/** A summary as the HTML part of a message: no script, no picture, nothing asked for from outside, every text escaped. */
export function summaryHtml(summary: MailSummary): string {
  return renderPage('mail.njk', summary, layoutCss('mail.css'));
}

/**
 * A summary as plain text. A line is as long as its sentence: a phone and a wide screen each break it where they must.
 *
 * No text from a record begins a line of its own making, since each piece is put on one line.
 */
export function summaryText({ heading, lead, sections, foot }: MailSummary): string {
  const parts = [
    [plainLine(heading), ...lead.map(plainLine)].join('\n'),
    ...sections.map(sectionText),
    foot.map(plainLine).join('\n'),
  ];
  return `${parts.filter((part) => part !== '').join('\n\n\n')}\n`;
}

function sectionText({ heading, lead, groups }: MailSection): string {
  const title = plainLine(heading);
  const head = [title, '='.repeat(Math.min(title.length, 40)), ...lead.map(plainLine)].join('\n');
  return [head, ...groups.flatMap((group) => groupText(group))].join('\n\n');
}

function groupText({ heading, entries }: MailSection['groups'][number]): string[] {
  const list = entries.map(entryText).join('\n');
  return [heading === undefined ? list : `${plainLine(heading)}\n${list}`];
}

function entryText({ title, lines }: MailEntry): string {
  return [`- ${plainLine(title)}`, ...lines.map((line) => `  ${plainLine(line)}`)].join('\n');
}

function plainLine(text: string): string {
  return oneLine(untold(text));
}
