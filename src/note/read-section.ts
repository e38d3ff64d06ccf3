import { readFarmDid, readPain, readTask, readVet } from './care.js';
import { readCarrying, readFlag, readFoot, readHow, readSign, readStage, readState } from './finding.js';
import { readFixture } from './fixtures.js';
import type { Item } from './item.js';
import { readMeasure } from './measure.js';
import { isOne } from './note-words.js';
import { readPlace } from './place.js';
import { readProduct } from './product.js';
import { readMissed, readRest } from './visit-itself.js';
import type { Section } from './sections.js';
import { VisitReader } from './visit-reader.js';
import { readNumbersOfCow, readRecheck, readTrimmed, readWalk } from './walk-and-work.js';

/** In this order: the first that takes the words at a place has them. */
const statements = [
  readRest, readTask, readFarmDid, readProduct, readFixture, readCarrying, readRecheck, readWalk, readNumbersOfCow,
  readTrimmed, readFlag, readPain, readVet, readFoot, readStage, readMeasure, readState, readMissed, readPlace, readHow, readSign,
]; // prettier-ignore

/** What may be said of several cows at once. */
const saidOfSeveral = [readRest, readTask, readRecheck, readWalk];

export function readSection(r: VisitReader, section: Section, bounds: ReadonlySet<number>): void {
  const { items } = r;
  r.modality = {};
  r.lastUnit = undefined;
  r.place = {};
  r.last = undefined;
  r.foot = undefined;
  r.lastKey = undefined;
  r.fixture = undefined;
  r.ofSeveral = section.ofSeveral === true;
  r.section = [section.from, section.to];
  for (let at = section.from; at < section.to;) {
    const item = items[at]!;
    if (bounds.has(at) || (r.taken.has(at) && !item.is.has('both'))) {
      at += 1;
      continue;
    }
    if (isOne('i', item.bare)) r.saidI = true;
    if (item.kind === 'line' || item.kind === 'stop') {
      // `9x7.. no wait, that's off last year's paper. 10x8`
      const { corrected } = r.modality;
      const carries =
        item.kind === 'stop' &&
        corrected !== undefined &&
        items[at + 1]?.kind === 'pair' &&
        items.slice(corrected, at).some(({ is }) => is.has('correct'));
      if (item.bare !== '?') r.modality = carries ? { corrected: at } : {};
      at += 1;
      continue;
    }
    if (item.kind === 'mark' && /^[,()]$/.test(item.bare)) {
      // `if …, I will …`: what is only meant to be goes on behind the comma.
      const { planned, both, denied, used, corrected } = r.modality;
      const lists = denied !== undefined && used === 'sign' && items[at + 1]?.is.has('sign') === true;
      const conditional = planned !== undefined && isOne('only if', items[planned]!.bare);
      r.modality = {
        ...(corrected === at - 1 ? { corrected } : {}),
        ...(conditional ? { planned } : {}),
        ...(lists ? { denied, used } : {}),
        both,
      };
      at += 1;
      continue;
    }
    // What is put right is close behind: `no, calliper`.
    if (r.modality.corrected !== undefined && at - r.modality.corrected > 8) r.modality.corrected = undefined;
    const kind = kindOf(item);
    if (r.suppressed && r.modality.used !== undefined && kind !== undefined && kind !== r.modality.used)
      r.modality = { both: r.modality.both };
    const cue = cueAt(r, at, section.to);
    if (cue !== undefined) {
      at = cue;
      continue;
    }
    let next: number | undefined;
    for (const statement of r.ofSeveral ? saidOfSeveral : statements) {
      next = statement(r, at);
      if (next !== undefined) break;
    }
    if (next === undefined || next <= at) {
      if (
        next === undefined &&
        r.suppressed &&
        kind !== 'place' &&
        (kind !== undefined || (item.is.has('event') && r.fixture))
      )
        r.modality.used = kind ?? 'block';
      at += 1;
      continue;
    }
    // A place alone says nothing: what turns the words round reaches past it.
    if (!(r.heard.includes(next - 1) && r.placeAt[1] === next)) r.modality = { both: r.modality.both };
    at = next;
  }
}

const statementKinds = [
  'gait',
  'block',
  'wrap',
  'stage',
  'sign',
  'pain',
  'trimmed',
  'cut-back',
  'tool',
  'top-found',
  'state',
  'ran-up',
  'opened-further',
  'infected',
  'vet-noun',
  'recheck',
  'condition',
];

/** Which kind of statement a piece belongs to; what was denied or meant for later ends where another kind begins. */
function kindOf(item: Item): string | undefined {
  if (item.kind === 'pair') return 'pair';
  if (item.is.has('foot') || item.is.has('lesion')) return 'place';
  return statementKinds.find((kind) => item.is.has(kind));
}

/** A word that denies, hedges, plans or corrects what follows it. */
function cueAt(r: VisitReader, at: number, to: number): number | undefined {
  const item = r.items[at]!;
  const { is, bare } = item;
  const next = r.items[at + 1];
  const heads = r.ofSeveral && isOne('head of the next visit', bare);
  if (is.has('not-ours') && !heads && ![...is.keys()].some((kind) => kind !== 'not-ours')) return at + 1;
  // `still smells, but no more pus`: said before a sign it denies it.
  if (is.has('no-more') && bare.startsWith('no ') && r.items[r.skip(at + 1)]?.is.has('sign')) {
    r.modality.denied = at;
    r.modality.used = undefined;
    return at + 1;
  }
  // `was 21, now 27`; `see again when the block is off`.
  if (
    bare === 'was' &&
    r.items.slice(at + 1, at + 6).some((one) => one.bare === 'now') &&
    (next?.number ?? next?.pair)
  ) {
    r.modality.past = at;
    return at + 1;
  }
  if (bare === 'now' && r.modality.past !== undefined) r.modality.past = undefined;
  if (
    bare === 'when' &&
    r.items.slice(r.start(at, false), at).some((one) => one.is.has('recheck') || one.is.has('plan'))
  )
    r.modality.planned = at;
  if (is.has('recent') || is.has('claim')) {
    r.modality.past = at;
    return at + 1;
  }
  if (is.has('takes-back') && r.takeBack()) {
    r.taken.add(at);
    return at + 1;
  }
  if (is.has('correct')) {
    r.modality.corrected = at;
    r.modality.denied = undefined;
    r.taken.add(at);
    return at + 1;
  }
  if (is.has('both') && !is.has('foot')) {
    r.modality.both = true;
    if (bare !== 'all' || next?.number?.value !== 4) {
      r.taken.add(at);
      return undefined;
    }
    return undefined;
  }
  if (
    is.has('negation') &&
    !['missed', 'lifted', 'not-staged', 'not-lame', 'sign', 'unknown-day', 'state', 'no-feet'].some((kind) =>
      is.has(kind),
    )
  ) {
    // `no 31 not 13, sorry`, `no, the right was 22`: put right.
    const after = r.skip(at + 1, 'sorry');
    const number = r.items[after];
    const puts =
      bare === 'no' &&
      (number?.kind === 'pair' ||
        (number?.kind === 'number' && number.number !== undefined) ||
        placeThenNumber(r, after));
    // `tape, no, calliper`: another word of the same kind.
    if ((bare === 'no' || bare === 'nah') && number !== undefined && saidBefore(r, at, number)) {
      r.modality = { corrected: after - 1, both: r.modality.both };
      for (let index = at; index < after; index += 1) r.taken.add(index);
      return after;
    }
    if (puts && after < to && r.lastKey !== undefined) {
      r.modality.corrected = at;
      for (let index = at; index < after; index += 1) r.taken.add(index);
      if (placeThenNumber(r, after)) return at + 1;
      return after;
    }
    if (bare === 'no' && next?.bare === '.') return undefined;
    // `swelling none`: said of what is before.
    if (isOne('none', bare)) return at + 1;
    r.modality.denied = at;
    r.modality.used = undefined;
    return at + 1;
  }
  if (is.has('nearly')) {
    const state = r.skip(at + 1);
    const word = r.items[state]?.is.get('state');
    if (word !== undefined && word !== 'present' && word !== 'open') return state + 1;
  }
  if (isOne('because', bare)) {
    r.modality = { both: r.modality.both };
    return at + 1;
  }
  // `… going to have a look next week`: said of what is before.
  if (is.has('plan') && r.modality.planned !== undefined && r.modality.used !== undefined) return at + 1;
  // `have a look next week, mobility 2`: what follows is of today.
  if (isOne('later', bare)) {
    const after = r.items[r.skip(at + 1)];
    const kind = after && kindOf(after);
    if (
      after === undefined ||
      after.kind === 'line' ||
      after.kind === 'stop' ||
      (kind !== undefined && ['gait', 'place', 'condition', 'trimmed', 'pair'].includes(kind))
    )
      return at + 1;
  }
  if (
    is.has('plan') &&
    !['event', 'recheck', 'missed', 'task', 'pain', 'ask-farm', 'advised'].some(
      (kind) => is.has(kind) && kind !== 'advised',
    )
  ) {
    r.modality.planned = at;
    r.modality.used = undefined;
    return is.has('advised') ? undefined : at + 1;
  }
  if (is.has('hedge') && !is.has('number')) {
    r.modality.doubted = at;
    return at + 1;
  }
  return undefined;
}

const exchanged = ['tool', 'material', 'top-found', 'stage', 'gait', 'state'];

/** Whether the piece before a `no` is of the kind of the one behind it. */
function saidBefore(r: VisitReader, at: number, next: Item): boolean {
  let back = at - 1;
  while (back > 0 && r.items[back]!.bare === ',') back -= 1;
  const before = r.items[back];
  return before !== undefined && exchanged.some((kind) => before.is.has(kind) && next.is.has(kind));
}

/** `the right was twenty two forty four`. */
function placeThenNumber(r: VisitReader, at: number): boolean {
  const item = r.items[at];
  if (!item || !(item.is.has('side') || item.is.has('foot'))) return false;
  const next = r.items[r.skip(at + 1)];
  return next?.kind === 'number' || next?.kind === 'pair';
}
