import { type CaseFiles, sourceText, type SourceText } from './source-text.js';
import { inText } from './finding.js';
import { messageOf } from '../problem/message.js';
import type { Finding, InText, Message } from '../problem/problem.js';
import { messageWords } from '../reference/words.js';

/** Largest file read, bytes: far more than the longest life of a cow; asked before anything is read. */
const mostBytes = 8 * 1024 * 1024;
const megabyte = 1024 * 1024;

export type TextReading =
  | { readonly outcome: 'text'; readonly source: SourceText }
  | { readonly outcome: 'trouble'; readonly trouble: Finding<InText>; readonly source?: SourceText };

/** The text of a case file, or why there is none. A byte order mark is taken off. */
export function readText(files: CaseFiles, path: string): TextReading {
  try {
    const size = files.look(path)?.bytes ?? 0;
    const bytes = size > mostBytes ? undefined : files.read(path);
    if (bytes && bytes.length <= mostBytes) return decodedText(bytes);
    const values = { size: ((bytes?.length ?? size) / megabyte).toFixed(1), most: mostBytes / megabyte };
    return unreadable(messageOf('file/too-big', values));
  } catch (error) {
    return unreadable(messageOf('file/unreadable', { reason: reasonOf(error) }));
  }
}

/** Bytes → text, or why they are none. A byte order mark is taken off. */
export function decodedText(bytes: Uint8Array): TextReading {
  if (isUtf16(bytes)) return unreadable(messageOf('file/utf-16'));
  if (bytes.includes(0) || looksPacked(bytes)) return unreadable(messageOf('file/binary'));
  try {
    return { outcome: 'text', source: sourceText(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) };
  } catch {
    const source = sourceText(new TextDecoder('utf-8').decode(bytes));
    const at = source.text.indexOf('\ufffd');
    return {
      outcome: 'trouble',
      trouble: inText(messageOf('file/not-utf-8'), source.placeAt(at, at + 1)),
      source,
    };
  }
}

/** By its mark, or by every second byte of the start being zero. */
function isUtf16(bytes: Uint8Array): boolean {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) return true;
  const start = bytes.subarray(0, 64);
  const zeros = (odd: number): number =>
    start.filter((byte, index) => index % 2 === odd && byte === 0).length;
  const [some, most] = [zeros(0), zeros(1)].toSorted((a, b) => a - b);
  return start.length >= 8 && some === 0 && most! > start.length * 0.4;
}

/** Documents, archives and pictures that may hold no zero byte at their start: PDF, ZIP (word processors), RTF, JPEG, PNG. */
function looksPacked(bytes: Uint8Array): boolean {
  const start = String.fromCharCode(...bytes.subarray(0, 5));
  return ['%PDF-', 'PK\u0003\u0004', '{\\rtf', '\u00ff\u00d8\u00ff', '\u0089PNG'].some((mark) =>
    start.startsWith(mark),
  );
}

/** The system's own short word for it, such as `EACCES`; never a path or a stack. */
export function reasonOf(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string'
    ? error.code
    : messageWords().say('value.no-reason');
}

function unreadable(message: Message): TextReading {
  return { outcome: 'trouble', trouble: inText(message) };
}
