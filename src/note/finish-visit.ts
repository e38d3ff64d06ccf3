import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { kindOfVisit } from '../record/lifting.js';
import type { FarmRecord } from '../record/practice.js';
import { type Found, found as foundKeys, visit } from '../record/visit.js';
import { familyOf, lesionKinds } from '../reference/lesions.js';
import { type Item, type PersonSaid, saysNothing, stretchOf } from './item.js';
import type { AnimalReading, NoteContext, NoteVisit } from './note-reading.js';
import { isOne } from './note-words.js';
import type { Heading, Section } from './sections.js';
import { VisitReader } from './visit-reader.js';

/** What is meant where two records would be: one animal on one day. */
export interface Meant {
  readonly farm: FarmRecord | undefined;
  readonly slug: string | undefined;
  readonly animal: Animal;
  readonly called: string;
  readonly mention: Section['mention'];
  readonly days: readonly CalendarDay[];
  readonly heading: Heading;
  readonly opens: boolean;
  readonly sections: Section[];
}

/** What a note left unsaid and the record or the words themselves settle; and what is still to ask. */
export function finish(r: VisitReader, meant: Meant, heading: Heading, context: NoteContext): void {
  const { draft } = r;
  const behind = meant.mention.to;
  stateOfEach(r, behind);
  const lifts =
    [draft.trimmed, draft['cut-back']].some((list) => (list?.length ?? 0) > 0) ||
    Object.values(draft.found ?? {}).some(
      ({ lifted, ...rest }) => lifted !== false && Object.keys(rest).length > 0,
    ) ||
    Object.values(draft.feet ?? {}).some((one) => one?.lifted === true);
  const touched =
    lifts ||
    (draft.blocks ?? []).some(({ event }) => ['fitted', 'replaced', 'removed', 'worn'].includes(event)) ||
    (draft.wraps ?? []).some(({ event }) => event === 'fitted' || event === 'replaced') ||
    Object.keys(draft.feet ?? {}).length > 0 ||
    Object.keys(draft.found ?? {}).length > 0;
  const { reporter } = heading;
  if (r.isMissed && !lifts && !touched && draft.kind === undefined) {
    draft.kind = 'missed';
    draft.why = whyMissed(r, r.isMissed);
    r.say(r.isMissed.from, r.isMissed.to, 'kind missed');
  } else if (r.isMissed) r.taken.delete(r.isMissed.from);
  const told = reporter ?? (touched || r.saidI ? undefined : sectionReporter(r, meant));
  if (
    draft.kind === undefined &&
    (reporter ? !(lifts && r.saidI) : r.isWordOnly && !lifts) &&
    !draft.trimmed
  ) {
    draft.kind = 'report';
    if (reporter) draft.by ??= reporter.name;
  } else if (draft.kind === undefined && touched) {
    const visits = r.animal.visits.filter(({ date }) => date < r.date);
    draft.kind = kindOfVisit({ ...r.animal, visits }, r.date);
  } else if (draft.kind === undefined && isDoubtful(r, meant)) {
    // Nothing was taken of it and something is denied: she may not have been there at all.
    r.ask(
      behind,
      behind,
      'no-kind',
      { called: meant.called },
      (['missed', 'report', 'recheck'] as const).map((kind) => ({ label: kind, text: ` kind ${kind}.` })),
    );
  } else if (draft.kind === undefined) {
    draft.kind = 'report';
    if (told) draft.by ??= told.name;
  }
  const trimmer = context.by ?? context.business.trimmer ?? context.business.people?.[0]?.name;
  const by = draft.by ?? heading.by ?? trimmer;
  if (by !== undefined) draft.by = by;
  if (draft['gait-by'] !== undefined && draft['gait-by'] === draft.by) delete draft['gait-by'];
  // A report carries nothing only hands on the foot can tell.
  if (draft.kind === 'report' || draft.kind === 'missed') withoutHands(r);
  if (draft.by === undefined)
    r.ask(
      behind,
      behind,
      'no-name',
      { called: meant.called },
      r.context.business.people?.map(({ name }) => ({ label: name, text: ` by "${name}".` })) ?? [],
    );
}

function isDoubtful({ draft, items }: VisitReader, { sections }: Meant): boolean {
  if (Object.keys(draft).length > 0) return false;
  const words = sections.flatMap(({ from, to }) => items.slice(from, to));
  const absent = words.some(
    (one, at) =>
      one.is.has('missed') ||
      (one.is.has('negation') && words.slice(at + 1, at + 6).some(({ bare }) => isOne('come up', bare))),
  );
  return absent && !words.some(({ bare }) => isOne('left the herd', bare));
}

/** Somebody of the farm whose word it is: `Len says`, `sold says Len`. */
function sectionReporter(r: VisitReader, { sections }: Meant): PersonSaid | undefined {
  for (const { from, to } of sections)
    for (let at = from; at < to; at += 1) {
      const { person } = r.items[at]!;
      if (
        person?.role === 'farm' &&
        [r.items[at - 1], r.items[at + 1]].some((one) => one && (one.is.has('says') || one.is.has('call')))
      )
        return person;
    }
  return undefined;
}

function withoutHands(r: VisitReader): void {
  const { draft } = r;
  const untake = (keys: RegExp): void => {
    for (const piece of r.pieces.filter(({ as }) => as !== undefined && keys.test(as)))
      for (let at = piece.own[0]; at < piece.own[1]; at += 1) r.taken.delete(at);
  };
  for (const [name, found] of Object.entries(draft.found ?? {})) {
    for (const key of ['top', 'wall', 'width', 'length', 'depth', 'distance', 'tool', 'top-found'] as const)
      if (found[key] !== undefined) delete found[key];
    untake(/: (?:top|wall|width|length|depth|distance|tool|top-found) /);
    if (found.state !== undefined && r.notLifted) delete found.state;
    if (found.gone) delete found.gone;
    if (Object.keys(found).length === 0) delete draft.found![name];
  }
  if (Object.keys(draft.found ?? {}).length === 0) delete draft.found;
  if (draft.trimmed || draft['cut-back']) {
    delete draft.trimmed;
    delete draft['cut-back'];
    untake(/^(?:trimmed|cut-back)/);
  }
}

/** Why she was missed: the rest of what is said of her there. */
function whyMissed(r: VisitReader, { from, to }: { from: number; to: number }): string {
  const start = r.start(from, false);
  const end = r.end(to, false);
  const trimmed = (a: number, b: number): string =>
    a < b
      ? r.text.slice(r.items[a]!.from, r.items[b - 1]!.to).replace(/^[\s,;:()–—-]+|[\s,;:()–—-]+$/g, '')
      : '';
  const behind = trimmed(to, end);
  let first = start;
  while (first < from && (r.taken.has(first) || saysNothing(r.items[first]!))) first += 1;
  const isBehind = /\p{L}{2}/u.test(behind);
  const words = isBehind ? behind : trimmed(first, to);
  for (let at = isBehind ? to : first; at < (isBehind ? end : to); at += 1) r.taken.add(at);
  r.say(isBehind ? to : first, isBehind ? end : to, 'why');
  return words === '' ? r.items[from]!.text : words;
}

/**
 * A finding without a word on its state: a gap or an ulcer that is measured today and was not healed before is open.
 * Covered and healed are never taken for granted; a sign alone is said of the foot.
 */
function stateOfEach(r: VisitReader, behind: number): void {
  for (const [name, found] of Object.entries(r.draft.found ?? {})) {
    const code = r.codeOf(name);
    if (
      code === undefined ||
      found.lifted === false ||
      (found.state ?? found.stage ?? found.joined) !== undefined
    )
      continue;
    if (r.draft.kind === 'report' || r.draft.kind === 'missed') continue;
    const isSkin = lesionKinds[code].measures.has('stage');
    // Two lengths said of it: either way it was measured.
    const measured =
      r.contested.has(name) ||
      [found.top, found.wall, found.length, found.width, found.depth].some((length) => (length ?? 0) > 0);
    const before = r.before(name, 'state');
    const askedAlready = r.inDoubt.has(name);
    const onlySigns = Object.keys(found).every((key) => key === 'signs' || key === 'gone');
    if (onlySigns && !Object.keys(r.firstMet).includes(name)) {
      const { foot } = r.declared(name)!;
      const holder = ((r.draft.feet ??= {})[foot] ??= {});
      if (found.signs) holder.signs = [...new Set([...(holder.signs ?? []), ...found.signs])];
      if (found.gone) holder.gone = [...new Set([...(holder.gone ?? []), ...found.gone])];
      delete r.draft.found![name];
    } else if (familyOf(code) === 'present') found.state = 'present';
    else if (
      !isSkin &&
      (measured ||
        found['top-found'] !== undefined ||
        found['ran-up'] ||
        found['opened-further'] ||
        found.infected) &&
      (before === undefined || before === 'open' || Object.hasOwn(r.firstMet, name))
    )
      found.state = 'open';
    else if (!askedAlready) {
      const states = isSkin ? ['M1', 'M2', 'M3', 'M4', 'M0'] : ['open', 'covered', 'healed'];
      const id = isSkin ? 'no-stage' : 'no-state';
      r.ask(
        behind,
        behind,
        id,
        { name, kind: lesionKinds[code].name },
        states.map((state) => ({ label: state, text: ` lesion ${name} ${state}.` })),
      );
    }
  }
}

/** Lesions her file does not declare that this visit speaks of. */
export function declaredBy({ firstMet, draft }: VisitReader): AnimalReading['declares'] {
  const own = Object.entries(firstMet).filter(
    ([name]) => Object.hasOwn(draft.found ?? {}, name) || draft['cut-back']?.includes(name),
  );
  return own.length === 0 ? undefined : Object.fromEntries(own);
}

/** Kinds of words that only turn or join what others say: read, they leave nothing to keep. */
const grammar = [
  'negation', 'both', 'plan', 'hedge', 'correct', 'not-ours', 'cow', 'nearly', 'recent', 'takes-back', 'the-others',
]; // prettier-ignore

/**
 * Whatever no statement took, with the words round it that make sense of it, as it stands. What was taken but stands in no
 * fact and no question is kept as well, whichever statement took it, so that no word is lost.
 *
 * Checked: tests/note/any-text.test.ts
 */
export function keepRest(r: VisitReader, section: Section, bounds: ReadonlySet<number>): void {
  const { items, text } = r;
  const shown = [...r.pieces, ...r.questions].toSorted((a, b) => a.from - b.from);
  let next = 0;
  let reach = 0;
  for (let at = section.from; at < section.to; at += 1) {
    const item = items[at]!;
    for (; next < shown.length && shown[next]!.from <= item.from; next += 1)
      reach = Math.max(reach, shown[next]!.to);
    if (reach < item.to && !grammar.some((kind) => item.is.has(kind))) r.taken.delete(at);
  }
  const kept: [number, number][] = [];
  const pushed = (at: number): boolean => kept.some(([from, to]) => from <= at && at < to);
  for (let at = section.from; at < section.to; at += 1) {
    if (r.taken.has(at) || bounds.has(at) || saysNothing(items[at]!) || pushed(at)) continue;
    let from = at;
    while (from > section.from && !isBreak(items[from - 1]!)) from -= 1;
    let to = at + 1;
    while (to < section.to && !isBreak(items[to]!)) to += 1;
    // In a long run without a stop only the words around it count.
    if (to - from > 14) {
      from = Math.max(from, at - 3);
      let last = at;
      for (let index = at; index < Math.min(to, last + 5); index += 1)
        if (!r.taken.has(index) && !saysNothing(items[index]!)) last = index;
      to = Math.min(to, last + 3);
    }
    const last = kept.at(-1);
    if (last && from <= last[1]) last[1] = to;
    else kept.push([from, to]);
  }
  for (const [from, to] of kept) {
    const stretch = stretchOf(text, items, from, to);
    r.notes.push(
      stretch.text
        .replaceAll(/\s+/g, ' ')
        .replaceAll(/"([^"]*)"/g, '$1')
        .replaceAll(/^[\s,;:–-]+|[\s,;:–-]+$/g, ''),
    );
    r.pieces.push({ ...stretch, as: undefined, own: [from, to] });
  }
}

const isBreak = (item: Item): boolean =>
  item.kind === 'line' ||
  item.kind === 'stop' ||
  (item.kind === 'mark' && /^[;()•]$/.test(item.bare)) ||
  item.bare === ',';

/** Keys in the order of the case format. */
export function inOrder(draft: Partial<NoteVisit>): Partial<NoteVisit> {
  const keys = Object.keys(visit.shape) as (keyof NoteVisit)[];
  const each = Object.entries(draft.found ?? {}).map(([name, one]) => [
    name,
    Object.fromEntries(
      Object.keys(foundKeys.shape).flatMap((key) => (key in one ? [[key, one[key as keyof Found]]] : [])),
    ),
  ]);
  const whole = {
    ...draft,
    ...(draft.found ? { found: Object.fromEntries(each) as NoteVisit['found'] } : {}),
  };
  return Object.fromEntries(
    keys.filter((key) => whole[key] !== undefined).map((key) => [key, tidy(whole[key])]),
  );
}

/** Without keys that hold nothing. */
function tidy(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(tidy);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .map(([key, inner]) => [key, tidy(inner)]),
  );
}

export function isWhole(draft: Partial<NoteVisit>): draft is NoteVisit {
  return draft.date !== undefined && draft.by !== undefined && draft.kind !== undefined;
}
