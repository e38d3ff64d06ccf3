import type { BlockEvent, WrapEvent } from '../record/visit.js';
import { type BlockMaterial, type Claw, type Foot, type FixtureEvent } from '../record/words.js';
import { isOne } from './note-words.js';
import { placeAt, sideFeet } from './place.js';
import { saysNothing } from './item.js';
import { opposite, type VisitReader } from './visit-reader.js';

/** The pieces round a word that speak of one block or wrap. */
interface Window {
  readonly kind: 'block' | 'wrap';
  readonly from: number;
  to: number;
}

const others = ['gait', 'condition', 'weight', 'trimmed', 'pain', 'vet-noun', 'recheck', 'lesion', 'cut-back', 'stage', 'length', 'mark', 'product', 'tools-disinfected', 'task', 'sign', 'tool', 'state', 'kind']; // prettier-ignore

/** What happened to a block or a wrap: said with its name, or with `it` or `one` where it was spoken of. */
export function readFixture(r: VisitReader, at: number): number | undefined {
  const item = r.items[at]!;
  // `block of wood` is none that came off.
  const spoken = item.is.get('fixture-verb');
  const verb = spoken === 'block removed' && r.items[at + 1]?.is.has('material') ? undefined : spoken;
  const named = kindAt(r, at);
  if (named === undefined && !isOfSpoken(r, at)) return undefined;
  // `under the left block it is bruised`: the claw, not the block.
  if (r.items.slice(Math.max(0, at - 3), at).some((one, n, all) => one.is.has('carrying') && all.slice(n + 1).every((other) => saysNothing(other) || other.is.has('side') || other.is.has('foot')))) return undefined; // prettier-ignore
  const kind = named ?? r.fixture!;
  r.fixture = kind;
  const window = windowAt(r, at, kind);
  const told = eventIn(r, window, verb?.split(' ')[1] as FixtureEvent | undefined);
  if (told === undefined) {
    // Said and nothing of it: kept, unless it only names what follows.
    return undefined;
  }
  // `new block, old one was worn but still on`: said of the one that went.
  const clause = r.items.slice(Math.max(r.start(at, true), at - 5), at + 1);
  const went =
    (told.event === 'worn' || told.event === 'checked') && clause.some(({ bare }) => isOne('old one', bare));
  if (went && r.bared.length === 0 && r.draft.blocks?.some(({ event }) => event === 'fitted' || event === 'replaced')) return undefined; // prettier-ignore
  return kind === 'block' ? writeBlock(r, window, told) : writeWrap(r, window, told);
}

function kindAt(r: VisitReader, at: number): 'block' | 'wrap' | undefined {
  const { is } = r.items[at]!;
  if (is.has('other-block')) return undefined;
  if (is.has('block')) return 'block';
  if (is.has('wrap')) return 'wrap';
  return is.get('fixture-verb')?.split(' ')[0] as 'block' | 'wrap' | undefined;
}

/** A verb with `it`, `one` or nothing behind it, of the block or wrap spoken of. */
function isOfSpoken(r: VisitReader, at: number): boolean {
  if (r.fixture === undefined) return false;
  const { is, bare } = r.items[at]!;
  if (!is.has('event')) return false;
  if (bare === 'on' && r.items[at - 1]?.bare === 'back') return false;
  const end = limit(r, at);
  // The block itself is named behind: it is read there.
  for (let next = at + 1; next < at + 5 && r.items[next] && !isEnd(r, next); next += 1)
    if (r.items[next]!.is.has('block') || r.items[next]!.is.has('wrap')) return false;
  if (bare.endsWith('off') && comes(r, at + 1) !== undefined) return true;
  if (is.get('event') === 'replaced' && r.taken.has(at - 2) && r.items[at - 1]?.bare === ',') return true;
  const near = r.items.slice(Math.max(r.start(at, true), at - 6), end);
  const pronoun =
    near.some((one) => one.bare.split(' ').some((word) => isOne('pronoun for one', word))) ||
    near.some((one) => one.is.has('material'));
  if (bare === 'on' || bare === 'put' || bare === 'off' || bare === 'left' || bare === 'out' || bare === 'new') return pronoun && end - at > 0 && (bare !== 'on' || r.items[at - 1]?.bare === 'still' || isEnd(r, at + 1)) && near.some((one) => one.is.has('event')); // prettier-ignore
  return pronoun || ['checked', 'lost', 'removed', 'replaced'].includes(is.get('event')!) && (is.get('event') === 'checked' ? isEnd(r, at + 1) || bare.includes('on') : pronoun); // prettier-ignore
}

const isEnd = (r: VisitReader, at: number): boolean => {
  const item = r.items[at];
  return item === undefined || ['line', 'stop', 'mark'].includes(item.kind);
};

/** Where words on it end: a clause's end, what speaks of something else, or the next block. */
function limit(r: VisitReader, at: number, from = at): number {
  let next = at;
  let event = r.items
    .slice(from, at)
    .some(({ is, bare }) => is.has('event') && bare !== 'put' && is.get('event') !== 'new');
  for (; next < r.items.length; next += 1) {
    const item = r.items[next]!;
    if (item.kind === 'line' || item.kind === 'stop') break;
    if (item.kind === 'mark' && next > at) {
      // `Block: off`
      if (item.bare === ':' && next === at + 1) continue;
      // `new block, plastic, medial toe`; `blk LH ok, stays`: only what can be nothing else goes on behind a comma.
      const after = r.items[next + 1];
      const goesOn =
        (item.bare === ',' || (item.bare === '(' && after?.is.has('material') === true)) &&
        (after?.is.has('material') || (after?.is.has('claw') && event && !saysState(r, next + 1)));
      if (!goesOn) break;
      continue;
    }
    if (next === at) {
      event ||= item.is.has('event') || item.is.has('fixture-verb');
      continue;
    }
    if (item.is.has('block') || item.is.has('wrap') || item.is.has('fixture-verb')) break;
    if (
      item.kind === 'number' &&
      !item.is.has('one') &&
      item.figures !== undefined &&
      item.number?.value !== 1
    )
      break;
    if (item.kind === 'pair' || item.kind === 'quoted' || isOne('old one', item.bare)) break;
    if (others.some((kind) => item.is.has(kind)) && !item.is.has('event') && !item.is.has('foot')) break;
    if (
      event &&
      isOne('then', item.bare) &&
      r.items
        .slice(next + 1, next + 4)
        .some((one) => one.is.has('event') || one.is.has('one') || one.is.has('came-off'))
    )
      break;
    // A second verb of another kind begins another event: `block off and a new one on`.
    if (event && (item.is.get('event') === 'new' || isOne('put', item.bare))) break;
    if (item.is.has('carrying') || (event && item.is.has('claw-noun'))) break;
    if (goesOff(r, from, next)) break;
    // `left it off she's a one`, `took it off cause …`: a clause of its own.
    if (event && (/^she(?:s| is)?$/.test(item.bare) || isOne('cause', item.bare))) break;
    if (item.is.has('claw-state') && item.is.get('claw-state') !== 'sound') break;
    if (item.is.has('event') && item.bare !== 'put') event = true;
    if (event && (item.is.has('foot') || item.is.has('side')) && beginsPlace(r, next)) break;
    if (event && item.is.has('claw') && saysState(r, next)) break;
    if (event && item.is.has('claw-state') && !item.is.has('event')) break;
    if (
      event &&
      (item.kind === 'person' || item.is.has('farm-noun') || (item.is.has('negation') && item.bare !== 'not'))
    )
      break;
  }
  return next;
}

/** `wrap on off Friday`, `bandage on may off after 3 days`, without a comma: what is to come off is another matter. */
function goesOff(r: VisitReader, from: number, at: number): boolean {
  const off = r.items[at]!.is.has('plan') ? r.skip(at + 1) : at;
  return (
    r.items[off]?.bare === 'off' &&
    r.items.slice(from, at).some(({ bare }) => bare === 'on') &&
    comes(r, off + 1) !== undefined
  );
}

/** `LH white line …`: the place of the next statement, not of the block. */
function beginsPlace(r: VisitReader, at: number): boolean {
  const said = placeAt(r, at);
  if (!said) return false;
  const next = r.items[said.next];
  return said.place.codes !== undefined || said.place.mark === true || next?.kind === 'pair' || next?.kind === 'number' || next?.is.has('stage') === true || (next?.is.has('one') ?? false); // prettier-ignore
}

/** `inner sound`, `the inner claw was a bit bruised`: how the claw looks that carried it. */
function saysState(r: VisitReader, at: number): boolean {
  let next = r.skip(at + 1, 'a little');
  if (r.items[next]?.is.has('claw-noun')) next = r.skip(next + 1);
  return r.items[next]?.is.has('claw-state') === true || (r.items[next]?.is.has('hedge') ?? false);
}

function windowAt(r: VisitReader, at: number, kind: 'block' | 'wrap'): Window {
  let from = at;
  for (let index = at - 1; index >= 0; index -= 1) {
    const item = r.items[index]!;
    if (r.taken.has(index) && !r.heard.includes(index) && !item.is.has('both')) break;
    if (['line', 'stop', 'mark', 'number', 'pair', 'day', 'quoted', 'person'].includes(item.kind)) {
      if (!(item.kind === 'number' && (item.is.has('one') || item.number?.value === 2))) break;
    }
    if (item.is.has('block') || item.is.has('wrap')) break;
    if (isOne('then', item.bare)) break;
    if (others.some((one) => item.is.has(one)) && !item.is.has('event') && !item.is.has('foot')) break;
    if (r.heard.includes(index) && !(index === at - 1 && item.is.has('foot'))) {
      // The place spoken of stays where it is said, but for a foot right before the block.
      break;
    }
    from = index;
  }
  return { kind, from, to: limit(r, at, from) };
}

/** What a statement on a block is made of. */
const ours = [
  'block',
  'wrap',
  'event',
  'came-off',
  'fixture-verb',
  'foot',
  'side',
  'end',
  'limb',
  'claw',
  'claw-noun',
  'material',
  'both',
  'unknown-day',
  'one',
  'loose',
];

interface Told {
  readonly event: FixtureEvent;
  readonly from: number;
  readonly to: number;
  readonly denied: boolean;
  readonly planned: boolean;
}

/** The one event the words of a window tell; undefined where they tell none. */
function eventIn(r: VisitReader, window: Window, verb: FixtureEvent | undefined): Told | undefined {
  const { from, to } = window;
  const words = r.items.slice(from, to);
  const has = (event: string): boolean => words.some(({ is }) => is.get('event') === event);
  const last = (): number => {
    let end = to;
    while (end > from && !ours.some((kind) => r.items[end - 1]!.is.has(kind))) end -= 1;
    return end;
  };
  const off = words.some(({ is, bare }) => is.get('event') === 'removed' && ((bare !== 'out' && bare !== 'away') || words.some((one) => /^t(?:ake|ook|aken)$/.test(one.bare)))); // prettier-ignore
  const alreadyOn = has('already on');
  const onAlone = words.findLastIndex(({ is, bare }) => is.get('event') === 'fitted' && bare === 'on');
  const put =
    words.some(
      ({ is, bare }) => (is.get('event') === 'fitted' && bare !== 'on') || is.get('event') === 'new',
    ) || words.some(({ bare }) => /\bput\b/.test(bare));
  // `came off` by itself or by our hand: only what is said with it tells.
  const cameOff = words.some(({ is }) => is.has('came-off'));
  const around = r.items.slice(Math.max(0, from - 2), Math.min(to + 5, r.end(to, false)));
  const itself = around.some(
    (one, n) =>
      isOne('by itself', one.bare) ||
      one.is.has('unknown-day') ||
      (one.kind === 'day' && one.day?.relative !== 0 && n > 1),
  );
  const byUs = around.some(
    ({ bare, kind, day }) => isOne('too', bare) || (kind === 'day' && day?.relative === 0),
  );
  const good =
    words.some(({ is }) => is.get('claw-state') === 'sound') &&
    words.some(({ is }) => is.has('block') || is.has('wrap'));
  const material = words.some(({ is }) => is.has('material'));
  const event: FixtureEvent | undefined = verb && !has('lost') ? verb
    : alreadyOn ? 'already on'
    : has('lost') || (cameOff && (itself || r.reporter !== undefined)) ? 'lost'
    : cameOff ? (byUs ? 'removed' : undefined)
    : has('replaced') ? 'replaced'
    : off ? 'removed'
    : has('checked') ? 'checked'
    : has('worn') ? 'worn'
    : put ? 'fitted'
    : onAlone >= 0 ? (isOnByRecord(r, window) && !material ? 'checked' : 'fitted')
    : good ? 'checked'
    : material && words.some(({ is }) => is.has('foot') || is.has('claw')) && !isOnByRecord(r, window) ? 'fitted'
    : undefined; // prettier-ignore
  if (event === undefined) {
    // `block? no`, `wood block LH`: nothing is said to have happened.
    return undefined;
  }
  const inside = (kind: string): boolean => words.some((one, n) => one.is.has(kind) && !(kind === 'plan' && event === 'checked' && (isOne('may', one.bare) || words[n - 1]?.is.has('until'))) && !(one.bare === 'no' && words[n + 1]?.bare === 'longer')); // prettier-ignore
  const after = r.items[r.skip(to)];
  const deniedBehind = r.items[to]?.bare === '?' && r.items[to + 1]?.is.has('negation');
  const none = to < r.items.length && after?.bare === 'none';
  return {
    event,
    from,
    to: last(),
    denied:
      (inside('negation') && event !== 'already on') ||
      r.modality.denied !== undefined ||
      deniedBehind === true ||
      none,
    planned: inside('plan') || (r.modality.planned !== undefined && !(event === 'checked')),
  };
}

function isOnByRecord(r: VisitReader, { kind }: Window): boolean {
  return kind === 'block' ? r.blocksOn().length > 0 : r.wrapsOn().length > 0;
}

/** The day it happened, said in the window or right behind it. */
function dayOf(r: VisitReader, window: Window, told: Told): { on?: string; to: number } {
  const end = r.end(told.to, false);
  for (let at = window.from; at < Math.min(end, told.to + 5); at += 1) {
    const item = r.items[at]!;
    const span = spanAgo(r, at);
    if (span) return span;
    // `fell off last week`
    if (told.event === 'lost' && at >= told.to && item.is.has('recent') && /week|month/.test(item.bare))
      return { on: 'unknown', to: at + 1 };
    if (item.is.has('unknown-day') && (item.bare !== 'when' || told.event === 'lost'))
      return { on: 'unknown', to: Math.max(told.to, at + 1) };
    if (
      item.kind === 'day' &&
      item.day &&
      item.day.relative !== 0 &&
      (told.event === 'lost' || at < told.to || r.items[at - 1]?.bare === 'on')
    ) {
      const day = r.day(item.day, 'latest');
      if (day !== undefined && day !== r.date) return { on: day, to: Math.max(told.to, at + 1) };
    }
    if (at >= told.to && !saysNothing(item) && item.kind !== 'mark' && item.kind !== 'person') break;
  }
  // `nobody knows when`, a clause or a mark of question further on.
  if (told.event === 'lost') {
    for (let at = told.to; at < Math.min(told.to + 6, r.items.length); at += 1) {
      const item = r.items[at]!;
      if (item.kind === 'line' || (item.kind === 'stop' && item.bare !== '?')) break;
      if (item.is.has('unknown-day')) return { on: 'unknown', to: at + 1 };
    }
  }
  return { to: told.to };
}

function spanAgo(r: VisitReader, at: number): { on: string; to: number } | undefined {
  const item = r.items[at]!;
  if (item.kind !== 'span' || !r.items[at + 1]?.is.has('ago')) return undefined;
  const on = r.day({ relative: -item.span!.days, next: 0 }, 'latest');
  return on === undefined ? undefined : { on, to: at + 2 };
}

/** Feet and claw said in the window; `left one` by what is on her. */
function placeIn(
  r: VisitReader,
  { from, to, kind }: Window,
): { feet: Foot[]; claw?: Claw; other: boolean; plural: boolean } | undefined {
  let feet: Foot[] = [];
  let claw: Claw | undefined;
  let other = false;
  for (let at = from; at < to; at += 1) {
    const { is } = r.items[at]!;
    if (is.get('claw') === 'other') other = true;
    const said = is.has('foot') || is.has('side') || is.has('claw') ? placeAt(r, at) : undefined;
    if (said) {
      if (said.place.feet) feet = [...feet, ...said.place.feet];
      claw = said.place.claw ?? claw;
      at = Math.max(at, Math.min(said.next, to) - 1);
    }
    // `wrapped left`: a side, with no foot of that side it can be, is not the foot spoken of last.
    if (!said?.place.feet && is.has('side') && !is.has('event')) {
      const there = sideFeet(r, is.get('side')!, true);
      if (there.length !== 1) return undefined;
      feet = [...feet, ...there];
    }
  }
  const words = r.items.slice(from, to);
  const plural =
    words.some(({ is, bare }) => is.has('both') || isOne('several', bare)) ||
    (words.some(({ number }) => number?.value === 2) && kind === 'block');
  return { feet: [...new Set(feet)], ...(claw ? { claw } : {}), other, plural };
}

function writeBlock(r: VisitReader, window: Window, told: Told): number | undefined {
  const { event } = told;
  if (told.denied || told.planned || r.modality.past !== undefined) return undefined;
  const said = placeIn(r, window);
  if (said === undefined) return undefined;
  const on = r.blocksOn();
  const puts = event === 'fitted' || event === 'already on';
  let targets: { foot: Foot; claw: Claw }[] = [];
  const fit = on.filter(
    ({ foot, claw }) =>
      (said.feet.length === 0 || said.feet.includes(foot)) && (said.claw === undefined || said.claw === claw),
  );
  if (!puts && fit.length > 0) {
    const near = fit.filter(({ foot }) => foot === r.foot);
    targets = fit.length === 1 || said.plural ? fit : near.length === 1 ? near : [];
    if (targets.length === 0 && said.feet.length > 1) targets = fit;
  } else if (event === 'lost' && r.bared.some((one) => one.event === 'lost'))
    targets = r.bared.filter((one) => one.event === 'lost').map(({ foot, claw }) => ({ foot, claw }));
  else if (!puts && on.length === 1 && said.feet.length === 0 && said.claw !== undefined) targets = [];
  else {
    // A block going on without a place goes where one just came off, else to the foot spoken of.
    const bared =
      event === 'fitted' && said.feet.length === 0 && said.claw === undefined ? r.bared.slice(-1) : [];
    const lesionFoot = r.foot ?? soleFoot(r);
    const feet =
      said.feet.length > 0 ? said.feet : bared.length > 0 ? [bared[0]!.foot] : lesionFoot ? [lesionFoot] : [];
    targets = feet.flatMap((foot) => {
      const claw = said.claw ?? (bared.length > 0 ? bared[0]!.claw : undefined) ?? soundClaw(r, foot);
      return claw === undefined ? [] : [{ foot, claw }];
    });
  }
  if (targets.length === 0) return undefined;
  const day = dayOf(r, window, told);
  // Taken off on a day to come is still to be done.
  if (event === 'removed' && comes(r, told.to)) return undefined;
  const material = materialIn(r, window, event === 'replaced');
  const wrote = r.fact(
    told.from,
    Math.max(told.to, day.to),
    targets.map(({ foot, claw }) => `block ${event} ${foot} ${claw}`).join(', '),
    () => {
      r.draft.blocks ??= [];
      if (event === 'removed' || event === 'lost' || event === 'replaced')
        r.bared = r.bared.filter(({ foot }) => !targets.some((one) => one.foot === foot));
      for (const { foot, claw } of targets) {
        const isHere = (one: BlockEvent): boolean => one.foot === foot && one.claw === claw;
        // The one put on in place of another is the one replaced; one that was lost is left off, not taken off.
        const same = event === 'fitted' ? 'replaced' : event === 'removed' ? 'lost' : event;
        const there = r.draft.blocks.find(
          (one) => isHere(one) && (one.event === event || one.event === same),
        );
        const block: BlockEvent = there ?? { foot, claw, event };
        if (material && (puts || event === 'replaced')) block.material ??= material;
        if (day.on !== undefined) block.on ??= day.on;
        // One found worn, or still on, and replaced is one replaced.
        if (event === 'replaced' || event === 'removed')
          r.draft.blocks = r.draft.blocks.filter(
            (one) =>
              !isHere(one) || (one.event !== 'worn' && (one.event !== 'checked' || event !== 'replaced')),
          );
        if (!there) r.draft.blocks.push(block);
        if (event === 'removed' || event === 'lost' || event === 'replaced') r.bared.push(block);
      }
    },
  );
  return wrote ? Math.max(told.to, day.to) : undefined;
}

/** The foot of all her open lesions, where that is one. */
function soleFoot(r: VisitReader): Foot | undefined {
  const feet = new Set(r.lesionNames.filter((name) => r.isOpen(name)).map((name) => r.declared(name)!.foot));
  return feet.size === 1 ? [...feet][0] : undefined;
}

/** The claw a block goes on: the one without a lesion, where the lesions of that foot are on one claw. */
function soundClaw(r: VisitReader, foot: Foot): Claw | undefined {
  const claws = new Set(
    r.lesionNames.flatMap((name) => {
      const lesion = r.declared(name)!;
      return lesion.foot === foot && lesion.claw && r.isOpen(name) ? [lesion.claw] : [];
    }),
  );
  const said = r.place.feet?.includes(foot) && r.place.codes ? r.place.claw : undefined;
  if (claws.size === 0 && said) claws.add(said);
  return claws.size === 1 ? opposite([...claws][0]!) : undefined;
}

/** `a wooden block for a plastic one`: what is on now. */
function materialIn(r: VisitReader, { from, to }: Window, last: boolean): BlockMaterial | undefined {
  const all = r.items.slice(from, to).flatMap(({ is }) => is.get('material') ?? []) as BlockMaterial[];
  return last ? all.at(-1) : all[0];
}

/** A day or a span ahead, right behind the words. */
function comes(r: VisitReader, at: number): number | undefined {
  let next = at;
  while (r.items[next] !== undefined && next < at + 5) {
    const item = r.items[next]!;
    if (item.kind === 'span' && !r.items[next + 1]?.is.has('ago')) return next;
    if (item.kind === 'day' && item.day?.relative !== 0) {
      const day = r.day(item.day!, 'next');
      const isPast = item.day!.relative !== undefined && item.day!.relative < 0;
      return day !== undefined && day > r.date && !isPast ? next : undefined;
    }
    if (!saysNothing(item) && !item.person && !item.is.has('farm-noun') && !isOne('until', item.bare))
      return undefined;
    next += 1;
  }
  return undefined;
}

function writeWrap(r: VisitReader, window: Window, told: Told): number | undefined {
  const { event } = told;
  if (event === 'removed' || told.planned) {
    const task = wrapTask(r, window, told);
    if (task !== undefined) return task;
  }
  if (told.denied || told.planned || r.modality.past !== undefined) return undefined;
  const said = placeIn(r, window);
  if (said === undefined) return undefined;
  const on = r.wrapsOn();
  const puts = event === 'fitted' || event === 'already on' || event === 'replaced';
  const skin = [...new Set(r.candidates(['dermatitis'], {}).map((name) => r.declared(name)!.foot))];
  let feet = said.feet;
  if (feet.length === 0 && !puts)
    feet = on.length === 1 || said.plural ? on : on.filter((foot) => foot === r.foot);
  if (feet.length === 0)
    feet =
      puts && said.plural && skin.length > 1
        ? skin
        : r.foot && (puts || on.length === 0)
          ? [r.foot]
          : !puts && on.length > 0
            ? []
            : skin.length === 1
              ? skin
              : [];
  if (feet.length === 0) return undefined;
  const day = dayOf(r, window, told);
  const wrote = r.fact(
    told.from,
    Math.max(told.to, day.to),
    feet.map((foot) => `wrap ${event} ${foot}`).join(', '),
    () => {
      r.draft.wraps ??= [];
      for (const foot of feet) {
        if (r.draft.wraps.some((one) => one.foot === foot && one.event === event)) continue;
        const wrap: WrapEvent = { foot, event, ...(day.on === undefined ? {} : { on: day.on }) };
        r.draft.wraps.push(wrap);
      }
    },
  );
  return wrote ? Math.max(told.to, day.to) : undefined;
}

/** `farmer to take it off Friday`, `off after 3 days`: what the farm is asked to do, by a day. */
function wrapTask(r: VisitReader, window: Window, told: Told): number | undefined {
  if (
    told.denied ||
    (r.items.slice(window.from, told.to).some(({ bare }) => isOne('took off', bare)) && !told.planned)
  )
    return undefined;
  const at = comes(r, told.to) ?? within(r, window, told);
  if (at === undefined) return undefined;
  const { span, day } = r.items[at]!;
  const by = span ? r.day({ relative: span.days, next: 0 }, 'next') : day && r.day(day, 'next');
  if (by === undefined || by < r.date) return undefined;
  const end = Math.max(at + 1, told.to);
  let from = told.from;
  while (
    from > 0 &&
    (r.items[from - 1]!.kind === 'person' ||
      r.items[from - 1]!.is.has('farm-noun') ||
      (saysNothing(r.items[from - 1]!) && r.items[from - 1]!.kind === 'word' && !r.taken.has(from - 1)))
  )
    from -= 1;
  const tasks = (r.draft['ask-farm'] ??= []);
  if (!tasks.some(({ what }) => what === 'wrap off')) tasks.push({ what: 'wrap off', by });
  r.say(from, end, `ask farm: wrap off by ${by}`);
  return end;
}

function within(r: VisitReader, { from }: Window, { to }: Told): number | undefined {
  for (let at = from; at < to; at += 1) {
    const item = r.items[at]!;
    if (item.kind === 'day' && item.day!.relative === undefined && (r.day(item.day!, 'next') ?? '') > r.date)
      return at;
    if (item.kind === 'span') return at;
  }
  return undefined;
}
