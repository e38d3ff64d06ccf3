import { lesionKinds, familyOf } from '../reference/lesions.js';
import { calledIn, nameInFull, placeAsSaid, firstMet } from './first-met.js';
import { carries, codeBefore, lesionsThatFit, isDone } from './lesions-that-fit.js';
import type { Choice } from './note-reading.js';
import { skip, isDoubt } from './note-text.js';
import { type PlaceSaid, placeSaid } from './place-said.js';
import type { Mention, VisitReader } from './visit-reader.js';

/** Reads the place named at a token and makes it what is spoken of. */
export function readPlace(r: VisitReader, at: number): number | undefined {
  const said = placeSaid(r.note.tokens, at);
  return said && speakOfPlace(r, at, said, false);
}

/** `new DD RH`: a lesion first met, by the writer's own word. */
export function readNew(r: VisitReader, at: number, { next }: { readonly next: number }): number | undefined {
  const said = placeSaid(r.note.tokens, skip(r.note.tokens, next, 'a', ':'));
  return said?.codes && speakOfPlace(r, at, said, true);
}

function speakOfPlace(r: VisitReader, at: number, said: PlaceSaid, saidNew: boolean): number {
  const place = withFootSpokenOf(r, said);
  const mention: Mention = { from: at, next: said.next, place, before: r.subject, used: false };
  askIfNothingSaid(r);
  r.mention = mention;
  r.noteOn = undefined;
  r.wallJustRead = false;
  const fit =
    place.codes || place.claw !== undefined || place.site || place.mark
      ? lesionsThatFit(r.animal, place, r.date)
      : [];
  const [only] = fit;
  if (saidNew) {
    speakOfNew(r, mention, place, fit);
  } else if (fit.length === 1 && only !== undefined && !place.footItself) {
    r.subject = { is: 'lesion', name: only };
    r.say(at, said.next, nameInFull(r, only));
  } else if (fit.length === 0 && (place.codes || place.mark)) {
    speakOfUndeclared(r, mention, place, false);
  } else {
    r.subject = { is: 'place', place };
    r.say(at, said.next, placeAsSaid(place));
  }
  return said.next;
}

/** `inner` after `LH outer white line` is on the same foot; `white line` after `LH outer` on the same claw too. */
function withFootSpokenOf(r: VisitReader, place: PlaceSaid): PlaceSaid {
  const foot = place.feet.length === 0 ? r.subjectFoot() : undefined;
  if (foot === undefined) return place;
  const open = r.subject.is === 'place' && !r.subject.place.footItself ? r.subject.place.claw : undefined;
  const claw = place.claw ?? open;
  return { ...place, feet: [foot], ...(claw ? { claw } : {}) };
}

/** Makes the lesion or mark of this name what is spoken of. */
export function speakOf(r: VisitReader, name: string, from: number, next: number): void {
  askIfNothingSaid(r);
  r.mention = { from, next, place: undefined, before: r.subject, used: false };
  r.subject = { is: 'lesion', name };
  r.noteOn = undefined;
  r.wallJustRead = false;
  r.say(from, next, nameInFull(r, name));
}

/** A kind of lesion was named and nothing was said of it: that is no finding. */
export function askIfNothingSaid(r: VisitReader): void {
  const { mention } = r;
  if (!mention || mention.used || r.subject.is === 'asked') return;
  const named = mention.place === undefined || mention.place.codes !== undefined;
  if (!named) return;
  mention.used = true;
  const name = r.subject.is === 'lesion' ? r.subject.name : undefined;
  r.ask(mention.from, mention.next, {
    id: 'nothing-said',
    ask: `nothing is said of ${name === undefined ? 'it' : nameInFull(r, name)}`,
    mend: 'say how it stands, or that it was not looked at, or take it out',
    replace: [mention.next, mention.next],
    choices: name === undefined ? [] : stateChoices(r, name),
  });
}

/** The states its kind has, as words to put into the note. */
export function stateChoices(r: VisitReader, name: string): Choice[] {
  const code = codeBefore(r.animal, name, r.date);
  if (code === undefined) return [];
  const kind = lesionKinds[code];
  if (kind.measures.has('stage'))
    return ['M0', 'M1', 'M2', 'M3', 'M4', 'M4.1'].map((stage) => ({ label: stage, text: ` stage ${stage}` }));
  return [...kind.states].map((state) => ({ label: state, text: ` ${state}` }));
}

/**
 * The name of the lesion or mark that a finding belongs to; undefined where that had to be asked.
 *
 * `said` is the key of the finding: a top is read on a wall gap only, so it may tell which of two is meant.
 */
export function lesionFor(r: VisitReader, said: string, from: number, to: number): string | undefined {
  if (r.mention) r.mention.used = true;
  const { subject } = r;
  if (subject.is === 'asked') {
    r.say(from, to, 'waits for the answer');
    return undefined;
  }
  const place = subject.is === 'place' ? subject.place : undefined;
  const fit = lesionsThatFit(r.animal, place, r.date, said);
  if (subject.is === 'lesion') {
    const elsewhere = lesionsThatFit(r.animal, undefined, r.date, said);
    if (isFree(said) || elsewhere.includes(subject.name) || fits(r, subject.name, said)) return subject.name;
    askWhich(r, elsewhere, said, from, to, undefined);
    return undefined;
  }
  const [only] = fit;
  if (fit.length === 1 && only !== undefined) {
    r.subject = { is: 'lesion', name: only };
    return only;
  }
  askWhich(r, fit, said, from, to, place ? r.mention : undefined);
  r.subject = { is: 'asked' };
  return undefined;
}

const isFree = (said: string): boolean =>
  ['sign', 'note', 'lifted', 'code', 'cut-back', 'state-unsaid'].includes(said);

/** A gap that is followed no longer is left out where another fits, and still carries what gaps carry; one with a new name carries what that does. */
function fits(r: VisitReader, name: string, said: string): boolean {
  const declared = r.declared(name);
  if (!declared) return false;
  const now = r.draft.found?.[name]?.code;
  if (now !== undefined) return carries(now, said);
  const alone = {
    ...r.animal,
    lesions: 'code' in declared ? { [name]: declared } : {},
    marks: 'code' in declared ? {} : { [name]: declared },
  };
  return lesionsThatFit(alone, undefined, r.date, said).includes(name) ||
    (!('code' in declared) && lesionsThatFit(alone, { feet: [], footItself: false, mark: true }, r.date, said).includes(name)); // prettier-ignore
}

function askWhich(
  r: VisitReader,
  fit: readonly string[],
  said: string,
  from: number,
  to: number,
  mention: Mention | undefined,
): void {
  const [start, end] = mention ? [mention.from, mention.next] : [from, to];
  if (mention) r.say(from, to, 'waits for the answer');
  const what = said.split(' ')[0]!;
  r.ask(start, end, {
    id: fit.length === 0 ? 'no-lesion-fits' : 'which-lesion',
    ask:
      fit.length === 0
        ? `no lesion there in her file has a ${what}`
        : `which is it: ${fit.map((name) => nameInFull(r, name)).join(', or ')}?`,
    mend: 'name it by its letter, such as `lesion a: top 21`; a new one as `new LH outer sole ulcer`',
    replace: mention ? [mention.from, mention.next] : [from, from],
    choices: fit.map((name) => ({
      label: nameInFull(r, name),
      text: mention ? calledIn(r, name) : ` ${calledIn(r, name)}: `,
    })),
  });
}

/** By the writer's own word it is new; that one she has is at that very place is then asked about. */
function speakOfNew(
  r: VisitReader,
  mention: Mention,
  place: Omit<PlaceSaid, 'next'>,
  fit: readonly string[],
): void {
  const [known] = fit.filter((name) => !isDone(r.animal, name, r.date));
  if (known === undefined) {
    speakOfUndeclared(r, mention, place, true);
    return;
  }
  if (isMetToday(r, known)) {
    r.subject = { is: 'lesion', name: known };
    r.say(mention.from, mention.next, `${nameInFull(r, known)}, first met on this day`);
    return;
  }
  r.subject = { is: 'asked' };
  mention.used = true;
  r.ask(mention.from, mention.next, {
    id: 'new-where-one-is',
    ask: `it is called new, and ${nameInFull(r, known)} is there already`,
    mend: 'name it by its letter, as in `lesion a`, or declare the second in her file (`growdown declare`)',
    choices: fit.map((name) => ({ label: `it is ${nameInFull(r, name)}`, text: ` ${calledIn(r, name)} ` })),
  });
}

/** On file since this very day: this note may have been taken before. */
function isMetToday({ animal, date }: VisitReader, name: string): boolean {
  return animal.visits.find(({ found }) => Object.hasOwn(found ?? {}, name))?.date === date;
}

/** No lesion of hers is meant: it is declared where that is certain, else asked about. */
function speakOfUndeclared(
  r: VisitReader,
  mention: Mention,
  place: Omit<PlaceSaid, 'next'>,
  saidNew: boolean,
): void {
  const met = place.codes ? firstMet(r, place, saidNew) : undefined;
  if (met?.outcome === 'certain' && isDoubtBefore(r, mention.from)) {
    askNotSure(r, mention, place);
    return;
  }
  if (met?.outcome === 'certain') {
    r.firstMet[met.name] = met.lesion;
    r.subject = { is: 'lesion', name: met.name };
    const { site, 'again-of': again } = met.lesion;
    r.say(
      mention.from,
      mention.next,
      `a lesion first met, declared as ${[nameInFull(r, met.name), site].filter(Boolean).join(', ')}${again === undefined ? '' : `, again of ${again}`}`,
    );
    return;
  }
  r.subject = { is: 'asked' };
  mention.used = true;
  const names = place.mark ? Object.keys(r.animal.marks ?? {}) : Object.keys(r.animal.lesions);
  const near = names.filter((name) => mayBe(r, name, place));
  r.ask(mention.from, mention.next, {
    id: place.mark ? 'new-mark' : 'new-lesion',
    ask: `her file declares no ${place.mark ? 'mark' : 'lesion'} like this: ${placeAsSaid(place)}`,
    mend: `${met?.mend ?? 'if it is new, declare it first (`growdown declare`)'}; if it is one she has, name it by its letter`,
    choices: [
      ...near.map((name) => ({ label: `it is ${nameInFull(r, name)}`, text: calledIn(r, name) })),
      ...(met?.choices ?? []),
    ],
  });
}

/** One of hers that may be meant all the same: on that foot, and of a kind that may have got the name said here. */
function mayBe(r: VisitReader, name: string, { feet, codes }: Omit<PlaceSaid, 'next'>): boolean {
  const one = r.declared(name);
  if (one === undefined || (feet.length > 0 && one.foot !== feet[0])) return false;
  const code = codeBefore(r.animal, name, r.date);
  return !codes || code === undefined || codes.some((said) => familyOf(said) === familyOf(code));
}

/** A word of doubt stands before it in its sentence: `maybe`, `perhaps`. */
function isDoubtBefore(r: VisitReader, at: number): boolean {
  const { tokens } = r.note;
  let from = at;
  while (from > r.behindNumber && tokens[from - 1]?.kind !== 'stop' && tokens[from - 1]?.kind !== 'line')
    from -= 1;
  return tokens.slice(from, at).some(isDoubt);
}

function askNotSure(r: VisitReader, mention: Mention, place: Omit<PlaceSaid, 'next'>): void {
  r.subject = { is: 'asked' };
  mention.used = true;
  r.ask(mention.from, mention.next, {
    id: 'not-sure',
    ask: `is it sure that she has a new lesion here: ${placeAsSaid(place)}?`,
    mend: 'take the word of doubt out; or put the words after `note:`',
  });
}
