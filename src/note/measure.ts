import { daysBetween } from '../record/calendar-day.js';
import { terminal } from '../problem/message.js';
import type { Found } from '../record/visit.js';
import { familyOf, type LesionFamily } from '../reference/lesions.js';
import { isOne } from './note-words.js';
import { afterSpan } from './day-said.js';
import { inMm, type NumberSaid } from './number-said.js';
import { isScore, type VisitReader } from './visit-reader.js';

export const wall: readonly LesionFamily[] = ['wall'];

const area: readonly LesionFamily[] = ['ulcer', 'dermatitis', 'double sole', 'toe necrosis'];

export const every: readonly LesionFamily[] = [
  'wall',
  'ulcer',
  'dermatitis',
  'double sole',
  'toe necrosis',
  'present',
];

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

function readKeyed(r: VisitReader, at: number, key: string): number | undefined {
  const item = r.items[at]!;
  if (item.bare === 't' || item.bare === 'w') if (!r.items[at + 1]?.glued) return undefined;
  let number = r.skip(at + 1, 'before a length');
  // `wall length 43`, `top of gap`.
  if (r.items[number]?.is.has('at-length')) number = r.skip(number + 1);
  const said = r.items[number];
  if (said?.kind !== 'number' || !said.number) return undefined;
  return readLength(r, at, number, number + 1, key);
}

/** A bare number, or one with its word behind it. */
function readNumber(r: VisitReader, at: number): number | undefined {
  // `front wall 42` is its length where her wall is about that long; else the place of what follows.
  const before = r.items[at - 1];
  if (before?.is.has('site') && before.bare.endsWith('wall')) {
    const [gap] = r.lesionsFor(wall) ?? [];
    const length = gap === undefined ? undefined : r.before(gap, 'wall');
    if (length !== undefined && Math.abs(inMm(r.items[at]!.number!, length) - length) <= 4)
      return readLength(r, at, at, at + 1, 'wall');
  }
  const after = r.items[at + 1];
  const key = after?.is.get('length');
  const behind = r.items[r.skip(at + 2)];
  if (
    key !== undefined &&
    (isOne('behind a length', after!.bare) || !(behind?.kind === 'number' || behind?.kind === 'pair'))
  ) {
    if (isOne('behind a length', after!.bare) || key !== 'top') return readLength(r, at, at, at + 2, key);
  }
  if (after?.is.get('at-length') === 'down')
    return readLength(r, at, at, at + 2, r.place.mark ? 'distance' : 'top');
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
  if (last === undefined) return true;
  const visit = r.animal.visits
    .filter(({ date }) => date < r.date)
    .findLast((one) => one.found?.[name]?.top !== undefined);
  const months = daysBetween(visit!.date, r.date) / 30;
  return mm >= last - 15 && mm <= last + 6 + 9 * months;
}

function readLength(
  r: VisitReader,
  from: number,
  number: number,
  next: number,
  key: string | undefined,
): number | undefined {
  const figures = r.items[number]!.number!;
  // `3,0 cm, wall 5,9`: the unit holds for the next.
  const isCm = figures.unit === undefined && r.lastUnit === 'cm' && figures.value < 15;
  const said: NumberSaid = isCm ? { ...figures, unit: 'cm' } : figures;
  r.lastUnit = figures.unit ?? r.lastUnit;
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
  if (r.modality.corrected !== undefined && key === undefined && r.lastPut)
    return putRight(r, from, said, end);
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
  // `55 down, 80 long`: her wall is about as long.
  if (key === 'length' && isWallMeant(r)) {
    const [gap, ...more] = r.lesionsFor(wall) ?? [];
    const before = gap === undefined ? undefined : r.before(gap, 'wall');
    if (more.length === 0 && before !== undefined && isClose(inMm(said, before), before))
      return readLength(r, from, number, next, 'wall');
  }
  if (key === 'wall' || key === undefined) {
    const all = wallOfEach(r, from, end, said);
    if (all !== undefined) return all;
  }
  if (key === 'wall') {
    // No wall is as short as that, on any line of any cow.
    if (inMm(said) < 15 && said.unit === undefined && !said.parts) return undefined;
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
  const meant = r.last === undefined ? (r.place.codes ?? []) : [r.codeOf(r.last)];
  const onFoot = r.place.feet && r.candidates(every).every((name) => isOfFamily(r, name, area));
  if (!onFoot && !meant.some((code) => code !== undefined && area.includes(familyOf(code)))) return undefined;
  const names = r.lesionsFor(area);
  if (names?.length !== 1 || r.draft.found?.[names[0]!]?.length !== undefined) return undefined;
  return written(r, from, end, names, { length: inMm(said, r.before(names[0]!, 'length')) }, area);
}

/** `left 33, right 22, wall 44 on both`: one length, said of all gaps measured in one breath, each about as long before. */
function wallOfEach(r: VisitReader, from: number, end: number, said: NumberSaid): number | undefined {
  const behind = r.skip(end);
  const isBoth = r.modality.both === true || r.items[behind]?.is.has('both') === true;
  if (!isBoth) return undefined;
  const gaps = r.measured.filter(
    (name) => isOfFamily(r, name, wall) && r.draft.found?.[name]?.wall === undefined,
  );
  const near = (name: string): boolean =>
    isClose(inMm(said, r.before(name, 'wall')), r.before(name, 'wall') ?? Number.NaN);
  if (gaps.length < 2 || !gaps.every(near)) return undefined;
  const to = r.items[behind]?.is.has('both') ? behind + 1 : end;
  return r.putFound(from, to, gaps, 'wall', inMm(said, r.before(gaps[0]!, 'wall'))) ? to : undefined;
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
  // `top 15/43`: the word says what the pair does.
  const from = r.items[at - 1]?.is.has('length') ? at - 1 : at;
  if (!doubted) return written(r, from, end, names, { top, wall: height }, wall);
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

/** `LS 1, call it 0`, `in 6 weeks. Make that 8`: a bare figure in place of the score or the weeks said last. */
function putRight(
  r: VisitReader,
  from: number,
  { value, unit }: NumberSaid,
  end: number,
): number | undefined {
  const { key, days } = r.lastPut!;
  if (unit !== undefined) return undefined;
  if (key === 'gait' && r.scale !== undefined && isScore(r.scale, value))
    return r.put(from, end, 'gait', value) ? end : undefined;
  const day =
    key === 'recheck' && days !== undefined
      ? afterSpan(r.date, { days: value * days, months: 0 })
      : undefined;
  if (day === undefined || !r.put(from, end, 'recheck', day)) return undefined;
  r.lastPut = { key, ...(days === undefined ? {} : { days }) };
  return end;
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
