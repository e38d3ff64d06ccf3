import type { ProductUse } from '../record/visit.js';
import {
  type FarmTask,
  farmTasks,
  type Foot,
  feet as allFeet,
  type PainRelief,
  type ProductClass,
  type VisitKind,
} from '../record/words.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { conditionScale } from '../reference/scales.js';
import { terminal } from '../problem/message.js';
import { afterSpan } from './day-said.js';
import { placeAt } from './findings.js';
import { type Item, saysNothing } from './item.js';
import { noteWords, turned } from './note-words.js';
import { isScore, type VisitReader } from './visit-reader.js';

const scoreWords = turned(noteWords['score-words'], Number);

/** Her score, with how she stood: `mobility 1 on the block`, `she's a 2`, `walks good, 0`. */
export function readWalk(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const { scale } = r;
  if (scale === undefined) return undefined;
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
      if (next.kind === 'number' && !next.is.has('one')) break;
      if (scoreOf(next) !== undefined && !isPreposition(r, number)) break;
      const ours = next.kind === 'number' || next.is.has('sound-walk') || next.is.has('claw-state') || next.is.has('not-lame') || (next.kind === 'mark' && /^[,:=–-]$/.test(next.bare)) || saysNothing(next) || next.is.has('on-block') || next.is.has('gait') || next.is.has('hedge') || (next.figures !== undefined); // prettier-ignore
      if (!ours) return undefined;
      if (next.is.has('hedge')) r.modality.doubted = number;
    }
  } else {
    // `she's a 1`, `says a 2`, `was a 1, not a 0`.
    const before = r.items[at - 1];
    if (
      item.kind !== 'number' ||
      before?.bare !== 'a' ||
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
  const said = r.items[number];
  const value = said && (said.number?.value ?? scoreOf(said));
  if (said === undefined || value === undefined || said.number?.unit !== undefined || !isScore(scale, value))
    return undefined;
  let next = number + 1;
  const doubt = r.items[next]?.bare === '?';
  const behind =
    doubt || /^(?:on|with)$/.test(r.items[next]?.bare ?? '')
      ? next
      : r.skip(next, /^(?:now|only|still|when)$/);
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

/** `to` and `for` behind a score's word are figures misheard, unless something follows that they lead to. */
function isPreposition(r: VisitReader, at: number): boolean {
  if (!/^(?:to|for|too|o)$/.test(r.items[at]!.bare)) return false;
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

/** When she is to be seen again. */
export function readRecheck(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const behind = r.items[at + 1];
  if (
    item.kind === 'span' &&
    behind?.is.has('recheck') &&
    /^(?:control|check|again|recheck|review)$/.test(behind.bare) &&
    !r.suppressed &&
    !ofAnother(r, at)
  ) {
    const day = afterSpan(r.date, item.span!);
    return day !== undefined && r.put(at, at + 2, 'recheck', day) ? at + 2 : undefined;
  }
  const cue = item.is.has('recheck');
  let when = at;
  if (cue) {
    when = at + 1;
    while (
      when < at + 5 &&
      r.items[when] &&
      r.items[when]!.kind !== 'span' &&
      r.items[when]!.kind !== 'day'
    ) {
      const next = r.items[when]!;
      if (
        !(saysNothing(next) || next.is.has('recheck') || next.is.has('until') || next.bare === ':') ||
        next.kind === 'line' ||
        (next.kind === 'stop' && next.bare !== '.')
      )
        return undefined;
      if (next.kind === 'stop' || next.is.has('negation') || /^(?:since|from|than)$/.test(next.bare))
        return undefined;
      when += 1;
    }
    if (/^over$/.test(item.bare) && r.items[when + 1]?.bare !== 'again') return undefined;
    if (
      /^(?:see|see her|look|back|again|over|in)$/.test(item.bare) &&
      r.items[when]?.kind !== 'span' &&
      r.items[when]?.kind !== 'day'
    )
      return undefined;
  } else if (!(item.kind === 'span' && item.text.endsWith('/52') && isBetween(r, at))) return undefined;
  const said = r.items[when];
  if (said?.kind !== 'span' && said?.kind !== 'day') return undefined;
  if (r.modality.denied !== undefined || r.modality.past !== undefined || ofAnother(r, at)) return undefined;
  let end = when + 1;
  if (/^(?:again|again .*)$/.test(r.items[end]?.bare ?? '')) end += 1;
  const { planned } = r.modality;
  r.modality.planned = undefined;
  const vague = said.day?.vague === true;
  const day = said.span ? afterSpan(r.date, said.span) : r.day(said.day!, 'next');
  let wrote: boolean;
  if (day === undefined || day <= r.date) {
    r.ask(when, when + 1, 'no-such-day', { date: r.date }, []);
    wrote = true;
  } else if (vague) {
    r.ask(when, when + 1, 'which-day', { day }, [{ label: day, text: day }]);
    wrote = true;
  } else wrote = r.put(at, end, 'recheck', day);
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
    const number = r.skip(at + 1, /^(?:is|at|of|:|about|score)$/);
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
    const start = r.start(at, true);
    for (let back = at - 1; back >= start; back -= 1) {
      const said = feetAt(r, back);
      if (said && said.next <= at) {
        feet = [...said.feet, ...feet];
        from = back;
      }
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

/** Pain relief: who gave, asked, advised or refused it. */
export function readPain(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const notLame = item.is.has('not-lame');
  if (!item.is.has('pain') && !notLame) return undefined;
  const [from, to] = nearby(r, at);
  const words = r.items.slice(from, to);
  const has = (kind: string): number => words.findIndex(({ is }) => is.has(kind));
  const any = (kind: string): boolean => has(kind) >= 0;
  const sentence = r.items.slice(Math.max(r.start(at, false), at - 12), Math.min(r.end(at, false), at + 12));
  const denied = any('negation') || r.modality.denied !== undefined;
  if (notLame) {
    const pain = r.items.slice(at, to).findIndex(({ is }) => is.has('pain'));
    if (pain < 0 || r.modality.denied !== undefined) return undefined;
    return r.put(at, at + pain + 1, 'pain-relief', 'not lame') ? at + pain + 1 : undefined;
  }
  const isVet = (one: Item): boolean => one.is.has('vet-noun') || one.person?.role === 'vet';
  const isFarm = (one: Item): boolean =>
    one.is.has('farm-noun') || one.person?.role === 'farm' || one.bare === 'he';
  const saysNone = (all: readonly Item[]): boolean => {
    const vet = all.findIndex(isVet);
    const behind = all.slice(vet);
    return (
      vet >= 0 &&
      behind.some(({ is }) => is.has('says')) &&
      (behind.some(({ is, bare }) => is.has('negation') && bare !== 'without') ||
        behind.some(({ bare }) => bare === 'none' || bare === 'nothing'))
    );
  };
  let word: PainRelief | undefined;
  let end = at + 1;
  const isOwn = (one: Item | undefined): boolean =>
    one !== undefined && (one.bare === 'i' || one.bare === 'we' || isVet(one));
  const declinedAt = words.findIndex(({ is }, n) => is.has('declined') && !isOwn(words[n - 1]));
  if (saysNone(sentence) && (denied || sentence.some(({ bare }) => bare === 'none' || bare === 'nothing'))) {
    word = 'vet says none';
    end = r.end(at, false);
  } else if (declinedAt >= 0 && words.some(isFarm)) {
    word = 'farm declined';
    end = Math.max(at + 1, from + declinedAt + 1);
  } else if (
    sentence.some(({ is }, n) => is.has('declined') && !isOwn(sentence[n - 1])) &&
    sentence.some(isFarm)
  ) {
    word = 'farm declined';
    end = r.items.findIndex((one, index) => index > at && one.is.has('declined')) + 1 || at + 1;
  } else if (denied && any('not-lame')) {
    word = 'not lame';
    end = from + has('not-lame') + 1;
  } else if (denied) word = undefined;
  else if (
    words.some(
      (one, n) => (one.is.has('asked') || one.is.has('advised')) && words.slice(n + 1, n + 3).some(isFarm),
    ) &&
    !words.some((one, n) => one.is.has('call') && isVet(words[n + 1] ?? one))
  )
    word = 'advised';
  else if (
    any('asked') &&
    !words.some((one, n) => one.is.has('asked') && words[n - 1] !== undefined && isFarm(words[n - 1]!)) &&
    !words.some((one, n) => one.is.has('asked') && isFarm(words[n + 1] ?? one))
  )
    word = 'asked';
  else if (any('call') && words.some(isVet)) word = 'asked';
  else if (any('advised') || (any('asked') && words.some(isFarm))) word = 'advised';
  else if (
    any('pain-given') &&
    r.modality.planned === undefined &&
    !words.some(({ bare }) => bare === 'please')
  )
    word = 'given';
  if (word === undefined) return undefined;
  const { denied: was, planned } = r.modality;
  r.modality = { ...r.modality, denied: undefined, planned: undefined };
  const verb = words.findIndex(
    ({ is }) => is.has('asked') || is.has('advised') || is.has('pain-given') || is.has('declined'),
  );
  const last = Math.max(
    end,
    word === 'vet says none' ? end : verb >= 0 ? Math.min(from + verb + 1, to) : end,
  );
  const first = verb >= 0 && from + verb < at ? from + verb : at;
  const wrote = r.put(Math.min(first, at), last, 'pain-relief', word);
  r.modality = { ...r.modality, denied: was, planned };
  if (!wrote) return undefined;
  if (was !== undefined) r.taken.add(was);
  for (let index = from; index < to; index += 1)
    if (words[index - from]!.is.has('farm-noun') || words[index - from]!.person) r.taken.add(index);
  return last;
}

/** The words of one clause round a piece, in a note without stops as far as no other statement goes. */
function nearby(r: VisitReader, at: number): [number, number] {
  let [from, to] = [at, at + 1];
  if (r.end(at, true) - r.start(at, true) <= 14) return [r.start(at, true), r.end(at, true)];
  const [start, end] = [r.start(at, true), r.end(at, true)];
  while (from > start && from > at - 8 && !(r.taken.has(from - 1) && !saysNothing(r.items[from - 1]!)))
    from -= 1;
  const other = ['gait', 'foot', 'lesion', 'block', 'wrap', 'recheck', 'trimmed', 'condition'];
  while (
    to < end &&
    to < at + 9 &&
    !other.some((kind) => r.items[to]!.is.has(kind) && !r.items[to]!.is.has('advised'))
  )
    to += 1;
  return [from, to];
}

/** The vet asked: rung, called, told, with why. */
export function readVet(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const isVet = (one: Item | undefined): boolean =>
    one !== undefined && (one.is.has('vet-noun') || one.person?.role === 'vet');
  const isCall = (one: Item | undefined): boolean => one !== undefined && one.is.has('call');
  if (!isVet(item) && !isCall(item) && !item.is.has('answered') && !item.is.has('vet-answer'))
    return undefined;
  const answer = readVetAnswer(r, at);
  if (answer !== undefined) return answer;
  if (!isVet(item) && !isCall(item)) return undefined;
  const [from, to] = [r.start(at, false), r.end(at, false)];
  let other = -1;
  if (isCall(item)) {
    const next = r.skip(at + 1, /^(?:in|up|the)$/);
    if (isVet(r.items[next])) other = next;
    else if (
      /^(?:rang|rung|phoned|called|i call|telephoned)$/.test(item.bare) &&
      (r.items[next]?.kind === 'time' || next >= to || r.items[next]?.bare === ')')
    ) {
      // `vet coming today (rang 9am)`
      const back = r.items.slice(Math.max(0, from - 1), at).findLastIndex(isVet);
      if (back >= 0) other = next > at + 1 && r.items[next]?.kind === 'time' ? next : at;
      if (back >= 0 && r.items[next]?.kind === 'time') other = next;
    }
  } else {
    const next = r.skip(at + 1, /^(?:was|been|has been|is|already)$/);
    if (isCall(r.items[next])) other = next;
  }
  if (other < 0) return undefined;
  const subject = r.items[at - 1];
  // `he calls the vet`, `Bridie will ring the vet`, `vet to be told`.
  const whose = subject?.bare === 'to' ? r.items[at - 2] : undefined;
  if (
    whose &&
    (whose.person?.role === 'farm' || whose.is.has('farm-noun') || /^(?:him|her|them)$/.test(whose.bare))
  )
    return undefined;
  if (
    subject &&
    (/^(?:he|they|she|hes)$/.test(subject.bare) ||
      subject.person?.role === 'farm' ||
      subject.is.has('farm-noun'))
  )
    return undefined;
  const between = r.items.slice(Math.min(at, other), Math.max(at, other));
  if (r.suppressed || between.some(({ is }) => is.has('plan') || is.has('negation'))) return undefined;
  if (isVet(item) && r.items[other]!.bare === 'call') return undefined;
  const pain = r.items.slice(other, r.end(other, false)).some(({ is }) => is.has('pain'));
  const why = whyBehind(r, other + 1, to);
  const asked = askedOn(r, from, to);
  const end = Math.max(at, other) + 1;
  const sentence = r.text.slice(r.items[from]!.from, r.items[to - 1]!.to).trim();
  if (!r.draft.vet) {
    const colon = r.items.findIndex((one, index) => index > other && index < to && one.bare === ':');
    const said = r.items[Math.max(at, other) + 1];
    if (colon > 0 && said?.kind === 'day' && colon === Math.max(at, other) + 2) {
      const last = r.end(colon + 1, true);
      r.draft.vet = {
        asked: r.day(said.day!, 'latest') ?? asked,
        why: r.text.slice(r.items[colon + 1]!.from, r.items[Math.max(last, colon + 2) - 1]!.to),
      };
      r.say(Math.min(at, other), last, `vet asked ${r.draft.vet.asked}`);
      for (let index = colon; index < last; index += 1) r.taken.add(index);
      return last;
    }
    const about = colon > 0 ? aboutIn(r, Math.max(at, other) + 1, colon) : undefined;
    if (about) {
      const words = r.text.slice(
        r.items[colon + 1]!.from,
        r.items[Math.max(r.end(colon + 1, true), colon + 2) - 1]!.to,
      );
      r.draft.vet = { asked, why: words, about };
      r.say(at, r.end(colon + 1, true), `vet asked ${asked}`);
      for (let index = at; index < r.end(colon + 1, true); index += 1) r.taken.add(index);
      return r.end(colon + 1, true);
    }
    r.draft.vet = { asked, why: why?.words ?? sentence };
    r.say(at, end, `vet asked ${asked}`);
    if (why && !pain) r.say(why.from, why.said ? why.to : why.from + 1, 'vet why');
  } else r.say(at, end, 'vet asked');
  return end;
}

function askedOn(r: VisitReader, from: number, to: number): CalendarDay {
  const said = r.items
    .slice(from, to)
    .find(({ kind, day }) => kind === 'day' && day?.relative !== undefined && day.relative < 0);
  return (said && r.day(said.day!, 'latest')) ?? r.date;
}

/** `about …`, `for …`, `- hot above the claw`, `: worse`. */
function whyBehind(
  r: VisitReader,
  at: number,
  to: number,
): { words: string; from: number; to: number; said: boolean } | undefined {
  for (let index = at; index < Math.min(to, at + 4); index += 1) {
    const item = r.items[index]!;
    if (/^(?:about|for|re|because|as|over|-|–|—|:)$/.test(item.bare)) {
      let end = index + 1;
      const last = r.end(index + 1, true);
      while (
        end < last &&
        !['gait', 'block', 'wrap', 'recheck', 'pain', 'trimmed'].some((kind) => r.items[end]!.is.has(kind))
      )
        end += 1;
      const words =
        r.items[index + 1] &&
        r.text.slice(r.items[index + 1]!.from, r.items[Math.max(end, index + 2) - 1]!.to);
      return words
        ? { words, from: index, to: Math.max(end, index + 2), said: /^[a-z]/.test(item.bare) }
        : undefined;
    }
    if (!saysNothing(item) && item.kind !== 'time') return undefined;
  }
  return undefined;
}

/** What the vet answered: to the last question on file unless a day is said; `vet closes` says that nothing is open. */
function readVetAnswer(r: VisitReader, at: number): number | undefined {
  const to = r.end(at, false);
  const head = r.items.slice(at, Math.min(to, at + 4));
  const verb = head.findIndex(({ is }) => is.has('answered') || is.has('vet-answer'));
  if (verb < 0 || r.suppressed) return undefined;
  const colon = r.items.findIndex(
    (one, index) =>
      index > at + verb &&
      index < to &&
      (one.bare === ':' || one.is.has('why') || /^(?:reply|says)$/.test(one.bare)),
  );
  const quoted = r.items.findLastIndex(
    (one, index) => index > at + verb && index < to && one.kind === 'quoted',
  );
  const end = colon > 0 ? colon : to;
  const by = r.items.slice(at, end).find(({ person, kind }) => person?.role === 'vet' || kind === 'quoted');
  const dayAt = r.items.findIndex((one, index) => index > at && index < end && one.kind === 'day');
  const asked = r.animal.visits.findLast((visit) => visit.vet && visit.date <= r.date)?.vet?.asked;
  const day = dayAt > 0 ? r.day(r.items[dayAt]!.day!, 'latest') : asked;
  if (day === undefined) return undefined;
  const closes = head.some(({ is }) => is.get('vet-answer') === 'closes');
  if (closes && colon < 0 && r.draft['vet-answer']) {
    r.draft['vet-answer'].closes = true;
    r.say(at, at + verb + 1, 'vet closes');
    return at + verb + 1;
  }
  let from =
    quoted > colon && quoted > 0 && (colon > 0 || r.items[quoted - 1]?.bare === 'reply')
      ? quoted
      : colon > 0
        ? colon + 1
        : to + 1;
  while (r.items[from] && (r.items[from]!.kind === 'line' || r.items[from]!.kind === 'stop')) from += 1;
  const last = r.items[from]?.kind === 'quoted' ? from + 1 : r.end(from, false);
  if (r.items[from] === undefined || last <= from) return undefined;
  const reply =
    r.items[from]!.kind === 'quoted'
      ? r.items[from]!.bare
      : r.text.slice(r.items[from]!.from, r.items[last - 1]!.to);
  const name =
    by?.person?.name ??
    (by?.kind === 'quoted' ? by.bare : undefined) ??
    r.farm.farm.vet?.name ??
    r.farm.farm.vet?.practice ??
    terminal('note.the-vet');
  const about = aboutIn(r, at, end);
  r.draft['vet-answer'] = {
    to: day,
    by: name,
    reply,
    ...(about ? { about } : {}),
    ...(closes ? { closes: true } : {}),
  };
  r.draft.kind ??= 'report';
  r.reporter ??= name;
  r.say(at, last, `vet-answer to ${day}`);
  for (let index = at; index < last; index += 1) r.taken.add(index);
  return last;
}

/** `about LH and pus`: feet, signs, lesions by their names. */
function aboutIn(r: VisitReader, from: number, to: number): string[] | undefined {
  const start = r.items.findIndex((one, index) => index >= from && index < to && one.bare === 'about');
  if (start < 0) return undefined;
  const all: string[] = [];
  for (let at = start + 1; at < to; at += 1) {
    const { is, bare } = r.items[at]!;
    const said =
      is.get('sign') ?? is.get('animal-sign') ?? is.get('foot') ?? (bare === 'lame' ? 'lame' : undefined);
    if (said !== undefined) all.push(...said.split(/ (?=[LR][FH]$)/));
    else if (is.has('called') && r.lesionNames.includes(r.items[at + 1]?.bare ?? ''))
      all.push(r.items[(at += 1)]!.bare);
    else if (!saysNothing(r.items[at]!)) return undefined;
  }
  return all.length > 0 ? all : undefined;
}

/** What the farm is asked to do, by a day: `keep her on straw until the 30th`. */
export function readTask(r: VisitReader, at: number): number | undefined {
  const { is, bare } = r.items[at]!;
  const task = is.get('task') as FarmTask | undefined;
  if (task === undefined || r.modality.past !== undefined) return undefined;
  const start = r.start(at, false);
  const lead = r.items.slice(start, at);
  const asks = lead.some((one) => one.is.has('ask-farm') || one.is.has('asked') || one.is.has('farm-noun') || one.person?.role === 'farm' || /^(?:keep|told|please|he is to|he)$/.test(one.bare)) || /^(?:keep|score|watch)/.test(bare); // prettier-ignore
  if (!asks || lead.some((one) => one.is.has('farm-did'))) return undefined;
  // `ring me` only if she gets worse.
  const worse = task === 'ring if worse';
  if (
    worse &&
    !bare.includes('worse') &&
    !r.items.slice(start, r.end(at, false)).some((one) => one.is.has('worse'))
  )
    return undefined;
  let end = at + 1;
  let by: CalendarDay | undefined;
  for (let index = at + 1; index < Math.min(r.end(at, false), at + 6); index += 1) {
    const one = r.items[index]!;
    if (one.kind === 'span') by = afterSpan(r.date, one.span!);
    else if (one.kind === 'day') by = r.day(one.day!, 'next');
    else if (one.bare === 'then' && r.draft['ask-farm']?.length) by = r.draft['ask-farm'].at(-1)!.by;
    else if (
      (saysNothing(one) && one.kind !== 'stop' && one.bare !== ',') ||
      one.is.has('until') ||
      one.is.has('worse')
    )
      continue;
    end = by === undefined ? end : index + 1;
    break;
  }
  if (by === undefined && worse) {
    by = r.draft.recheck ?? r.draft['ask-farm']?.at(-1)?.by ?? afterSpan(r.date, { days: 14, months: 0 });
    const until = by!;
    r.ask(at, end, 'until-when', { task }, [{ label: until, text: `${r.items[at]!.text} until ${until}` }]);
    return end;
  }
  if (by === undefined || by < r.date) return undefined;
  const tasks = (r.draft['ask-farm'] ??= []);
  tasks.push({ what: task, by });
  for (let index = at - 1; index >= start && !r.taken.has(index); index -= 1) {
    const one = r.items[index]!;
    if (one.is.has('ask-farm') || one.is.has('asked') || one.is.has('farm-noun') || one.kind === 'person' || one.is.has('negation') || one.is.has('worse') || one.is.has('plan')) r.taken.add(index); // prettier-ignore
  }
  r.say(at, end, `ask farm: ${task} by ${by}`);
  return end;
}

/** `Len had taken the last wrap off on the 19th as asked`: done by the farm. */
export function readFarmDid(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  const did = item.is.has('farm-did');
  const to = r.end(at, false);
  const start = r.start(at, true);
  const lead = r.items.slice(start, at);
  const farm = lead.some(({ person, is }) => person?.role === 'farm' || is.has('farm-noun'));
  const past = lead.some(
    ({ bare }) => /^(?:had|has|took|taken|removed)$/.test(bare) || /^t(?:ook|aken)\b/.test(bare),
  );
  if (!did && !(item.is.has('wrap') && farm && past)) return undefined;
  const words = r.items.slice(at, to);
  const wrap = words.findIndex(({ is }) => is.has('wrap'));
  const named = words.find(({ is }) => is.has('task'))?.is.get('task') as FarmTask | undefined;
  const dayAt = words.findIndex(({ kind }) => kind === 'day');
  const day = dayAt >= 0 ? r.day(words[dayAt]!.day!, 'latest') : undefined;
  const what = wrap >= 0 ? ('wrap off' as const) : named;
  if (day === undefined || what === undefined || r.suppressed || !farmTasks.includes(what)) return undefined;
  if (day > r.date) return undefined;
  (r.draft['farm-did'] ??= []).push({ what, on: day });
  r.say(start, at + dayAt + 1, `farm did: ${what} on ${day}`);
  return at + dayAt + 1;
}

/** A product with its name: `sprayed it with the farm's own spray, batch S2207, a medicine, nil milk and nil meat`. */
export function readProduct(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  if (!item.is.has('product') || r.suppressed) return undefined;
  let from = at + 1;
  const hasWith = /\bwith\b|\bw$/.test(item.bare) || item.bare === 'product';
  if (!hasWith) {
    const lead = r.items
      .slice(at + 1, at + 8)
      .findIndex(
        ({ bare, kind, text }) =>
          bare === 'with' || (bare === 'w' && text === 'w') || kind === 'stop' || kind === 'line',
      );
    if (lead < 0 || !/^w(?:ith)?$/.test(r.items[at + 1 + lead]!.bare)) return undefined;
    from = at + 2 + lead;
  }
  if (r.items[from]?.bare === '/') from += 1;
  const end = r.end(from, true);
  if (end <= from) return undefined;
  const first = r.items[from]!;
  const product =
    first.kind === 'quoted'
      ? first.bare
      : r.text.slice(first.from, r.items[end - 1]!.to).replace(/^(?:the|a|some) /i, '');
  const use: ProductUse = { product };
  const lesions = r.items.slice(at, from).some(({ is }) => is.has('lesion')) ? undefined : r.last;
  const skin = lesions ?? r.candidates(['dermatitis', 'ulcer']).find((_, __, all) => all.length === 1);
  if (skin !== undefined) use.lesion = skin;
  const stop = sentencesEnd(r, end);
  let next = end;
  for (let index = end; index < stop; index += 1) {
    const taken = attribute(r, use, index, stop);
    if (taken === undefined) continue;
    r.say(index, taken, 'product');
    next = taken;
    index = taken - 1;
  }
  (r.draft.products ??= []).push(use);
  r.say(at, end, `product ${product}`);
  for (let index = at; index < end; index += 1) r.taken.add(index);
  return Math.max(end, Math.min(next, end));
}

/** A semicolon does not end what is said of a product. */
function sentencesEnd(r: VisitReader, at: number): number {
  let end = r.end(at, false);
  while (r.items[end]?.bare === ';') end = r.end(end + 1, false);
  return end;
}

function attribute(r: VisitReader, use: ProductUse, at: number, stop: number): number | undefined {
  const { bare, is } = r.items[at]!;
  if (bare === 'batch' || bare === 'lot') {
    let next = at + 1;
    if (/^(?:no|number|nr|:)$/.test(r.items[next]?.bare ?? '')) next += 1;
    let end = next + 1;
    while (
      end < stop &&
      r.items[end]!.glued &&
      r.items[end]!.kind !== 'mark' &&
      r.items[end]!.kind !== 'stop'
    )
      end += 1;
    if (r.items[next] === undefined || next >= stop) return undefined;
    use.batch =
      r.items[next]!.kind === 'quoted'
        ? r.items[next]!.bare
        : r.text.slice(r.items[next]!.from, r.items[end - 1]!.to);
    return end;
  }
  if (bare === 'class' && r.items[at + 1]?.is.has('product-class')) return attribute(r, use, at + 1, stop);
  if (is.has('product-class')) {
    use.class = is.get('product-class') as ProductClass;
    return at + 1;
  }
  const none = /^(?:nil|no|zero|0)$/.test(bare) || r.items[at]!.number?.value === 0;
  const what = r.items[r.skip(at + 1, /^withdrawal$/)]?.bare;
  if (none && /^(?:withheld|withdrawal)$/.test(r.items[at + 1]?.bare ?? '')) {
    use['milk-days'] = 0;
    use['meat-days'] = 0;
    return at + 2;
  }
  if (none && (what === 'milk' || what === 'meat')) {
    use[`${what}-days`] = 0;
    return r.skip(at + 1) + 1;
  }
  if (bare === 'milk' || bare === 'meat') {
    const number = r.skip(at + 1, /^(?:withdrawal|withheld|nil)$/);
    const said = r.items[number];
    if (r.items.slice(at + 1, number).some((one) => one.bare === 'nil') || said?.number?.value === 0) {
      use[`${bare}-days`] = 0;
      return said?.number?.value === 0 ? number + 1 : number;
    }
    if (said?.span && said.span.months === 0) {
      use[`${bare}-days`] = said.span.days;
      return number + 1;
    }
    if (said?.number && /^(?:hours|hrs|h)$/.test(r.items[number + 1]?.bare ?? '') && bare === 'milk') {
      use['milk-hours'] = said.number.value;
      return number + 2;
    }
    return undefined;
  }
  if (bare === 'given' || is.has('pain-given')) {
    const by = r.items[r.skip(at + 1)];
    if (by?.person) {
      use['given-by'] = by.person.name;
      return r.skip(at + 1) + 1;
    }
  }
  if (r.items[at]!.person && /^did$/.test(r.items[at + 1]?.bare ?? '')) {
    use['given-by'] = r.items[at]!.person.name;
    const end = r.skip(at + 2, /^spraying$/);
    return r.items[end]?.is.has('product') ? end + 1 : end;
  }
  return undefined;
}

/** Not there to be lifted, and why. */
export function readMissed(r: VisitReader, at: number): number | undefined {
  const { is } = r.items[at]!;
  if (is.has('kind') && !r.suppressed) {
    const kind = is.get('kind') as VisitKind;
    // `nothing else to report` is none.
    if (
      r.items[at]!.bare === 'report' &&
      !/^(?:from|by)$/.test(r.items[at + 1]?.bare ?? '') &&
      r.items[at + 1]?.kind !== 'quoted' &&
      !r.taken.has(at - 1)
    )
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
  const tools = is.get('tools-disinfected');
  if (tools !== undefined)
    return r.put(at, at + 1, 'tools-disinfected', tools === 'yes') ? at + 1 : undefined;
  const saw = is.get('saw-expected');
  if (saw !== undefined) return r.put(at, at + 1, 'saw-expected', saw === 'yes') ? at + 1 : undefined;
  const sign = is.get('animal-sign');
  if (sign !== undefined && !is.has('claw-state'))
    return r.fact(at, at + 1, sign, () => {
      r.draft.signs = [...new Set([...(r.draft.signs ?? []), sign as 'down'])];
    })
      ? at + 1
      : undefined;
  if (is.has('by') && /^(?:by|done by|trimmer)$/.test(bare)) {
    const named = r.items[r.skip(at + 1)];
    const name =
      named?.person?.role === 'people'
        ? named.person.name
        : r.items[at + 1]?.kind === 'quoted'
          ? r.items[at + 1]!.bare
          : undefined;
    if (name === undefined) return undefined;
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
