import { daysBetween } from '../record/calendar-day.js';
import { feet as allFeet, type Foot, type GaitScale } from '../record/words.js';
import { conditionScale, gaitScale } from '../reference/scales.js';
import { afterSpan } from './day-said.js';
import { type Item, saysNothing } from './item.js';
import { isOne, noteWords, turned } from './note-words.js';
import { placeAt } from './place.js';
import { isScore, type VisitReader } from './visit-reader.js';

const scoreWords = turned(noteWords['score-words'], Number);

/** Her score, with how she stood: `mobility 1 on the block`, `she's a 2`, `walks good, 0`. */
export function readWalk(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const { scale } = r;
  if (scale === undefined || onOtherScale(r, at, scale)) return undefined;
  let from = at;
  let number = at;
  if (item.is.has('gait') || item.is.has('sound-walk')) {
    number = at + 1;
    for (let passed = 0; passed < 6; passed += 1, number += 1) {
      const next = r.items[number];
      if (
        !next ||
        next.kind === 'line' ||
        (next.kind === 'stop' && next.bare !== '.') ||
        next.kind === 'stop'
      )
        break;
      if ((next.kind === 'number' && !next.is.has('one')) || (next.pair && passed === 0)) break;
      if (scoreOf(next) !== undefined && !isPreposition(r, number)) break;
      const ours = next.kind === 'number' || next.is.has('sound-walk') || next.is.has('claw-state') || next.is.has('not-lame') || (next.kind === 'mark' && /^[,:=–-]$/.test(next.bare)) || saysNothing(next) || next.is.has('on-block') || next.is.has('gait') || next.is.has('hedge') || (next.figures !== undefined); // prettier-ignore
      if (!ours) return undefined;
      if (next.is.has('hedge')) r.modality.doubted = number;
    }
  } else if (isScoreBefore(r, at)) {
    // `1 mob`
    return r.put(at, at + 2, 'gait', item.number!.value) ? at + 2 : undefined;
  } else if (isScoreAlone(r, at, scale)) {
    return r.put(at, at + 1, 'gait', item.pair?.one.value ?? item.number!.value) ? at + 1 : undefined;
  } else {
    // `she's a 1`, `says a 2`, `was a 1, not a 0`.
    const before = r.items[at - 1];
    // `She is 2.`
    const ends = [undefined, 'line', 'stop', 'mark'].includes(r.items[at + 1]?.kind);
    const isShe = before?.bare === 'shes' || (before?.bare === 'is' && r.items[at - 2]?.bare === 'she') || before?.bare === 'she is'; // prettier-ignore
    if (
      item.kind !== 'number' ||
      !(before?.bare === 'a' || (isShe && ends)) ||
      item.number?.unit !== undefined ||
      item.number?.parts
    )
      return undefined;
    if (
      r.items[at + 1]?.is.has('block') ||
      r.items[at + 1]?.is.has('spans') ||
      r.items[at + 1]?.is.has('limb')
    )
      return undefined;
    from = at - 1;
  }
  // `walks sound, 0`: the figure right behind.
  if (
    !item.is.has('gait') &&
    item.is.has('sound-walk') &&
    (number > at + 2 || r.items[number]?.kind !== 'number')
  )
    return undefined;
  // `the milker reckons she's a 3, but I'd give her a 1`
  if (item.is.has('own-score')) r.modality = { corrected: at, both: r.modality.both };
  const said = r.items[number];
  // `Mob 2/3`: of the scale's highest.
  const ofHighest = said?.pair?.joined === 'over' && said.pair.other.value === gaitScale[scale].highest;
  const value = ofHighest ? said.pair.one.value : said && (said.number?.value ?? scoreOf(said));
  if (said === undefined || value === undefined || said.number?.unit !== undefined || !isScore(scale, value))
    return undefined;
  let next = number + 1;
  const doubt = r.items[next]?.bare === '?';
  const behind = doubt || isOne('on with', r.items[next]?.bare) ? next : r.skip(next, 'only now');
  const onBlock = doubt ? undefined : (onBlockAt(r, behind) ?? onBlockIn(r, at, number));
  if (!r.put(from, next, 'gait', value)) return undefined;
  if (doubt) return next + 1;
  const lead = r.items.slice(Math.max(r.start(from, true), from - 2), from);
  const scored = lead.some(({ bare }) => bare === 'by')
    ? undefined
    : lead.find(({ person }) => person)?.person;
  if (scored && scored.name !== r.reporter && scored.role !== 'people') {
    r.draft['gait-by'] = scored.name;
    for (let at2 = from - lead.length; at2 < from; at2 += 1)
      if (r.items[at2]!.person) r.say(at2, at2 + 1, `gait-by ${scored.name}`);
  }
  if (onBlock && !r.suppressed) {
    r.draft['on-block'] = onBlock.on;
    r.say(onBlock.at, onBlock.next, `on-block ${onBlock.on}`);
    next = Math.max(next, onBlock.next);
  }
  const by =
    r.items[next]?.bare === 'by' || r.items[next]?.is.has('scored-by') ? r.items[next + 1] : undefined;
  if (by?.person && !r.suppressed) {
    r.draft['gait-by'] = by.person.name;
    r.say(next, next + 2, `gait-by ${by.person.name}`);
    next += 2;
  }
  return next;
}

/** Whether the score is given on a scale that is not the farm's: `on the vet's one-to-five sheet she's a 2`. */
function onOtherScale(r: VisitReader, at: number, scale: GaitScale): boolean {
  const { lowest, highest } = gaitScale[scale];
  for (let back = at, stops = 0; back >= 0 && back > at - 25 && stops < 2; back -= 1) {
    const { kind, is } = r.items[back]!;
    if (kind === 'line') return false;
    if (kind === 'stop') stops += 1;
    const other = is.get('other-scale');
    if (other !== undefined) return other !== `${lowest} ${highest}`;
  }
  return false;
}

/** `1 mob` at the end of a clause: the score before its word. */
function isScoreBefore(r: VisitReader, at: number): boolean {
  const [item, word, after] = [r.items[at]!, r.items[at + 1], r.items[at + 2]];
  const ends = after === undefined || ['line', 'stop', 'mark'].includes(after.kind);
  const before = r.items[at - 1];
  const starts = before === undefined || ['line', 'stop', 'mark'].includes(before.kind);
  return item.kind === 'number' && item.number?.unit === undefined && word?.is.has('gait') === true && starts && ends && r.scale !== undefined && isScore(r.scale, item.number?.value ?? -1); // prettier-ignore
}

/**
 * `RH wl 38/60. 0.`, `3 out of 3`: a score and nothing else between stops, behind what was found, where no score is said
 * with its word. At the beginning of a line it may count the lines.
 */
function isScoreAlone(r: VisitReader, at: number, scale: GaitScale): boolean {
  const [before, item, after] = [r.items[at - 1], r.items[at]!, r.items[at + 1]];
  const { number, pair } = item;
  const ofHighest = pair?.joined === 'over' && pair.other.value === gaitScale[scale].highest;
  const said = pair ? (ofHighest ? pair.one : undefined) : item.kind === 'number' ? number : undefined;
  if (said === undefined || said.unit !== undefined || said.parts || !isScore(scale, said.value))
    return false;
  if (r.draft.gait !== undefined || r.ofSeveral) return false;
  const parts = (one: Item | undefined): boolean => one?.kind === 'stop' || one?.bare === ',';
  if (!parts(before) || !(after === undefined || after.kind === 'line' || parts(after))) return false;
  // `1, 2, 3` and `27, 61, 1` are of something else.
  const lists = (mark: number, next: number): boolean =>
    r.items[mark]?.bare === ',' && r.items[next]?.kind === 'number';
  if (lists(at - 1, at - 2) || lists(at + 1, at + 2)) return false;
  const last = r.pieces.at(-1)?.as ?? '';
  if (!pair && (last === '' || /^(?:product|withheld)/.test(last))) return false;
  const [from, to] = r.section;
  return !r.items.slice(from, to).some(({ is }, n, all) => is.has('gait') && all[n + 1]?.kind === 'number');
}

/** `to` and `for` behind a score's word are figures misheard, unless something follows that they lead to. */
function isPreposition(r: VisitReader, at: number): boolean {
  if (!isOne('misheard', r.items[at]!.bare)) return false;
  const next = r.items[r.skip(at + 1)];
  return (
    next?.kind === 'number' &&
    next.number !== undefined &&
    next.number.value < 6 &&
    next.figures?.length === 1
  );
}

function scoreOf(item: Item): number | undefined {
  return item.kind === 'number'
    ? item.number?.value
    : item.kind === 'stop' || item.kind === 'mark'
      ? undefined
      : scoreWords.get(item.bare);
}

function onBlockAt(r: VisitReader, at: number): { on: boolean; at: number; next: number } | undefined {
  const item = r.items[at];
  if (
    (item?.bare === 'on' || item?.bare === 'with') &&
    r.items[at + 1]?.bare === 'it' &&
    r.fixture === 'block'
  )
    return { on: true, at, next: at + 2 };
  const said = item?.is.get('on-block');
  if (said === undefined) return undefined;
  return { on: said === 'yes', at, next: at + 1 };
}

function onBlockIn(
  r: VisitReader,
  from: number,
  to: number,
): { on: boolean; at: number; next: number } | undefined {
  for (let at = from + 1; at < to; at += 1) {
    const said = r.items[at]!.is.get('on-block');
    if (said !== undefined) return { on: said === 'yes', at, next: at };
  }
  return undefined;
}

/** The days one of the last span's figures stood for. */
function spanBefore(r: VisitReader, at: number): number | undefined {
  const span = r.items
    .slice(Math.max(0, at - 10), at)
    .findLast(({ kind, number }) => kind === 'span' && number);
  return span && span.span!.days / span.number!.value;
}

/** Nobody plans to see her again so far ahead: of two readings of a date the nearer is meant. */
const halfYear = 183;

/** When she is to be seen again. */
export function readRecheck(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const behind = r.items[at + 1];
  if (
    item.kind === 'span' &&
    behind?.is.has('recheck') &&
    isOne('again', behind.bare) &&
    !r.suppressed &&
    !ofAnother(r, at)
  ) {
    const day = afterSpan(r.date, item.span!);
    return day !== undefined && r.put(at, at + 2, 'recheck', day) ? at + 2 : undefined;
  }
  const cue = item.is.has('recheck') || (isOne('head of the next visit', item.bare) && (behind?.bare === ':' || r.ofSeveral)); // prettier-ignore
  let when = at;
  if (item.kind === 'span' && r.modality.corrected !== undefined && r.lastPut?.key === 'recheck') when = at;
  else if (cue) {
    when = at + 1;
    while (
      when < at + 5 &&
      r.items[when] &&
      r.items[when]!.kind !== 'span' &&
      r.items[when]!.kind !== 'day' &&
      r.items[when]!.kind !== 'number'
    ) {
      const next = r.items[when]!;
      if (
        !(saysNothing(next) || next.is.has('recheck') || next.is.has('until') || next.bare === ':') ||
        next.kind === 'line' ||
        (next.kind === 'stop' && next.bare !== '.')
      )
        return undefined;
      if (next.kind === 'stop' || next.is.has('negation') || isOne('since', next.bare)) return undefined;
      when += 1;
    }
    if (item.bare === 'over' && r.items[when + 1]?.bare !== 'again') return undefined;
    if (isOne('look', item.bare) && r.items[when]?.kind !== 'span' && r.items[when]?.kind !== 'day')
      return undefined;
  } else if (
    !(r.ofSeveral && (item.kind === 'day' || (item.kind === 'number' && spanBefore(r, at) !== undefined))) &&
    !(
      item.kind === 'span' &&
      isBetween(r, at) &&
      (r.ofSeveral || item.text.endsWith('/52') || isLoneSpan(r, at))
    ) &&
    // `all of them four weeks`
    !(r.ofSeveral && item.kind === 'span' && r.items[at - 1]?.is.has('the-others') === true)
  )
    return undefined;
  const said = r.items[when];
  if (said === undefined) return undefined;
  // `all back in 6 weeks, only 907 back in 2`
  const like =
    (cue || r.ofSeveral) && said.kind === 'number' && said.number?.unit === undefined ? spanBefore(r, when) : undefined; // prettier-ignore
  if (said.kind !== 'span' && said.kind !== 'day' && like === undefined) return undefined;
  if (r.modality.denied !== undefined || r.modality.past !== undefined || ofAnother(r, at)) return undefined;
  let end = when + 1;
  if (r.items[end]?.bare.split(' ')[0] === 'again') end += 1;
  const { planned } = r.modality;
  r.modality.planned = undefined;
  const vague = said.day?.vague === true;
  const span = said.span ?? (like && { days: like * said.number!.value, months: 0 });
  const days = span ? [afterSpan(r.date, span)] : r.days(said.day!, 'next');
  const [day, other] = days;
  let wrote: boolean;
  if (day === undefined || day <= r.date) {
    r.ask(when, when + 1, 'no-such-day', { date: r.date }, []);
    wrote = true;
  } else if (other !== undefined && daysBetween(r.date, other) < halfYear) {
    const choices = [day, other].map((one) => ({ label: one, text: one }));
    r.ask(when, when + 1, 'day-either', { one: day, other }, choices);
    wrote = true;
  } else if (vague) {
    r.ask(when, when + 1, 'which-day', { day }, [{ label: day, text: day }]);
    wrote = true;
  } else wrote = r.put(at, end, 'recheck', day);
  const count = said.number?.value;
  if (said.span && count && r.lastPut?.key === 'recheck')
    r.lastPut = { key: 'recheck', days: said.span.days / count };
  r.modality.planned = planned;
  return wrote ? end : undefined;
}

/** A span by itself, with nothing said before it that it could belong to. */
function isBetween(r: VisitReader, at: number): boolean {
  const [before, after] = [r.items[at - 1], r.items[at + 1]];
  const ends = (item: Item | undefined): boolean =>
    item === undefined || ['line', 'stop', 'mark'].includes(item.kind);
  return ends(before) && ends(after);
}

/** `Four weeks.`, `| 6 wk`: a sentence, a line's end or a cell that is nothing but a span, behind what was found or how she walks. */
function isLoneSpan(r: VisitReader, at: number): boolean {
  if (r.draft.recheck !== undefined || r.items[at]!.span!.days === 1) return false;
  const last = r.pieces.at(-1)?.as ?? '';
  if (/^(?:wrap|ask farm|product|withheld|pain|vet)/.test(last)) return false;
  const before = r.items[at - 1];
  const alone =
    before === undefined || before.kind === 'stop' || before.kind === 'line' || before.bare === '|';
  return alone || /^(?:gait|block|carrying)/.test(last) || / (?:top|wall|width|stage|state)\b/.test(last);
}

/** Whether the vet or the farm is who will look: `she says she will look again`, `the vet is going to`. */
function ofAnother(r: VisitReader, at: number): boolean {
  const start = r.start(at, false);
  let from = at;
  while (
    from > start &&
    !(r.taken.has(from - 1) && !saysNothing(r.items[from - 1]!) && !r.items[from - 1]!.person)
  )
    from -= 1;
  const words = r.items.slice(from, at);
  const plan = words.some(({ is }) => is.has('plan'));
  return words.some(({ person, is }) => person?.role === 'vet' || is.has('vet-noun')) || (plan && words.some(({ bare }) => bare === 'she says' || bare === 'herself')) || r.items[r.skip(at + 1)]?.bare === 'herself' || words.some(({ is, bare }) => is.has('says') && /^says?$/.test(bare)) && r.reporter !== undefined; // prettier-ignore
}

export function readNumbersOfCow(r: VisitReader, at: number): number | undefined {
  const { is } = r.items[at]!;
  for (const key of ['condition', 'weight'] as const) {
    if (!is.has(key)) continue;
    const number = r.skip(at + 1, 'is at');
    const said = r.items[number]?.number;
    if (
      !said ||
      r.items[number]!.kind !== 'number' ||
      (r.items[number + 1]?.bare === '-' && r.items[number + 1]!.glued)
    )
      return undefined;
    if (key === 'weight') {
      const kilos = said.unit === 'lb' ? Math.round(said.value * 0.45359237) : said.value;
      if (kilos < 30 || kilos > 1500 || said.unit === 'mm' || said.unit === 'cm' || said.unit === 'in')
        return undefined;
      return r.put(at, number + 1, 'weight', kilos) ? number + 1 : undefined;
    }
    const scale = r.farm.farm['condition-scale'];
    if (
      scale === undefined ||
      said.value < conditionScale[scale].lowest ||
      said.value > conditionScale[scale].highest
    )
      return undefined;
    return r.put(at, number + 1, 'condition', said.value) ? number + 1 : undefined;
  }
  return undefined;
}

/** `trimmed LH and RH`, `all 4 trimmed`, `did both hinds`. */
export function readTrimmed(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  if (!item.is.has('trimmed') || r.suppressed) return undefined;
  let feet: Foot[] = [];
  let next = at + 1;
  let end = next;
  for (; next < r.items.length && next < end + 3; next += 1) {
    const one = r.items[next]!;
    if (one.kind === 'line' || one.kind === 'stop') break;
    const said = feetAt(r, next);
    if (said) {
      // Feet that begin what is found there are not the list's.
      const behind = r.items[said.next];
      const denied = r.items[r.skip(said.next)];
      if (denied?.is.has('negation') || denied?.is.has('no-feet')) break;
      if (feet.length > 0 && (behind?.is.has('lesion') || behind?.is.has('stage') || behind?.kind === 'pair'))
        break;
      feet = [...feet, ...said.feet];
      next = said.next - 1;
      end = said.next;
    } else if (one.bare === 'only' || !(saysNothing(one) || /^[,&+]$/.test(one.bare))) break;
    if (item.bare === 'did' && feet.length === 0) return undefined;
  }
  let from = at;
  if (feet.length === 0) {
    for (let back = at - 1; back >= r.start(at, true); back -= 1) {
      const said = feetAt(r, back);
      if (said && said.next <= at) {
        feet = [...said.feet, ...feet];
        from = back;
      } else if (
        !saysNothing(r.items[back]!) &&
        r.items[back]!.number?.value !== 4 &&
        !r.items[back]!.is.has('limb')
      )
        break;
    }
    end = at + 1;
  }
  if (feet.length === 0) return undefined;
  const ordered = allFeet.filter((foot) => feet.includes(foot) || r.draft.trimmed?.includes(foot));
  return r.fact(from, end, `trimmed ${ordered.join(' ')}`, () => {
    r.draft.trimmed = ordered;
  })
    ? end
    : undefined;
}

function feetAt(r: VisitReader, at: number): { feet: Foot[]; next: number } | undefined {
  const item = r.items[at]!;
  if (item.bare === 'all' && r.items[at + 1]?.number?.value === 4) {
    const feet = r.items[at + 2]?.is.has('limb') ? at + 3 : at + 2;
    return { feet: [...allFeet], next: feet };
  }
  const said = item.is.has('foot') || item.is.has('side') || item.is.has('end') ? placeAt(r, at) : undefined;
  return said?.place.feet && !said.place.codes ? { feet: [...said.place.feet], next: said.next } : undefined;
}
