import type { Claw, Foot, LesionCode, Site } from '../record/words.js';
import { familyOf, lesionKinds } from '../reference/lesions.js';
import { type Item, saysNothing } from './item.js';
import { every } from './measure.js';
import { isOne } from './note-words.js';
import type { PlaceSaid, VisitReader } from './visit-reader.js';

const placeKinds = ['foot', 'side', 'end', 'claw', 'lesion', 'site', 'mark', 'new', 'called'];

/** Where words point from a piece on, and the first piece behind them. */
export function placeAt(
  r: VisitReader,
  at: number,
): { readonly place: PlaceSaid; readonly next: number } | undefined {
  const place: PlaceSaid = {};
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
  // `white line rear, a hole`: the place on the claw says which kind of gap.
  if (place.site?.startsWith('white line') && (place.codes?.includes('WL') ?? place.feet !== undefined))
    place.codes = ['WL', 'WLF', 'WLA'];
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
function isSide(r: VisitReader, at: number, next: number, place: PlaceSaid): boolean {
  if (place.codes || place.claw) return true;
  const after = r.items[r.skip(next)];
  const before = r.items[at - 1];
  if (before && isOne('where', before.bare)) return true;
  if (!after) return false;
  return after.kind === 'number' || after.kind === 'pair' || ['one', 'block', 'wrap', 'stage', 'claw-state', 'carrying', 'length', 'claw-noun', 'state', 'trimmed'].some((kind) => after.is.has(kind)) || isOne('was not', r.items[next]?.bare); // prettier-ignore
}

/** The feet a side may mean: those with a lesion of hers, or with a block. */
export function sideFeet(r: VisitReader, side: string, sure: boolean): Foot[] {
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

function addPart(r: VisitReader, place: PlaceSaid, item: Item, index: number, at: number): boolean {
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
  // `block off. the ulcer is covered`: hers, not one of the claw that carried the block.
  const isHers = after?.is.has('state') === true && r.items.slice(r.start(at), at).every(saysNothing);
  const isOfClaw = is.has('claw-state') && r.bared.length > 0 && index === at && !isHers;
  if (code !== undefined && !isOfClaw) {
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
  // `lame RF: foul`: the kind behind its foot.
  const feet = r.place.feet;
  if (
    place.codes &&
    !place.feet &&
    !place.names &&
    feet?.length === 1 &&
    !r.place.codes &&
    r.candidates(every, place).length === 0
  )
    place.feet = feet;
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

function placeInWords({ feet = [], claw, codes, site, mark, isNew, names }: PlaceSaid): string {
  const kind = mark ? 'mark' : [...new Set((codes ?? []).map((code) => lesionKinds[code].name))].slice(0, 2).join(' or '); // prettier-ignore
  return [isNew ? 'new' : '', ...feet, claw ?? '', kind, site ?? '', ...(names ?? [])]
    .filter(Boolean)
    .join(' ');
}
