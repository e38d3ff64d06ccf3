import type { Found } from '../record/visit.js';
import {
  type Claw,
  ddStages,
  type Foot,
  type LesionCode,
  type LesionState,
  type Sign,
  type Site,
  type Tool,
  type TopFound,
} from '../record/words.js';
import { terminal } from '../problem/message.js';
import { familyOf, type LesionFamily, lesionKinds } from '../reference/lesions.js';
import { type Item, saysNothing } from './item.js';
import { inMm, type NumberSaid } from './number-said.js';
import { oneCode, type Place, type VisitReader } from './visit-reader.js';

const wall: readonly LesionFamily[] = ['wall'];
const area: readonly LesionFamily[] = ['ulcer', 'dermatitis', 'double sole', 'toe necrosis'];
const every: readonly LesionFamily[] = [
  'wall',
  'ulcer',
  'dermatitis',
  'double sole',
  'toe necrosis',
  'present',
];

const placeKinds = ['foot', 'side', 'end', 'claw', 'lesion', 'site', 'mark', 'new', 'called'];

/** Where words point from a piece on, and the first piece behind them. */
export function placeAt(
  r: VisitReader,
  at: number,
): { readonly place: Place; readonly next: number } | undefined {
  const place: Place = {};
  let side: string | undefined;
  let end: string | undefined;
  let next = at;
  for (let index = at; index < r.items.length; index += 1) {
    const item = r.items[index]!;
    const own = nameSaid(r, index);
    if (own) {
      if (index !== at && place.names) break;
      place.names = [own.name];
      next = own.next;
      index = next - 1;
      continue;
    }
    // A toe is a claw to many; behind foot, claw and gap it is where on the claw.
    if (
      item.bare === 'toe' &&
      place.feet &&
      place.claw &&
      place.codes?.every((code) => familyOf(code) === 'wall') &&
      !place.site &&
      index === next &&
      (r.items[index + 1] === undefined || r.items[index + 1]!.kind !== 'phrase')
    ) {
      place.site = 'toe';
      next = index + 1;
      continue;
    }
    if (!placeKinds.some((kind) => item.is.has(kind)) || (item.is.has('event') && item.is.size === 1)) {
      if (next > at && item.is.has('limb')) {
        next = index + 1;
        continue;
      }
      const lists =
        item.bare === 'and' &&
        place.feet &&
        Object.keys(place).length === 1 &&
        r.items[index + 1]?.is.has('foot') &&
        !beginsFinding(r, index + 2);
      if (lists) continue;
      // `of`, `the`, `on`, a comma between the parts of one place.
      if (next > at && index < next + 3 && (saysNothing(item) || (item.bare === ',' && index === next)) && !['and', 'but', 'is', 'was', 'off', 'out', 'up'].includes(item.bare) && item.kind !== 'line' && item.kind !== 'stop' && !/^[(:;–-]$/.test(item.bare)) continue; // prettier-ignore
      break;
    }
    if (!addPart(r, place, item, index, at)) {
      const part = item.is.get('side');
      const limb = item.is.get('end');
      if (part !== undefined && side === undefined && !place.feet) side = part;
      else if (limb !== undefined && end === undefined && !place.feet) end = limb;
      else break;
    }
    next = index + 1;
    if (side !== undefined && end !== undefined && !place.feet) place.feet = [footOf(side, end)];
  }
  if (next === at || (side === undefined && Object.keys(place).length === 0)) return undefined;
  if (side !== undefined && !place.feet) {
    if (!isSide(r, at, next, place))
      return Object.keys(place).length > 0 && next > at + 1 ? { place, next } : undefined;
    const feet = sideFeet(r, side, place.codes !== undefined || place.claw !== undefined);
    if (feet.length !== 1) return undefined;
    place.feet = feet;
  }
  return { place, next };
}

/** `RF and LH DD M2`: the second foot is of the next finding. */
function beginsFinding(r: VisitReader, at: number): boolean {
  const item = r.items[at];
  return (
    item !== undefined &&
    (item.kind === 'pair' ||
      item.kind === 'number' ||
      ['lesion', 'claw', 'stage', 'state', 'sign'].some((kind) => item.is.has(kind)))
  );
}

const footOf = (side: string, end: string): Foot =>
  `${side === 'left' ? 'L' : 'R'}${end === 'hind' ? 'H' : 'F'}`;

/** `left` and `right` mean a foot where something is said of it. */
function isSide(r: VisitReader, at: number, next: number, place: Place): boolean {
  if (place.codes || place.claw) return true;
  const after = r.items[r.skip(next)];
  const before = r.items[at - 1];
  if (before && /^(?:the|of|in|under|on|both)$/.test(before.bare)) return true;
  if (!after) return false;
  return after.kind === 'number' || after.kind === 'pair' || ['one', 'block', 'wrap', 'stage', 'claw-state', 'carrying', 'length', 'claw-noun', 'state', 'trimmed'].some((kind) => after.is.has(kind)) || /^(?:is|was|not)$/.test(r.items[next]?.bare ?? ''); // prettier-ignore
}

/** The feet a side may mean: those with a lesion of hers, or with a block. */
function sideFeet(r: VisitReader, side: string, sure: boolean): Foot[] {
  const letter = side === 'left' ? 'L' : 'R';
  const end = r.foot?.[1];
  const feet = new Set([...r.lesionNames.filter((name) => r.isOpen(name)).map((name) => r.declared(name)!.foot), ...r.blocksOn().map(({ foot }) => foot)]); // prettier-ignore
  const on = [...feet].filter((foot) => foot.startsWith(letter));
  const near = on.filter((foot) => foot[1] === end);
  return near.length > 0 ? near : on.length > 0 ? on : end && sure ? [`${letter}${end}` as Foot] : [];
}

/** `lesion b`, `a:`, `m1`. */
function nameSaid(r: VisitReader, at: number): { name: string; next: number } | undefined {
  const item = r.items[at]!;
  const names = [...r.lesionNames, ...Object.keys(r.animal.marks ?? {})];
  const after = r.items[at + 1];
  if (item.is.has('called') || item.is.has('mark')) {
    const whole =
      after && r.items[at + 2]?.glued && r.items[at + 2]!.kind === 'number'
        ? after.text + r.items[at + 2]!.text
        : after?.text;
    const name = names.find((one) => one === whole?.toLowerCase());
    if (name !== undefined) return { name, next: at + (whole === after!.text ? 2 : 3) };
    return undefined;
  }
  // `m1`: small or the only thing she has by that name.
  if (item.bare === 'm' && after?.glued && after.kind === 'number') {
    const name = `m${after.text}`;
    const hasMark = Object.hasOwn(r.animal.marks ?? {}, name);
    const skin = r.candidates(['dermatitis'], {}).length > 0;
    if (hasMark && (item.text === 'm' || !skin)) return { name, next: at + 2 };
  }
  const isAlone =
    after?.bare === ':' && (at === 0 || /^(?:line|stop|mark|number)$/.test(r.items[at - 1]!.kind));
  const name = isAlone ? names.find((one) => one === item.bare) : undefined;
  return name === undefined ? undefined : { name, next: at + 1 };
}

function addPart(r: VisitReader, place: Place, item: Item, index: number, at: number): boolean {
  const { is } = item;
  const after = r.items[r.skip(index + 1)];
  const foot = is.get('foot');
  if (foot !== undefined) {
    const words = foot.split(' ');
    const feet = words.filter((word) => /^[LR][FH]$/.test(word)) as Foot[];
    if (place.feet && (place.claw || place.codes)) return false;
    place.feet = [...(place.feet ?? []), ...feet];
    const claw = words.find((word) => word === 'outer' || word === 'inner');
    if (claw !== undefined) place.claw = claw;
    return true;
  }
  const code = is.get('lesion');
  if (code !== undefined && !(is.has('claw-state') && r.bared.length > 0 && index === at)) {
    if (place.codes || place.mark) return false;
    place.codes = code.split(' ') as LesionCode[];
    return true;
  }
  const claw = is.get('claw');
  if (claw !== undefined && claw !== 'same') {
    if (place.claw || claw === 'other') return false;
    place.claw = claw as Claw;
    return true;
  }
  if (claw === 'same') return true;
  if (is.has('mark')) {
    if (place.codes || place.mark) return false;
    place.mark = true;
    return true;
  }
  const site = is.get('site');
  if (site !== undefined && (place.feet || place.codes || after?.is.has('lesion'))) {
    if (place.site) return false;
    place.site = site as Site;
    return true;
  }
  if (
    is.has('new') &&
    (place.feet ||
      place.codes ||
      ['foot', 'lesion', 'claw', 'side'].some((kind) => after?.is.has(kind)) ||
      r.items[index + 1]?.bare === ':')
  ) {
    // prettier-ignore
    place.isNew = true;
    return true;
  }
  return false;
}

/** What is spoken of from here on. */
export function readPlace(r: VisitReader, at: number): number | undefined {
  const said = placeAt(r, at);
  if (!said) return undefined;
  const { place } = said;
  // A claw alone goes with what is spoken of; a kind alone may be on any foot.
  const keys = Object.keys(place);
  if (keys.length === 1 && place.claw) return undefined;
  if (keys.length === 1 && place.site) return undefined;
  if (keys.length === 1 && place.isNew) return undefined;
  r.place = place;
  r.placeAt = [at, said.next];
  r.modality.both = undefined;
  if (r.modality.corrected !== undefined) r.lastKey = undefined;
  if (place.feet?.length === 1) [r.foot] = place.feet;
  const names = place.names ?? r.candidates(every);
  if (names.length === 1 && (place.codes || place.names)) {
    r.last = names[0];
    r.foot = r.declared(names[0]!)?.foot ?? r.foot;
  } else if (r.last !== undefined && !names.includes(r.last)) r.last = undefined;
  const fresh =
    place.codes !== undefined &&
    !place.names &&
    names.length === 0 &&
    place.codes.every((code) => familyOf(code) === 'present');
  if (fresh && !r.suppressed && r.modality.doubted === undefined) {
    const met = r.lesionsFor(['present']);
    if (met?.length === 1) {
      r.found(met[0]!).state ??= 'present';
      [r.last] = met;
    }
  }
  if (!r.suppressed) {
    r.say(at, said.next, placeInWords(place));
    for (let index = at; index < said.next; index += 1) r.heard.push(index);
  }
  return said.next;
}

function placeInWords({ feet = [], claw, codes, site, mark, isNew, names }: Place): string {
  const kind = mark ? 'mark' : [...new Set((codes ?? []).map((code) => lesionKinds[code].name))].slice(0, 2).join(' or '); // prettier-ignore
  return [isNew ? 'new' : '', ...feet, claw ?? '', kind, site ?? '', ...(names ?? [])]
    .filter(Boolean)
    .join(' ');
}

/** A number or two of them: what they measure by the word beside them, by what is spoken of, by what her record makes likely. */
export function readMeasure(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  if (item.pair) return readPair(r, at);
  const key = item.is.get('length');
  if (key !== undefined) return readKeyed(r, at, key);
  if (item.is.has('at-length')) {
    const number = r.skip(at + 1);
    const said = r.items[number];
    if (said?.kind === 'number' && said.number)
      return readLength(r, at, number, number + 1, r.place.mark ? 'distance' : 'top');
    return undefined;
  }
  if (item.kind !== 'number' || !item.number) return undefined;
  return readNumber(r, at);
}

const postfix =
  /^(?:wide|across|broad|in width|long|in length|deep|in depth|of wall|down|from the .*|of the hair|below the .*|down from .*)$/;

function readKeyed(r: VisitReader, at: number, key: string): number | undefined {
  const item = r.items[at]!;
  if (item.bare === 't' || item.bare === 'w') if (!r.items[at + 1]?.glued) return undefined;
  let number = r.skip(
    at + 1,
    /^(?:there|is|was|now|at|down to|gone to|length|=|measured|measures|come down to|still|about)$/,
  );
  // `wall length 43`, `top of gap`.
  if (r.items[number]?.is.has('at-length')) number = r.skip(number + 1);
  const said = r.items[number];
  if (said?.kind !== 'number' || !said.number) return undefined;
  return readLength(r, at, number, number + 1, key);
}

/** A bare number, or one with its word behind it. */
function readNumber(r: VisitReader, at: number): number | undefined {
  const after = r.items[at + 1];
  const key = after?.is.get('length');
  const behind = r.items[r.skip(at + 2)];
  if (
    key !== undefined &&
    (postfix.test(after!.bare) || !(behind?.kind === 'number' || behind?.kind === 'pair'))
  ) {
    if (postfix.test(after!.bare) || key !== 'top') return readLength(r, at, at, at + 2, key);
  }
  if (after?.is.get('at-length') === 'down') return readLength(r, at, at, at + 2, 'top');
  return readLength(r, at, at, at + 1, undefined);
}

function nearWall(r: VisitReader, value: (near: number | undefined) => number): (name: string) => boolean {
  return (name) => {
    const length = r.before(name, 'wall');
    return length !== undefined && Math.abs(value(length) - length) <= 3;
  };
}

/** Whether a reading fits what was read there before: horn grows down some 5 mm a month, and a gap may run up. */
function isLikelyTop(r: VisitReader, name: string, mm: number): boolean {
  const [last, length] = [r.before(name, 'top'), r.draft.found?.[name]?.wall ?? r.before(name, 'wall')];
  if (length !== undefined && mm > length + 2) return false;
  return last === undefined || (mm >= last - 15 && mm <= last + 30);
}

function readLength(
  r: VisitReader,
  from: number,
  number: number,
  next: number,
  key: string | undefined,
): number | undefined {
  const said = r.items[number]!.number!;
  const end = next === number + 1 ? number + 1 : next;
  // `20-22` is neither.
  if (
    r.items[number - 1]?.bare === '-' &&
    r.items[number - 1]!.glued &&
    r.items[number - 2]?.kind === 'number'
  )
    return undefined;
  if (
    r.items[number + 1]?.bare === '-' &&
    r.items[number + 1]!.glued &&
    r.items[number + 2]?.kind === 'number' &&
    r.items[number + 2]!.glued
  )
    return undefined;
  if (r.modality.corrected !== undefined && key === undefined && r.lastKey?.keys.length)
    return readCorrected(r, from, said, end);
  // A name of a place or a mark before it.
  if (
    (r.place.mark || r.place.names?.some((name) => Object.hasOwn(r.animal.marks ?? {}, name))) &&
    (key === undefined || key === 'distance')
  ) {
    const mark = markFor(r);
    if (mark === undefined) return undefined;
    return written(r, from, end, [mark], { distance: inMm(said, r.before(mark, 'distance')) }, wall);
  }
  // A top and a wall are a gap's, whatever was spoken of last.
  if (
    (key === 'wall' || key === 'top') &&
    r.place.codes &&
    !r.place.codes.some((code) => familyOf(code) === 'wall')
  )
    r.place = r.place.feet ? { feet: r.place.feet } : {};
  if (key === 'wall') {
    const names = r.lesionsFor(
      wall,
      nearWall(r, (near) => inMm(said, near)),
    );
    return names && written(r, from, end, names, { wall: inMm(said, r.before(names[0]!, 'wall')) }, wall);
  }
  if (key === 'top') {
    const names = r.lesionsFor(wall);
    if (!names) return r.askLesion(from, end, wall) ? end : undefined;
    return written(r, from, end, names, { top: inMm(said, r.before(names[0]!, 'top')) }, wall);
  }
  if (key === 'width' || key === 'length' || key === 'depth') {
    const all = key === 'length' ? area : [...area, ...wall];
    const names =
      r.last !== undefined && isOfFamily(r, r.last, all) && !r.place.isNew ? [r.last] : r.lesionsFor(all);
    return names && written(r, from, end, names, { [key]: inMm(said, r.before(names[0]!, key)) }, all);
  }
  if (said.unit === 'kg' || said.unit === 'lb') return undefined;
  // Bare: the top of the gap spoken of, then its wall.
  const gaps = isWallMeant(r) ? r.lesionsFor(wall) : undefined;
  if (gaps?.length === 1) {
    const [gap] = gaps;
    const [mm, height] = [inMm(said, r.before(gap!, 'top')), inMm(said, r.before(gap!, 'wall'))];
    const found = r.draft.found?.[gap!];
    if (r.modality.corrected !== undefined && isLikelyTop(r, gap!, mm))
      return written(r, from, end, gaps, { top: mm }, wall);
    if (
      found?.top !== undefined &&
      found.wall === undefined &&
      height >= found.top &&
      isClose(height, r.before(gap!, 'wall'))
    )
      // prettier-ignore
      return written(r, from, end, gaps, { wall: height }, wall);
    if (found?.wall === height && found.top !== undefined)
      return written(r, from, end, gaps, { wall: height }, wall);
    if (found?.top === undefined && isLikelyTop(r, gap!, mm) && mm > 3)
      return written(r, from, end, gaps, { top: mm }, wall);
    return undefined;
  }
  // `RH M1 8mm`: one length of a sore patch.
  if (said.unit === undefined) return undefined;
  const names = r.lesionsFor(area);
  if (names?.length !== 1 || r.draft.found?.[names[0]!]?.length !== undefined) return undefined;
  return written(r, from, end, names, { length: inMm(said, r.before(names[0]!, 'length')) }, area);
}

function isClose(one: number, other: number | undefined): boolean {
  return other === undefined || Math.abs(one - other) <= 4;
}

/** Whether what is spoken of is a gap: said so, or the only thing on that foot. */
function isWallMeant(r: VisitReader): boolean {
  const { codes, names } = r.place;
  if (codes) return codes.some((code) => familyOf(code) === 'wall');
  if (names) return names.some((name) => isOfFamily(r, name, wall));
  if (r.last !== undefined) return isOfFamily(r, r.last, wall);
  return (
    r.candidates(every).every((name) => isOfFamily(r, name, wall)) &&
    (r.place.feet !== undefined || r.foot !== undefined)
  );
}

export function isOfFamily(r: VisitReader, name: string, families: readonly LesionFamily[]): boolean {
  const code = r.codeOf(name);
  return code !== undefined && families.includes(familyOf(code));
}

function markFor(r: VisitReader): string | undefined {
  const marks = Object.entries(r.animal.marks ?? {});
  if (r.place.names) return r.place.names[0];
  const fit = marks.filter(
    ([, { foot, claw }]) =>
      (!r.place.feet || r.place.feet.includes(foot)) && (!r.place.claw || r.place.claw === claw),
  );
  return fit.length === 1 ? fit[0]![0] : undefined;
}

function readPair(r: VisitReader, at: number): number | undefined {
  const { one, other, joined, doubted } = r.items[at]!.pair!;
  if (other.value > 250 || one.value > 250) return undefined;
  const end = at + 1;
  if (r.modality.corrected !== undefined && r.lastKey?.keys.length === 2) {
    const [first, second] = r.lastKey.keys;
    return written(r, at, end, [r.lastKey.name], { [first!]: inMm(one), [second!]: inMm(other) }, every);
  }
  const isArea = joined === 'times' || (!isWallMeant(r) && r.candidates(wall).length === 0);
  if (isArea) {
    const names = areaFor(r);
    if (!names) return r.askLesion(at, end, area) ? end : undefined;
    const [name] = names;
    const [length, width] = [inMm(one, r.before(name!, 'length')), inMm(other, r.before(name!, 'width'))];
    // The longer is the length, whichever was said first.
    return written(
      r,
      at,
      end,
      names,
      { length: Math.max(length, width), width: Math.min(length, width) },
      area,
    );
  }
  const names = r.lesionsFor(
    wall,
    nearWall(r, (near) => inMm(other, near)),
  );
  if (names?.length !== 1) return names === undefined && r.askLesion(at, end, wall) ? end : undefined;
  const near = r.before(names[0]!, 'wall');
  const [top, height] = [inMm(one, r.before(names[0]!, 'top')), inMm(other, near)];
  if (top > height + 2 || height > 150) return undefined;
  if (!doubted) return written(r, at, end, names, { top, wall: height }, wall);
  if (r.suppressed) return undefined;
  r.found(names[0]!).wall = height;
  r.measured.push(names[0]!);
  r.last = names[0];
  r.ask(at, end, 'not-sure', { what: `${names[0]}: top ${top}` }, [{ label: terminal('note.ask.not-sure.yes', { what: `top ${top}` }), text: `${top}/${height}` }]); // prettier-ignore
  return end;
}

/** An ulcer's or a sore patch's two widths: of the kind spoken of, else of the only one on that foot. */
function areaFor(r: VisitReader): string[] | undefined {
  if (r.last !== undefined && isOfFamily(r, r.last, area) && !r.place.isNew) return [r.last];
  return r.lesionsFor(area);
}

function readCorrected(r: VisitReader, from: number, said: NumberSaid, end: number): number | undefined {
  const { name, keys } = r.lastKey!;
  const [key] = keys;
  const value = inMm(said, r.draft.found?.[name]?.[key!] as number | undefined);
  return written(r, from, end, [name], { [key!]: value }, every);
}

/** Lengths under their keys; a doubting `about` before them asks about them alone. */
function written(
  r: VisitReader,
  from: number,
  end: number,
  names: readonly string[],
  lengths: Partial<Record<'top' | 'wall' | 'width' | 'length' | 'depth' | 'distance', number>>,
  of: readonly LesionFamily[],
): number | undefined {
  if (Object.values(lengths).some((mm) => !(mm >= 0 && mm <= 200))) return undefined;
  const taken = names.filter((name) => Object.hasOwn(r.animal.marks ?? {}, name) || isOfFamily(r, name, of));
  if (taken.length === 0 || taken.length > 1) return undefined;
  const [name] = taken;
  let wrote = true;
  for (const [key, mm] of Object.entries(lengths))
    wrote = r.putFound(from, end, [name!], key as 'top', mm) && wrote;
  if (!wrote) return undefined;
  r.last = name;
  r.foot = r.declared(name!)?.foot ?? r.foot;
  r.lastKey = { name: name!, keys: Object.keys(lengths) as (keyof Found)[] };
  if (!r.measured.includes(name!)) r.measured.push(name!);
  r.modality.corrected = undefined;
  return end;
}

/** `M2`, `m two`, `stage two`, `M4.1`. */
export function readStage(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  if (!item.is.has('stage')) return undefined;
  const letter = r.items[at + 1]?.bare === 'm' ? at + 1 : at;
  const number = /^(?:m|em)$/.test(r.items[letter]!.bare) ? letter + 1 : r.skip(at + 1);
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

/** How a lesion stands. */
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
  if (
    names === undefined &&
    (r.place.codes || r.place.feet) &&
    r.modality.doubted === undefined &&
    r.askLesion(at, at + 1, families)
  )
    return at + 1;
  if (names?.length !== 1) return undefined;
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
    /^(?:gone down|down|less|better|going|much better|settled|improving|nearly gone)$/.test(
      after?.bare ?? '',
    ) ||
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
    const found = holder === undefined ? (((r.draft.feet ??= {})[foot!] ??= {}) as Found) : r.found(holder);
    found.signs = [...new Set([...(found.signs ?? []), sign])];
  });
  return wrote ? at + 1 : undefined;
}

/** Whether a sign, or the list it stands in, is said to be gone; in a list with commas that may be said of the last alone. */
function goneBehind(r: VisitReader, at: number): 'gone' | 'perhaps' | undefined {
  let comma = false;
  for (let next = at + 1; next < at + 9; next += 1) {
    const item = r.items[next];
    if (item === undefined || item.kind === 'line' || item.kind === 'stop') return undefined;
    if (item.is.has('no-more')) return comma ? 'perhaps' : 'gone';
    if (item.bare === ',') comma = true;
    else if (!item.is.has('sign') && !/^(?:and|or|is|are|all|has|have|now)$/.test(item.bare))
      return undefined;
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
  const after = r.items[r.skip(at + 1, /^(?:for)$/)];
  const behind = after?.is.has('both') && /^(?:both|all|each|all two)/.test(after.bare);
  const both =
    r.modality.both ||
    behind ||
    bothFollows(r, at) ||
    item.bare.includes('both') ||
    (r.items[at - 1]?.is.has('both') ?? false);
  const broken = after && /^(?:broken|was broken|forgotten|lost)$/.test(after.bare);
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
  if (!both && tool !== undefined && names.length === 1 && isMark(names[0]!))
    names = r.measured.filter((name) => r.draft.found?.[name]?.tool === undefined && inSentence(name));
  // A sentence of its own is of all that was measured before it.
  const alone = !r.measured.some(inSentence);
  if (!both && tool !== undefined && alone)
    names = r.measured.filter((name) => r.draft.found?.[name]?.tool === undefined);
  // `LH 18/60 RH 25/44, tape`: one word for what was measured alike in one breath.
  if (!both && !alone && tool !== undefined && names.length === 1 && !isMark(names[0]!))
    names = alike(r, at, names[0]!);
  if (names.length === 0 && how !== undefined && (r.place.codes || r.place.feet || r.last !== undefined))
    names = r.lesionsFor(wall) ?? [];
  if (names.length === 0) return undefined;
  const end = behind ? r.skip(at + 1, /^for$/) + 1 : at + 1;
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
      !(
        is.has('tool') ||
        is.has('top-found') ||
        is.has('cut-back') ||
        bare === ',' ||
        /^(?:with|by|the|and)$/.test(bare)
      )
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

/** What it did: ran up, opened further, is infected, how its wall was read. */
export function readFlag(r: VisitReader, at: number): number | undefined {
  const { is } = r.items[at]!;
  for (const key of ['ran-up', 'opened-further', 'infected', 'wall-at', 'wall-lowered'] as const) {
    const value = is.get(key);
    if (value === undefined) continue;
    // Lowered when all was measured, it changed no length.
    if (key === 'wall-lowered' && r.items[at + 1]?.bare.startsWith('after') === true) return undefined;
    const names = r.last !== undefined && isOfFamily(r, r.last, wall) ? [r.last] : r.lesionsFor(key === 'infected' ? ['wall', 'ulcer'] : wall); // prettier-ignore
    if (names?.length !== 1) return undefined;
    const held = key === 'wall-at' ? 'beside' : value === 'yes';
    if (!r.putFound(at, at + 1, names, key, held)) return undefined;
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
  if (words.some(({ bare, is }) => /^(?:she|shes|cow|walks|walking)$/.test(bare) || is.has('gait')))
    return undefined;
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
  const touches =
    at - 1 >= 0 &&
    r.taken.has(before.length > 0 ? before.at(-1)! - 1 : at - 1) &&
    words.every((one) => saysNothing(one));
  if (!feet.length && !side && !claw && !isUnder && !touches) return undefined;
  let blocks = r.bared;
  if (feet.length > 0) blocks = blocks.filter(({ foot }) => feet.includes(foot));
  else if (side) blocks = blocks.filter(({ foot }) => foot.startsWith(side === 'left' ? 'L' : 'R'));
  else if (blocks.length > 1 && !near.some(({ bare }) => /^(?:claws|both|toes|claws underneath|claws under|all)$/.test(bare))) blocks = blocks.slice(-1); // prettier-ignore
  if (claw === 'inner' || claw === 'outer') blocks = blocks.filter((block) => block.claw === claw);
  if (blocks.length === 0) return undefined;
  const start =
    before.length > 0
      ? Math.min(...before.filter((index) => !saysNothing(r.items[index]!) || index === at), at)
      : at;
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
