import { type Item, saysNothing } from './item.js';
import { isOne } from './note-words.js';

/** What may be said of all cows at once. */
const ofAll = ['recheck', 'task', 'gait', 'tools-disinfected'];

/** Words that hold for several cows: which, the piece that says so, and the first piece behind the words. */
export interface OfSeveral {
  readonly of: readonly string[];
  readonly cue: number;
  readonly to: number;
}

/** What was read of the note so far. */
interface SoFar {
  /** Where the sentence begins. */
  readonly sentence: number;
  /** The animals of this farm spoken of, in the order of the note. */
  readonly called: () => readonly string[];
  /** Whether an animal's number is at a piece. */
  readonly names: (at: number) => boolean;
}

/**
 * `the other four 4 weeks`, `22 December for everybody`, `all mob 1 bar 204`: said of each cow before, or of each but the
 * last; undefined where the words are of one.
 *
 * Shape:   pieces of a note from one on → the animals meant and where the words end
 * Checked: tests/note/who-is-meant.test.ts
 */
export function saidOfSeveral(items: readonly Item[], at: number, soFar: SoFar): OfSeveral | undefined {
  const { sentence, names } = soFar;
  const starts = past(items, sentence) === at;
  if (!starts && othersAt(items, at) === undefined) return undefined;
  const end = endOfSentence(items, at);
  const words = items.slice(at, end);
  const found = words.findIndex((_, n) => othersAt(items, at + n) !== undefined);
  if (found < 0 || (found > 0 && !starts)) return undefined;
  const which = othersAt(items, at + found)!;
  const next = items[past(items, at + found + 1)];
  const begins =
    starts || next?.kind === 'span' || next?.kind === 'number' || next?.is.has('recheck') === true || isOne('head of the next visit', next?.bare); // prettier-ignore
  const called = soFar.called();
  if (!begins || called.length < 2) return undefined;
  const but = words.findIndex(({ bare }) => isOne('but for', bare));
  const to = but < 0 ? end : at + but;
  const said = items.slice(at, to);
  const spanBefore = items.slice(sentence, at).some(({ kind }) => kind === 'span');
  // `the rest of the wall was sound` is hers.
  const holds = said.some(
    ({ kind, is }) =>
      kind === 'span' ||
      kind === 'day' ||
      (kind === 'number' && spanBefore) ||
      ofAll.some((one) => is.has(one)),
  );
  if (!holds || (found > 0 && said.some(({ kind, is }) => kind === 'pair' || is.has('foot') || is.has('lesion')))) return undefined; // prettier-ignore
  if (found > 0 && said.some((_, n) => names(at + n))) return undefined;
  const except = but < 0 ? [] : items.slice(to, end).flatMap(({ figures }) => figures ?? []);
  const meant = which === 'all' ? called : called.slice(0, -1);
  return { of: meant.filter((name) => !except.includes(name)), cue: at + found, to };
}

/** Words for all cows before, or all but the last; `all` alone beside what may be said of all. */
function othersAt(items: readonly Item[], at: number): string | undefined {
  const item = items[at]!;
  if (item.bare !== 'all') return item.is.get('the-others');
  const [before, after] = [items[at - 1], items[at + 1]];
  const isSaid = (one: Item | undefined): boolean =>
    one !== undefined &&
    (ofAll.some((kind) => one.is.has(kind)) || isOne('head of the next visit', one.bare));
  // `too sore to take it all back` is of no other day.
  const when = items.slice(at + 1, at + 5).some(({ kind }) => kind === 'span' || kind === 'day');
  if (isSaid(after))
    return when || after?.is.has('gait') || after?.is.has('tools-disinfected') ? 'all' : undefined;
  return isSaid(before) && before?.is.has('gait') !== true && when ? 'all' : undefined;
}

/** The full stop or the line's end behind a piece. */
export function endOfSentence(items: readonly Item[], at: number): number {
  let end = at;
  while (end < items.length && items[end]!.kind !== 'line' && items[end]!.kind !== 'stop') end += 1;
  return end;
}

/** Past pieces that say nothing and full stops, on the same line. */
export function past(items: readonly Item[], at: number): number {
  let next = at;
  while (
    items[next] !== undefined &&
    items[next]!.kind !== 'line' &&
    (saysNothing(items[next]!) || items[next]!.kind === 'stop')
  )
    next += 1;
  return next;
}
