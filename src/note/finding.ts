import { terminal } from '../problem/message.js';
import { found, type Found } from '../record/visit.js';
import {
  ddStages,
  type Foot,
  type LesionCode,
  type LesionState,
  type Sign,
  type Tool,
  type TopFound,
} from '../record/words.js';
import { familyOf, type LesionFamily } from '../reference/lesions.js';
import { type Item, saysNothing } from './item.js';
import { every, isOfFamily, wall } from './measure.js';
import { flagSaid, isOne, saidByWord } from './note-words.js';
import { placeAt, sideFeet } from './place.js';
import { oneCode, type VisitReader } from './visit-reader.js';

/** `M2`, `m two`, `stage two`, `M4.1`. */
export function readStage(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  if (!item.is.has('stage')) return undefined;
  const letter = r.items[at + 1]?.bare === 'm' ? at + 1 : at;
  const number = isOne('stage letter', r.items[letter]!.bare) ? letter + 1 : r.skip(at + 1);
  const value = r.items[number]?.number?.value;
  const stage = ddStages.find((one) => one === `M${value}`);
  if (stage === undefined) return undefined;
  if (r.place.codes && !r.place.codes.includes('DD')) r.place = r.place.feet ? { feet: r.place.feet } : {};
  let names = r.lesionsFor(['dermatitis']);
  // Said the other way round: `M3 on the left hind`, `M3 left, M4 right`.
  const after = r.items[number + 1];
  const first = !r.heard.includes(at - 1) && (after?.is.has('side') || after?.is.has('foot'));
  const side = first ? after?.is.get('side') : undefined;
  const feet = side === undefined ? [] : sideFeet(r, side, false);
  const behind =
    feet.length === 1
      ? { place: { feet }, next: number + 2 }
      : after?.bare === 'on'
        ? placeAt(r, r.skip(number + 1))
        : first && after?.is.has('foot')
          ? placeAt(r, number + 1)
          : undefined;
  if (behind?.place.feet && !behind.place.codes) {
    r.place = behind.place;
    names = r.lesionsFor(['dermatitis']);
  }
  const end = behind?.place.feet ? behind.next : number + 1;
  if (!names) return r.askLesion(at, end, ['dermatitis']) ? end : undefined;
  if (!r.putFound(at, end, names, 'stage', stage)) return undefined;
  [r.last] = names;
  r.foot = r.declared(names[0]!)?.foot ?? r.foot;
  return end;
}

/** The status of a lesion. */
export function readState(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const said = item.is.get('state');
  if (said === undefined) return undefined;
  const asked = r.items[at + 1]?.bare === '?';
  if (said === 'closed') return readClosed(r, at, asked);
  const state = said as LesionState;
  const families = state === 'present' ? (['present'] as const) : state === 'lasting' ? wall : (['wall', 'ulcer', 'double sole', 'toe necrosis', ...(state === 'healed' ? ['present' as const] : [])] as const); // prettier-ignore
  // `still raw` of skin is no state, and `the same` of a gap neither.
  if (
    r.place.codes &&
    !r.place.codes.some((code) => (families as readonly string[]).includes(familyOf(code)))
  )
    return undefined;
  if (!r.place.codes && r.last !== undefined && !isOfFamily(r, r.last, families)) return undefined;
  const names =
    r.last !== undefined && isOfFamily(r, r.last, families) && !r.place.isNew
      ? [r.last]
      : r.lesionsFor(families);
  // `both ulcers healed`
  const all = r.modality.both && names?.length !== 1 ? r.candidates(families) : [];
  if (all.length === 2 && all.every((name) => r.draft.found?.[name]?.state === undefined))
    return r.putFound(at, at + 1, all, 'state', state) ? at + 1 : undefined;
  if (
    names === undefined &&
    (r.place.codes || r.place.feet) &&
    r.modality.doubted === undefined &&
    r.askLesion(at, at + 1, families)
  )
    return at + 1;
  if (names?.length !== 1) return undefined;
  if (state !== 'open' && isOfUnknown(r, at, names[0]!)) return undefined;
  const before = r.draft.found?.[names[0]!]?.state;
  // Several words say one thing: `closed, hard, full sole`; the furthest of them counts.
  if (before === 'healed' && state === 'covered') {
    r.say(at, at + 1, 'healed');
    return at + 1;
  }
  if (before === 'covered' && state === 'healed' && !r.suppressed) r.found(names[0]!).state = undefined;
  if (!r.putFound(at, at + 1, names, 'state', state)) return undefined;
  [r.last] = names;
  r.foot = r.declared(names[0]!)?.foot ?? r.foot;
  return at + 1;
}

/** `gap 30/43, ulder covered`: behind a word nobody knows it is hardly said of the gap just measured, where she has more. */
function isOfUnknown(r: VisitReader, at: number, name: string): boolean {
  let back = at - 1;
  while (back > 0 && r.items[back]!.kind === 'word' && saysNothing(r.items[back]!)) back -= 1;
  const item = r.items[back];
  const strange = item?.kind === 'word' && item.bare.length > 3 && !r.taken.has(back) && !saysNothing(item);
  return strange && r.draft.found?.[name]?.top !== undefined && r.candidates(every, {}).length > 1;
}

/** `closed` alone may be covered or healed; the words beside it settle it. */
function readClosed(r: VisitReader, at: number, asked: boolean): number | undefined {
  if (r.suppressed) return undefined;
  const end = r.end(at, false);
  const beside = r.items
    .slice(at + 1, end)
    .findIndex((one) => ['covered', 'healed', 'open'].includes(one.is.get('state') ?? ''));
  if (
    beside >= 0 &&
    beside <= 12 &&
    !r.items.slice(at + 1, at + 1 + beside).some((one) => one.is.has('lesion'))
  ) {
    r.say(at, at + 1, 'closed');
    return at + 1;
  }
  if (r.modality.doubted !== undefined && !asked) return undefined;
  const families = ['ulcer', 'wall', 'double sole', 'toe necrosis'] as const;
  const names = r.last !== undefined && isOfFamily(r, r.last, families) ? [r.last] : r.lesionsFor(families);
  if (names?.length !== 1) return undefined;
  const choices = (['covered', 'healed', 'open'] as const).map((state) => ({ label: state, text: state }));
  r.ask(at, asked ? at + 2 : at + 1, 'closed', { name: names[0]! }, choices);
  return asked ? at + 2 : at + 1;
}

const footSigns: ReadonlySet<string> = new Set([
  'heat',
  'swollen coronet',
  'swollen heel',
  'swollen above foot',
  'not bearing',
  'toe turned up',
]);

/** A sign, of the lesion spoken of or of its foot; `no pus` is gone where it was there before, and else kept as words. */
export function readSign(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const sign = item.is.get('sign') as Sign | undefined;
  if (sign === undefined) return undefined;
  const after = r.items[r.skip(at + 1)];
  const deniedBehind = after?.is.has('negation') && after.bare !== 'no' && isEnd(r.items[r.skip(at + 1) + 1]);
  // `heat gone down`, `pus less`: neither there nor gone.
  if (
    isOne('lessening', after?.bare ?? '') ||
    (after?.bare === 'gone' && r.items[r.skip(at + 1) + 1]?.bare === 'down')
  )
    return undefined;
  const listed = goneBehind(r, at);
  if (listed === 'perhaps') {
    r.ask(at, at + 1, 'not-sure', { what: sign }, [
      { label: terminal('note.ask.not-sure.yes', { what: sign }), text: `${item.text}.` },
    ]);
    return at + 1;
  }
  const gone = listed === 'gone' || after?.bare === 'not there';
  if (r.modality.planned !== undefined || r.modality.past !== undefined) return undefined;
  const lesion = r.last ?? r.candidates(every).find((_, __, all) => all.length === 1);
  const foot =
    (r.place.feet?.length === 1 ? r.place.feet[0] : undefined) ??
    (lesion === undefined ? r.foot : r.declared(lesion)?.foot) ??
    onlyFoot(r);
  if (r.modality.denied !== undefined || deniedBehind || gone) {
    const onFoot =
      footSigns.has(sign) &&
      foot !== undefined &&
      r.animal.visits.some((visit) => visit.date < r.date && visit.feet?.[foot]?.signs?.includes(sign));
    const was =
      lesion !== undefined &&
      !Object.hasOwn(r.animal.marks ?? {}, lesion) &&
      r.before(lesion, 'signs')?.includes(sign);
    if (!onFoot && !was && !gone) return undefined;
    if (footSigns.has(sign) && foot === undefined) return undefined;
    if (!was && !footSigns.has(sign) && (lesion === undefined || Object.hasOwn(r.animal.marks ?? {}, lesion)))
      return undefined;
    const end = deniedBehind || (gone && after?.is.has('no-more')) ? r.skip(at + 1) + 1 : at + 1;
    const holder =
      was || !footSigns.has(sign) ? r.found(lesion!) : (((r.draft.feet ??= {})[foot!] ??= {}) as Found);
    holder.gone = [...(holder.gone ?? []), sign];
    r.say(r.modality.denied ?? at, end, `${sign}: gone`);
    return end;
  }
  const holder =
    !footSigns.has(sign) && lesion !== undefined && !Object.hasOwn(r.animal.marks ?? {}, lesion)
      ? lesion
      : undefined;
  if (holder === undefined && foot === undefined) return undefined;
  const wrote = r.fact(at, at + 1, `${holder ?? foot}: ${sign}`, () => {
    const holds = holder === undefined ? (((r.draft.feet ??= {})[foot!] ??= {}) as Found) : r.found(holder);
    holds.signs = [...new Set([...(holds.signs ?? []), sign])];
  });
  return wrote ? at + 1 : undefined;
}

/** Whether a sign, or the list it is in, is said to be gone; in a list with commas that may be said of the last alone. */
function goneBehind(r: VisitReader, at: number): 'gone' | 'perhaps' | undefined {
  let comma = false;
  for (let next = at + 1; next < at + 9; next += 1) {
    const item = r.items[next];
    if (item === undefined || item.kind === 'line' || item.kind === 'stop') return undefined;
    if (item.is.has('no-more')) return comma ? 'perhaps' : 'gone';
    if (item.bare === ',') comma = true;
    else if (!item.is.has('sign') && !isOne('in a list', item.bare)) return undefined;
  }
  return undefined;
}

const isEnd = (item: Item | undefined): boolean =>
  item === undefined || ['line', 'stop', 'mark'].includes(item.kind) || item.is.has('sign');

function onlyFoot(r: VisitReader): Foot | undefined {
  const feet = new Set(r.lesionNames.filter((name) => r.isOpen(name)).map((name) => r.declared(name)!.foot));
  return feet.size === 1 ? [...feet][0] : undefined;
}

/** How a length was read, and how the top was found: of the lesion measured last, of all where `both` is said. */
export function readHow(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const tool = item.is.get('tool') as Tool | undefined;
  const how = item.is.get('top-found') as TopFound | undefined;
  if (tool === undefined && how === undefined) return undefined;
  const after = r.items[r.skip(at + 1, 'for')];
  const behind = after?.is.has('both') && isOne('all of them', after.bare.split(' ')[0]);
  const both =
    r.modality.both ||
    behind ||
    bothFollows(r, at) ||
    item.bare.includes('both') ||
    (r.items[at - 1]?.is.has('both') ?? false);
  const broken = after && isOne('not to hand', after.bare);
  if (broken) return undefined;
  const isMark = (name: string): boolean => Object.hasOwn(r.animal.marks ?? {}, name);
  const pool = r.measured.filter((name) =>
    how === undefined ? true : !isMark(name) && isOfFamily(r, name, wall),
  );
  let names = both ? pool : pool.slice(-1);
  const inSentence = (name: string): boolean =>
    r.pieces.some(
      (piece) => piece.from >= (r.items[r.start(at, false)]?.from ?? 0) && piece.as?.startsWith(`${name}: `),
    );
  // `46/79, notch 27, callipers`
  const anew = !both && r.modality.corrected === undefined;
  if (anew && tool !== undefined && names.length === 1 && isMark(names[0]!))
    names = r.measured.filter((name) => r.draft.found?.[name]?.tool === undefined && inSentence(name));
  // A sentence of its own is of all that was measured before it.
  const alone = !r.measured.some(inSentence);
  if (anew && tool !== undefined && alone)
    names = r.measured.filter((name) => r.draft.found?.[name]?.tool === undefined);
  // `LH 18/60 RH 25/44, tape`: one word for what was measured alike in one breath.
  if (anew && !alone && tool !== undefined && names.length === 1 && !isMark(names[0]!))
    names = alike(r, at, names[0]!);
  if (names.length === 0 && how !== undefined && (r.place.codes || r.place.feet || r.last !== undefined))
    names = r.lesionsFor(wall) ?? [];
  if (names.length === 0) return undefined;
  const end = behind ? r.skip(at + 1, 'for') + 1 : at + 1;
  if (how !== undefined) {
    if (!r.putFound(at, end, names, 'top-found', how)) return undefined;
    return end;
  }
  const open = names.filter(
    (name) => r.draft.found?.[name]?.tool === undefined || r.modality.corrected !== undefined,
  );
  if (open.length === 0) return undefined;
  return r.putFound(at, end, open, 'tool', tool) ? end : undefined;
}

/** `seen, calliper both`: said of every word of the list. */
function bothFollows(r: VisitReader, at: number): boolean {
  for (let next = at + 1; next < r.items.length; next += 1) {
    const { is, kind, bare } = r.items[next]!;
    if (is.has('both')) return true;
    if (
      kind === 'line' ||
      kind === 'stop' ||
      !(is.has('tool') || is.has('top-found') || is.has('cut-back') || bare === ',' || isOne('with', bare))
    )
      return false;
  }
  return false;
}

/** Lesions measured since the sentence began, of one kind and without a word on how. */
function alike(r: VisitReader, at: number, last: string): string[] {
  const start = r.items[r.start(at, false)]?.from ?? 0;
  const here = (name: string): boolean =>
    r.pieces.some((piece) => piece.from >= start && piece.as?.startsWith(`${name}: top`));
  if (!isOfFamily(r, last, wall)) return [last];
  return r.measured.filter(
    (name) =>
      isOfFamily(r, name, wall) && r.draft.found?.[name]?.tool === undefined && (name === last || here(name)),
  );
}

const flags = saidByWord(found).map(({ key, kind, of }) => ({
  key: key as keyof Found,
  kind,
  families: of as readonly LesionFamily[],
}));

/** What a word alone says of a lesion: it ran up, opened further, is infected, its wall was read beside it. */
export function readFlag(r: VisitReader, at: number): number | undefined {
  const { is } = r.items[at]!;
  for (const { key, kind, families } of flags) {
    const value = is.get(kind);
    if (value === undefined) continue;
    // Lowered when all was measured, it changed no length.
    if (key === 'wall-lowered' && r.items[at + 1]?.bare.startsWith('after') === true) return undefined;
    const names = r.last !== undefined && isOfFamily(r, r.last, wall) ? [r.last] : r.lesionsFor(families); // prettier-ignore
    if (names?.length !== 1) return undefined;
    if (!r.putFound(at, at + 1, names, key, flagSaid(value))) return undefined;
    [r.last] = names;
    if (key === 'opened-further' && is.has('cut-back')) cutBack(r, at, at + 1, names);
    return at + 1;
  }
  const next = r.items[at + 1];
  if (is.has('with-note') && next?.kind === 'quoted' && r.last !== undefined) {
    r.found(r.last).note = next.bare;
    r.say(at, at + 2, `${r.last}: note`);
    return at + 2;
  }
  if (is.has('joined') && r.last !== undefined && isOfFamily(r, r.last, wall)) {
    const other = placeAt(r, r.skip(at + 1));
    const [name, ...more] = other ? r.candidates(wall, other.place).filter((one) => one !== r.last) : [];
    return name !== undefined && more.length === 0 && r.putFound(at, other!.next, [r.last], 'joined', name)
      ? other!.next
      : undefined;
  }
  const code = is.has('code')
    ? oneCode((next?.is.get('lesion')?.split(' ') ?? []) as LesionCode[])
    : undefined;
  if (code !== undefined && r.last !== undefined)
    return r.putFound(at, at + 2, [r.last], 'code', code) ? at + 2 : undefined;
  if (is.has('wall-tool') && next?.is.has('tool') && r.last !== undefined && isOfFamily(r, r.last, wall))
    return r.putFound(at, at + 2, [r.last], 'wall-tool', next.is.get('tool') as Tool) ? at + 2 : undefined;
  if (is.has('cut-back')) {
    const all =
      r.modality.both || r.items[r.skip(at + 1)]?.bare === 'both' || r.items[at - 1]?.bare === 'both';
    const behind = r.items[r.skip(at + 1)]?.bare === 'both' ? r.skip(at + 1) + 1 : at + 1;
    const said = placeAt(r, r.skip(behind));
    const there = said && r.items[behind]?.kind === 'phrase' ? undefined : said;
    const of = there ? r.candidates(['wall', 'ulcer'], there.place) : [];
    const named = of.length === 1 ? of : undefined;
    const names = named ?? (all ? r.measured.filter((name) => isOfFamily(r, name, ['wall', 'ulcer'])) : r.last !== undefined && isOfFamily(r, r.last, ['wall', 'ulcer']) ? [r.last] : r.lesionsFor(wall) ?? r.lesionsFor(['ulcer'])); // prettier-ignore
    if (!names || names.length === 0) return undefined;
    const end = named && there ? there.next : behind;
    return cutBack(r, at, end, names) ? end : undefined;
  }
  return undefined;
}

function cutBack(r: VisitReader, at: number, end: number, names: readonly string[]): boolean {
  return r.fact(at, end, `cut-back ${names.join(', ')}`, () => {
    r.draft['cut-back'] = [...new Set([...(r.draft['cut-back'] ?? []), ...names])];
  });
}

/** The claw that carried the block, once it is off: `inner sound`, `the claw under it was a bit bruised`, `both fine`. */
export function readCarrying(r: VisitReader, at: number): number | undefined {
  const state = r.items[at]!.is.get('claw-state') as 'sound' | 'bruised' | 'ulcer' | 'rubbed' | undefined;
  if (state === undefined || r.bared.length === 0) return undefined;
  const from = r.start(at, true);
  const before: number[] = [];
  for (let index = at - 1; index >= from && !(r.taken.has(index) && !r.heard.includes(index)); index -= 1)
    before.push(index);
  const words = before.map((index) => r.items[index]!);
  if (words.some(({ bare, is }) => isOne('she walks', bare) || is.has('gait'))) return undefined;
  const behind: Item[] = [];
  for (
    let next = at + 1;
    next < at + 5 &&
    r.items[next] &&
    (saysNothing(r.items[next]!) ||
      r.items[next]!.is.has('claw') ||
      r.items[next]!.is.has('carrying') ||
      r.items[next]!.is.has('event')) &&
    r.items[next]!.kind !== 'mark' &&
    r.items[next]!.kind !== 'stop';
    next += 1
  )
    behind.push(r.items[next]!);
  const near = [...words.slice(0, 8), ...behind, r.items[at]!];
  const feet = words
    .slice(0, 8)
    .flatMap(({ is }) => (is.get('foot')?.split(' ') ?? []).filter((word) => /^[LR][FH]$/.test(word)));
  const side = words
    .slice(0, 8)
    .find(({ is }) => is.has('side'))
    ?.is.get('side');
  const claw = near.map(({ is }) => is.get('claw')).find((one) => one !== undefined && one !== 'same');
  const isUnder = near.some(({ is }) => is.has('carrying') || is.has('claw-noun'));
  // Right behind what was said of the block.
  const last = r.pieces.at(-1);
  const touches =
    last?.as?.startsWith('block ') === true &&
    last.own[1] === (before.at(-1) ?? at) &&
    words.every((one) => saysNothing(one));
  if (!feet.length && !side && !claw && !isUnder && !touches) return undefined;
  let blocks = r.bared;
  if (feet.length > 0) blocks = blocks.filter(({ foot }) => feet.includes(foot));
  else if (side) blocks = blocks.filter(({ foot }) => foot.startsWith(side === 'left' ? 'L' : 'R'));
  else if (blocks.length > 1 && !near.some(({ bare }) => isOne('all claws', bare))) blocks = blocks.slice(-1); // prettier-ignore
  if (claw === 'inner' || claw === 'outer') blocks = blocks.filter((block) => block.claw === claw);
  if (blocks.length === 0) return undefined;
  // The words before it that say of which claw; `before` runs backwards.
  const start = before.findLast((index) => !saysNothing(r.items[index]!)) ?? at;
  const tail = behind.findLastIndex((one) => one.is.has('carrying') || one.is.has('claw'));
  const end = at + 1 + Math.max(0, tail + 1);
  const wrote = r.fact(start, end, `carrying-claw ${state}`, () => {
    for (const block of blocks) (block as { 'carrying-claw'?: string })['carrying-claw'] = state;
  });
  return wrote ? end : undefined;
}

/** `RF sound`, `lifted the right front`: a foot looked at. */
export function readFoot(r: VisitReader, at: number): number | undefined {
  const { is } = r.items[at]!;
  const lifted = is.get('lifted');
  if (lifted !== undefined) {
    if (lifted === 'no') {
      const { feet, codes } = r.place;
      const foot = feet?.length === 1 ? feet[0] : r.foot;
      r.notLifted = true;
      const names = codes ? r.candidates(every) : [];
      if (names.length === 1) return r.putFound(at, at + 1, names, 'lifted', false) ? at + 1 : undefined;
      if (foot === undefined || r.modality.planned !== undefined) return undefined;
      ((r.draft.feet ??= {})[foot] ??= {}).lifted = false;
      r.say(at, at + 1, `${foot}: not lifted`);
      return at + 1;
    }
    const after =
      placeAt(r, r.skip(at + 1)) ?? (r.heard.includes(at - 1) ? { place: r.place, next: at + 1 } : undefined);
    const feet = after?.place.feet ?? [];
    if (feet.length === 0 || r.suppressed) {
      if (r.modality.denied !== undefined) r.notLifted = true;
      return undefined;
    }
    for (const foot of feet) ((r.draft.feet ??= {})[foot] ??= {}).lifted = true;
    r.say(at, after!.next, `${feet.join(', ')}: lifted`);
    return after!.next;
  }
  if (is.has('sound') && r.place.feet && !r.place.codes && !r.suppressed && r.items[at - 1]?.is.has('foot')) {
    const feet = r.place.feet.filter(
      (foot) => !r.lesionNames.some((name) => r.declared(name)!.foot === foot && r.isOpen(name)),
    );
    if (feet.length !== r.place.feet.length) return undefined;
    for (const foot of feet) {
      const one = ((r.draft.feet ??= {})[foot] ??= {});
      one.lifted = true;
      one.note = 'sound';
    }
    r.say(at, at + 1, `${feet.join(', ')}: sound`);
    return at + 1;
  }
  return undefined;
}
