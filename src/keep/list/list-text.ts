/** A list's bytes as text, and in which writing they were. */
export interface ListText {
  readonly text: string;
  readonly writing: 'UTF-8' | 'UTF-16' | 'Windows-1252';
}

/**
 * The text of a list as a spreadsheet saves it: UTF-8 or UTF-16 by its mark, UTF-8 where every byte fits, else Windows-1252.
 *
 * Text of Windows-1252 with an umlaut or an accent is no good UTF-8 but by the rarest chance, so this tells them apart.
 * Line ends come out as `\n`.
 *
 * Checked: tests/keep/read-list.test.ts
 */
export function listText(bytes: Uint8Array): ListText {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return made('utf-16le', 'UTF-16', bytes);
  if (first === 0xfe && second === 0xff) return made('utf-16be', 'UTF-16', bytes);
  try {
    return { text: plain(new TextDecoder('utf-8', { fatal: true }).decode(bytes)), writing: 'UTF-8' };
  } catch {
    return made('windows-1252', 'Windows-1252', bytes);
  }
}

function made(label: string, writing: ListText['writing'], bytes: Uint8Array): ListText {
  return { text: plain(new TextDecoder(label).decode(bytes)), writing };
}

function plain(text: string): string {
  return text.replace(/^\ufeff/, '').replaceAll(/\r\n?/g, '\n');
}
