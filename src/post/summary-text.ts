import { oneLine } from './mailbox.js';
import type { MailEntry, MailSection, MailSummary } from './mail-summary.js';

/**
 * A summary as plain text. A line is as long as its sentence: a phone and a wide screen each break it where they must.
 *
 * No text from a record begins a line of its own making, since each piece is put on one line.
 */
export function summaryText({ heading, lead, sections, foot }: MailSummary): string {
  const parts = [
    [oneLine(heading), ...lead.map(oneLine)].join('\n'),
    ...sections.map(sectionText),
    foot.map(oneLine).join('\n'),
  ];
  return `${parts.filter((part) => part !== '').join('\n\n\n')}\n`;
}

function sectionText({ heading, lead, groups }: MailSection): string {
  const title = oneLine(heading);
  const head = [title, '='.repeat(Math.min(title.length, 40)), ...lead.map(oneLine)].join('\n');
  return [head, ...groups.flatMap((group) => groupText(group))].join('\n\n');
}

function groupText({ heading, entries }: MailSection['groups'][number]): string[] {
  const list = entries.map(entryText).join('\n');
  return [heading === undefined ? list : `${oneLine(heading)}\n${list}`];
}

function entryText({ title, lines }: MailEntry): string {
  return [`- ${oneLine(title)}`, ...lines.map((line) => `  ${oneLine(line)}`)].join('\n');
}
