import { isDenied } from './denied.js';
import { placeSaid } from './place-said.js';
import { readName } from './name-of-lesion.js';
import { isDoubt, isNegation } from './note-text.js';
import { phraseAt } from './phrase.js';
import { readNoSign, readStage } from './statement/finding.js';
import { readBareLength } from './statement/length.js';
import { statements } from './statement/statements.js';
import { readPlace } from './subject.js';
import type { VisitReader } from './visit-reader.js';

/** Kinds that say where or who, and so are not turned round by a `no` before them. */
const notDenied = new Set(['note', 'by', 'at', 'kind', 'recheck']);

/**
 * Reads the statement that begins at a token; undefined where none does.
 *
 * `run`: the words before it that no statement took. Where one of them denies (`not really bruised`), the statement goes
 * with them: only of a sign can the record say that it is not there (`no pus`), and the words are kept.
 */
export function readStatement(r: VisitReader, at: number, run: readonly number[]): number | undefined {
  const { tokens } = r.note;
  const phrase = phraseAt(tokens, at);
  const kind = phrase?.kind ?? '';
  const denied = !notDenied.has(kind) && isDenied(tokens, run, kind);
  if (denied && (kind in statements || kind === 'lesion')) return undefined;
  const doubted = run.some((index) => isDoubt(tokens[index]!));
  if (doubted && (kind === 'sign' || kind === 'animal-sign')) return undefined;
  const asked = r.questions.length;
  const unsure = doubted || run.some((index) => isNegation(tokens[index]!));
  const next = readName(r, at) ?? (unsure ? undefined : readNoSign(r, at)) ?? readOther(r, at, phrase);
  if (next !== undefined && r.questions.length > asked) keepWaiting(r, at, next);
  return next;
}

/** A question may be about one word of a statement; the rest of it is shown as waiting, so that nothing goes unseen. */
function keepWaiting(r: VisitReader, at: number, next: number): void {
  const seen = [...r.pieces, ...r.questions];
  const unseen = r.note.tokens
    .slice(at, next)
    .some((token) => !seen.some(({ from, to }) => from <= token.from && token.to <= to));
  if (unseen) r.say(at, next, 'waits for the answer');
}

function readOther(r: VisitReader, at: number, phrase: ReturnType<typeof phraseAt>): number | undefined {
  const { tokens } = r.note;
  const stage = /^m([0-4])?$/.test(tokens[at]!.bare) ? readStage(r, at) : undefined;
  if (stage !== undefined) return stage;
  const length = readBareLength(r, at);
  if (length !== undefined) return length;
  const next = phrase && statements[phrase.kind]?.(r, at, phrase);
  if (next !== undefined) return next;
  return placeSaid(tokens, at) ? readPlace(r, at) : undefined;
}
