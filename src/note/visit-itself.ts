import type { VisitKind } from '../record/words.js';
import { visit } from '../record/visit.js';
import { flagSaid, isOne, saidByWord } from './note-words.js';
import type { VisitReader } from './visit-reader.js';

const flags = saidByWord(visit);

/** Not there to be lifted, and why. */
export function readMissed(r: VisitReader, at: number): number | undefined {
  const { is } = r.items[at]!;
  if (is.has('kind') && !r.suppressed) {
    const kind = is.get('kind') as VisitKind;
    // `nothing else to report` is none.
    if (
      r.items[at]!.bare === 'report' &&
      !isOne('from', r.items[at + 1]?.bare) &&
      r.items[at + 1]?.kind !== 'quoted' &&
      !r.taken.has(at - 1)
    )
      return undefined;
    // `the rest at the next routine` is of another day.
    if (r.items.slice(Math.max(0, at - 3), at).some(({ bare }) => isOne('no visit kind', bare)))
      return undefined;
    const named =
      r.items[r.skip(at + 1)]?.person ??
      (r.items[at + 1]?.kind === 'quoted' ? { name: r.items[at + 1]!.bare } : undefined);
    if (kind === 'report' && named) {
      r.draft.by = named.name;
      r.reporter = named.name;
    }
    return r.put(at, kind === 'report' && named ? r.skip(at + 1) + 1 : at + 1, 'kind', kind)
      ? at + 1
      : undefined;
  }
  if (
    !is.has('missed') ||
    r.isMissed ||
    (r.modality.planned !== undefined && !/dry cows/.test(r.items[at]!.bare))
  )
    return undefined;
  // `top not seen` is of the gap.
  if (
    /see/.test(r.items[at]!.bare) &&
    !r.taken.has(at - 1) &&
    !/^(?:she|was|i|we|not)/.test(r.items[at - 1]?.bare ?? '')
  )
    return undefined;
  if (r.measured.length > 0 || Object.keys(r.draft.found ?? {}).length > 0) return undefined;
  const before = r.items[at - 1];
  if (before && (before.is.has('block') || before.is.has('lesion') || before.is.has('wrap')))
    return undefined;
  r.isMissed = { from: at, to: at + 1 };
  r.taken.add(at);
  return at + 1;
}

export function readRest(r: VisitReader, at: number): number | undefined {
  const { is, bare, kind } = r.items[at]!;
  for (const { key, kind: word } of flags) {
    const value = is.get(word);
    if (value === undefined) continue;
    return r.put(at, at + 1, key as 'saw-expected', flagSaid(value) as boolean) ? at + 1 : undefined;
  }
  const sign = is.get('animal-sign');
  if (sign !== undefined && !is.has('claw-state'))
    return r.fact(at, at + 1, sign, () => {
      r.draft.signs = [...new Set([...(r.draft.signs ?? []), sign as 'down'])];
    })
      ? at + 1
      : undefined;
  if (is.has('by') && isOne('done by', bare)) {
    const named = r.items[r.skip(at + 1)];
    // `by Gwil in the car` is where something is.
    const behind = r.items[r.skip(at + 1) + 1];
    if (named?.person && behind?.kind === 'word' && behind.bare === 'in') return undefined;
    const name =
      named?.person?.role === 'people'
        ? named.person.name
        : r.items[at + 1]?.kind === 'quoted'
          ? r.items[at + 1]!.bare
          : undefined;
    if (name === undefined) return readStranger(r, at);
    r.draft.by = name;
    r.say(at, r.skip(at + 1) + 1, `by ${name}`);
    return r.skip(at + 1) + 1;
  }
  const next = r.items[at + 1];
  if (bare === 'at' && next?.kind === 'time' && /^\d\d?:\d\d$/.test(next.text))
    return r.put(at, at + 2, 'at', next.text.padStart(5, '0')) ? at + 2 : undefined;
  if (is.has('scored-by') && next?.person)
    return r.put(at, at + 2, 'gait-by', next.person.name) ? at + 2 : undefined;
  if (is.has('no-feet') && !r.suppressed) {
    r.notLifted = true;
    return undefined;
  }
  if (is.has('note') && r.items[at + 1]?.kind === 'quoted') {
    r.notes.push(r.items[at + 1]!.bare);
    r.say(at, at + 2, 'note');
    return at + 2;
  }
  if (is.has('note') && r.items[at + 1]?.bare === ':') {
    const first = r.items[at + 2];
    let end = at + 2;
    while (end < r.items.length && r.items[end]!.kind !== 'line') end += 1;
    if (first === undefined || end === at + 2) return undefined;
    const words = first.kind === 'quoted' ? first.bare : r.text.slice(first.from, r.items[end - 1]!.to);
    r.notes.push(words);
    r.say(at, first.kind === 'quoted' ? at + 3 : end, 'note');
    for (let index = at; index < end; index += 1) r.taken.add(index);
    return first.kind === 'quoted' ? at + 3 : end;
  }
  if (kind === 'quoted' || kind === 'time') return undefined;
  return undefined;
}

/** `by Orla Venn` at the beginning of a sentence, of somebody the records do not name: as it is written, in capitals. */
function readStranger(r: VisitReader, at: number): number | undefined {
  if (r.start(at, true) !== at && !r.taken.has(at - 1)) return undefined;
  let next = at + 1;
  while (r.items[next]?.kind === 'word' && /^\p{Lu}\p{Ll}/u.test(r.items[next]!.text)) next += 1;
  if (next === at + 1 || r.draft.by !== undefined) return undefined;
  r.draft.by = r.text.slice(r.items[at + 1]!.from, r.items[next - 1]!.to);
  r.say(at, next, `by ${r.draft.by}`);
  for (let index = at; index < next; index += 1) r.taken.add(index);
  return next;
}
