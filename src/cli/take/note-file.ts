import { listText } from '../../keep/list/list-text.js';
import type { Effects } from '../effects.js';
import { WrongUse } from '../exit-code.js';

/** A note is a screenful; a file above this many bytes is something else. */
const mostBytes = 2_000_000;

/** The text of a note: a file, or for `-` what comes in by standard input. */
export function noteFile(file: string, effects: Effects): string {
  const bytes = file === '-' ? effects.readInput() : bytesOf(file, effects);
  if (bytes.length > mostBytes)
    throw new WrongUse(
      `${file} has ${bytes.length} bytes, expected a note: plain text of at most ${mostBytes}`,
    );
  const { text, writing } = listText(bytes);
  // UTF-16 is what Windows calls Unicode text, and bears a mark; Windows-1252 is a guess, and words are not guessed.
  if (writing === 'UTF-16') return text;
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new WrongUse(`${file} is not plain text in UTF-8; save it as plain text, then take it again`);
  }
}

function bytesOf(file: string, effects: Effects): Uint8Array {
  const there = effects.files.look(file);
  if (there?.kind !== 'file')
    throw new WrongUse(`there is no file ${file}; name the note, or write - and paste it in`);
  if (there.bytes > mostBytes)
    throw new WrongUse(
      `${file} has ${there.bytes} bytes, expected a note: plain text of at most ${mostBytes}`,
    );
  try {
    return effects.files.read(file);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new WrongUse(
      `${file} cannot be read (${code}); look whether it is yours to read, then take it again`,
    );
  }
}
