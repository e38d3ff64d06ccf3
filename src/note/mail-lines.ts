import { noteWords } from './note-words.js';

/** A note with what the mail put round it blanked out, character for character, so that every place still holds. */
export interface Unwrapped {
  readonly text: string;
  /** Lines passed over, from 1: mail headers above the note, the signature below it. */
  readonly passedOver: readonly number[];
}

const header = new RegExp(`^(?:${noteWords.mail.headers.join('|')}): `, 'i');
const sentFrom = new RegExp(`^-*\\s*(?:${noteWords.mail['sent-from'].join('|')})\\b`, 'i');
const surelyMail =
  /^(?:(?:from|to|subject): |on .*\bwrote:$|-*\s*(?:begin )?(?:forwarded|original) message)/i;
const wroteLine = /^on .*\bwrote:$/i;

/**
 * Takes `> ` marks, mail headers above and the signature below off a note.
 *
 * Only above and below: a line of that shape between two lines of the note belongs to it, and is reported as not understood.
 *
 * Checked: tests/note/mail-lines.test.ts
 */
export function unwrapMail(text: string): Unwrapped {
  const lines = text
    .replaceAll('\r\n', ' \n')
    .replaceAll('\r', '\n')
    .split('\n')
    .map((line) => line.replace(/^[ \t]*(?:>[ \t]?)+/, (marks) => ' '.repeat(marks.length)));
  const passed = new Set<number>();
  const isHeader = (line: string) => header.test(line) || sentFrom.test(line) || wroteLine.test(line);
  const above = lines.findIndex((line) => line.trim() !== '' && !isHeader(line.trim()));
  const head = lines.slice(0, above < 0 ? lines.length : above);
  // `Date: 3 March` alone may be the note's own day; mail says at least one of these.
  if (head.some((line) => surelyMail.test(line.trim())))
    for (const [at, line] of head.entries()) if (line.trim() !== '') passed.add(at);
  const signature = lines.findIndex((line, at) => at > 0 && /^\s*--\s*$/.test(line));
  if (signature >= 0) for (let at = signature; at < lines.length; at += 1) passed.add(at);
  for (let at = (signature < 0 ? lines.length : signature) - 1; at >= 0; at -= 1) {
    const line = lines[at]!.trim();
    if (line !== '' && !sentFrom.test(line)) break;
    if (line !== '') passed.add(at);
  }
  return {
    text: lines.map((line, at) => (passed.has(at) ? ' '.repeat(line.length) : line)).join('\n'),
    passedOver: [...passed].sort((a, b) => a - b).map((at) => at + 1),
  };
}
