import type { Tool } from '../../record/words.js';
import { lesionFor } from '../subject.js';
import { noteWords } from '../note-words.js';
import { isDoubt } from '../note-text.js';
import { numberSaid } from '../number-said.js';
import { type Phrase, phraseAt } from '../phrase.js';
import type { Token } from '../token.js';
import type { VisitReader } from '../visit-reader.js';

type LengthKey = 'top' | 'wall' | 'width' | 'length' | 'depth' | 'distance';

const between = new Set(noteWords['measure-fillers']);
const times = new Set(noteWords.times);
const beside: readonly string[] = ['width', 'length', 'depth'];

/** `top 21`, `wall is 43 mm`, `top 2.1 cm`. */
export function readLength(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const { tokens } = r.note;
  let next = phrase.next;
  while (between.has(tokens[next]?.bare ?? '') || /^[:=-]$/.test(tokens[next]?.text ?? '')) next += 1;
  const said = mmSaid(tokens, isDoubt(tokens[next] ?? tokens[at]!) ? next + 1 : next);
  if (!said) return undefined;
  if (said.next > next + 1 && isDoubt(tokens[next]!)) {
    if (r.mention) r.mention.used = true;
    r.ask(at, said.next, {
      id: 'not-sure',
      ask: `a ${phrase.value} that is not certain`,
      mend: `write \`${phrase.value} ${said.mm}\` if it was measured, or put it after \`note:\``,
      choices: [{ label: `${said.mm} mm`, text: `${phrase.value} ${said.mm}` }],
    });
    return said.next;
  }
  putLength(r, phrase.value as LengthKey, said, at);
  return said.next;
}

/** `22 wide`, `18 mm long`, and `22 x 18` of an ulcer or of skin: the longer is its length. */
export function readBareLength(r: VisitReader, at: number): number | undefined {
  const { tokens } = r.note;
  const first = mmSaid(tokens, at);
  if (!first) return undefined;
  if (times.has(tokens[first.next]?.bare ?? '')) {
    const second = mmSaid(tokens, first.next + 1);
    if (!second) return undefined;
    const [long, wide] = first.mm >= second.mm ? [first, second] : [second, first];
    const name = lesionFor(r, 'length', at, second.next);
    if (name === undefined) return second.next;
    r.setFound(name, 'length', long.mm, at, second.next);
    r.setFound(name, 'width', wide.mm, second.next, second.next);
    return second.next;
  }
  if (isUnreadMark(r)) {
    putLength(r, 'distance', first, at);
    return first.next;
  }
  const after = phraseAt(tokens, first.next);
  if (after?.kind !== 'length' || !beside.includes(after.value)) return undefined;
  // `wide 9` after a number of its own is the other way round.
  if (numberSaid(tokens, after.next)) return undefined;
  putLength(r, after.value as LengthKey, { ...first, next: after.next }, at);
  return after.next;
}

/** A number right behind a mark's name can only be its distance. */
function isUnreadMark(r: VisitReader): boolean {
  if (r.subject.is !== 'lesion' || r.mention?.used !== false) return false;
  const declared = r.declared(r.subject.name);
  return declared !== undefined && !('code' in declared);
}

function putLength(r: VisitReader, key: LengthKey, said: MmSaid, at: number): void {
  if (said.inches) {
    if (r.mention) r.mention.used = true;
    r.ask(at, said.next, {
      id: 'inches',
      ask: `a ${key} in inches`,
      mend: 'measure in millimetres or centimetres; an inch is 25.4 mm',
    });
    return;
  }
  const name = lesionFor(r, key, at, said.next);
  if (name === undefined) return;
  if (said.mm > 200) {
    r.ask(at, said.next, {
      id: 'length-out-of-range',
      ask: `a ${key} of ${said.mm} mm, expected at most 200`,
      mend: 'correct the number',
    });
    return;
  }
  r.setFound(name, key, said.mm, at, said.next);
  r.wallJustRead = key === 'wall';
}

interface MmSaid {
  readonly mm: number;
  readonly inches: boolean;
  readonly next: number;
}

function mmSaid(tokens: readonly Token[], at: number): MmSaid | undefined {
  const said = numberSaid(tokens, at);
  if (!said) return undefined;
  const inch = phraseAt(tokens, said.next, 'odd-unit');
  const inchMark = tokens[said.next]?.text === '"' && tokens[said.next]?.from === tokens[said.next - 1]?.to;
  // `in` is an inch only when glued or at the end of what is said: `top 21 in the LH` is not.
  if (
    inchMark ||
    (inch && (tokens[said.next]!.bare !== 'in' || tokens[said.next]!.from === tokens[said.next - 1]!.to))
  )
    return { mm: said.value, inches: true, next: inch?.next ?? said.next + 1 };
  const unit = phraseAt(tokens, said.next, 'unit');
  if (!unit) return { mm: said.value, inches: false, next: said.next };
  return { mm: Number((said.value * Number(unit.value)).toFixed(6)), inches: false, next: unit.next };
}

/** `tape`, `by ruler`: how the lengths were read; behind a wall's number the wall's own where the top has another. */
export function readTool(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const name = lesionFor(r, 'tool', at, phrase.next);
  if (name === undefined) return phrase.next;
  const tool = phrase.value as Tool;
  const { tool: before } = r.foundOf(name);
  const key = before !== undefined && before !== tool && r.wallJustRead ? 'wall-tool' : 'tool';
  r.setFound(name, key, tool, at, phrase.next);
  r.wallJustRead = false;
  return phrase.next;
}

/** `wall tool tape`. */
export function readWallTool(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const tool = phraseAt(r.note.tokens, phrase.next);
  if (tool?.kind !== 'tool') return undefined;
  const name = lesionFor(r, 'wall-tool', at, tool.next);
  if (name !== undefined) r.setFound(name, 'wall-tool', tool.value as Tool, at, tool.next);
  return tool.next;
}
