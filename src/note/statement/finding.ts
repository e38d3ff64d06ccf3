import type { FootFinding } from '../../record/visit.js';
import {
  type AnimalSign,
  type DdStage,
  ddStages,
  type Foot,
  type LesionCode,
  type LesionState,
  type Sign,
  type TopFound,
} from '../../record/words.js';
import { nameAt } from '../name-of-lesion.js';
import { endOfSentence, isFiller, skip, stretchOf } from '../note-text.js';
import { numberSaid } from '../number-said.js';
import { type Phrase, phraseAt } from '../phrase.js';
import { lesionFor } from '../subject.js';
import type { VisitReader } from '../visit-reader.js';

/** The feet spoken of where it is feet and nothing on them. */
function feetThemselves(r: VisitReader): readonly Foot[] | undefined {
  if (r.subject.is !== 'place') return undefined;
  const { feet, claw, codes, site, mark } = r.subject.place;
  return feet.length > 0 && claw === undefined && !codes && !site && !mark ? feet : undefined;
}

export function readState(r: VisitReader, at: number, { value, next }: Phrase): number {
  const name = lesionFor(r, `state ${value}`, at, next);
  if (name !== undefined) r.setFound(name, 'state', value as LesionState, at, next);
  return next;
}

/** `state not said`: left out on purpose, so that nobody is asked for it. */
export function readStateUnsaid(r: VisitReader, at: number, { next }: Phrase): number {
  const name = lesionFor(r, 'state-unsaid', at, next);
  if (name !== undefined) {
    r.foundOf(name);
    r.stateUnsaid.add(name);
    r.say(at, next, `${name}: how it stands is left out`);
  }
  return next;
}

/** `M2`, `m 4.1`, `stage m2`, `stage two`. */
export function readStage(r: VisitReader, at: number, from = at): number | undefined {
  const said = stageAt(r, from);
  if (!said) return undefined;
  const name = lesionFor(r, 'stage', at, said.next);
  if (name !== undefined) r.setFound(name, 'stage', said.stage, at, said.next);
  return said.next;
}

function stageAt(r: VisitReader, at: number): { stage: DdStage; next: number } | undefined {
  const { tokens } = r.note;
  const glued = /^m([0-4])$/.exec(tokens[at]?.bare ?? '');
  const spaced = tokens[at]?.bare === 'm' ? at + 1 : at;
  const number = glued ? undefined : numberSaid(tokens, spaced);
  if (!glued && (!number || (spaced === at && tokens[at - 1]?.bare !== 'stage'))) return undefined;
  const half = glued && glued[1] === '4' && tokens[at + 1]?.text === '.' && tokens[at + 2]?.text === '1';
  const glueHolds =
    half && tokens[at + 1]!.from === tokens[at]!.to && tokens[at + 2]!.from === tokens[at + 1]!.to;
  const called = glued ? `M${glued[1]}${glueHolds ? '.1' : ''}` : `M${number!.value}`;
  const stage = ddStages.find((one) => one === called);
  return stage && { stage, next: glued ? at + (glueHolds ? 3 : 1) : number!.next };
}

/** `seen` alone is said of many things: it is the top's only where a top is told in that sentence, or was just before. */
export function readTopFound(r: VisitReader, at: number, { value, next }: Phrase): number | undefined {
  const { tokens } = r.note;
  const spoken = r.subject.is === 'lesion' ? r.draft.found?.[r.subject.name]?.top : undefined;
  if (
    next === at + 1 &&
    spoken === undefined &&
    !tokens.slice(at, endOfSentence(tokens, at)).some(({ bare }) => bare === 'top')
  )
    return undefined;
  const name = lesionFor(r, 'top-found', at, next);
  if (name !== undefined) r.setFound(name, 'top-found', value as TopFound, at, next);
  return next;
}

export function readWallAt(r: VisitReader, at: number, { next }: Phrase): number {
  const name = lesionFor(r, 'wall-at', at, next);
  if (name !== undefined) r.setFound(name, 'wall-at', 'beside', at, next);
  return next;
}

/** `infected`, `ran up`, `opened further`, `wall lowered`, and each with `not`. */
export function readYesNo(r: VisitReader, at: number, { kind, value, next }: Phrase): number {
  const key = kind as 'infected' | 'ran-up' | 'opened-further' | 'wall-lowered';
  const name = lesionFor(r, key, at, next);
  if (name !== undefined) r.setFound(name, key, value === 'yes', at, next);
  return next;
}

/**
 * `pus`, `pus gone`, `smell and heat gone`. A sign belongs to the lesion spoken of; to the foot where only the foot was
 * named. `heat, pus gone` may mean one or both: that is asked.
 */
export function readSign(r: VisitReader, at: number, { value, next }: Phrase): number {
  const { tokens } = r.note;
  const { signs, ends, between } = signsListed(r, at);
  const last = ends.at(-1)!;
  const word = phraseAt(tokens, isFiller(tokens[last] ?? tokens[at]!) ? last + 1 : last, 'gone-behind');
  if (word && isEnd(r, word.next)) {
    const isOneList = between.every((said) => said === 'and');
    return readGone(r, signs, isOneList ? [] : signs.slice(0, -1), at, word.next);
  }
  putSigns(r, 'signs', [value as Sign], at, next);
  return next;
}

/** `no heat`, `no pus, smell or heat`: looked for, and not there. `not bleeding much` is no such word. */
export function readNoSign(r: VisitReader, at: number): number | undefined {
  const { tokens } = r.note;
  if (phraseAt(tokens, at)) return undefined;
  const word = phraseAt(tokens, at, 'gone-before');
  const { signs, ends, between } = signsListed(r, word?.next ?? at);
  const last = ends.at(-1);
  if (!word || last === undefined) return undefined;
  const next = phraseAt(tokens, last, 'gone-tail')?.next ?? last;
  if (!isEnd(r, next)) return undefined;
  const isOneList = !between.includes('and') && ['or', 'nor', undefined].includes(between.at(-1));
  return readGone(r, signs, isOneList ? [] : signs.slice(1), at, next);
}

/** Signs one after another, where each of them ends, and the word that stands between each and the next. */
function signsListed(r: VisitReader, at: number): { signs: Sign[]; ends: number[]; between: string[] } {
  const { tokens } = r.note;
  const listed: ReturnType<typeof signsListed> = { signs: [], ends: [], between: [] };
  for (let from = at, between = ''; ;) {
    const phrase = phraseAt(tokens, from);
    if (phrase?.kind !== 'sign') return listed;
    if (listed.signs.length > 0) listed.between.push(between);
    listed.signs.push(phrase.value as Sign);
    listed.ends.push(phrase.next);
    from = phrase.next;
    between = '';
    for (; [',', '&', 'and', 'or', 'nor'].includes(tokens[from]?.bare ?? ''); from += 1)
      between = tokens[from]!.bare === '&' ? 'and' : tokens[from]!.bare;
  }
}

/** Whether nothing stands there that may turn what was said: `gone down` is less of it, `no pus yet` is no look. */
function isEnd(r: VisitReader, at: number): boolean {
  const token = r.note.tokens[at];
  if (!token || ['stop', 'line', 'mark'].includes(token.kind) || token.bare === 'and')
    return token?.text !== '?';
  const phrase = phraseAt(r.note.tokens, at);
  return phrase !== undefined && phrase.kind !== 'not-ours' && phrase.value !== 'down';
}

/**
 * Puts signs in as gone; those that may be meant as seen are asked about. Word from the farm clears no sign, since
 * nobody had a hand on the foot: there it is a note.
 */
function readGone(
  r: VisitReader,
  signs: readonly Sign[],
  unsure: readonly Sign[],
  at: number,
  next: number,
): number {
  const { kind } = r.draft;
  if (kind === 'report' || kind === 'missed') return noteGone(r, at, next);
  if (unsure.length === 0) {
    putSigns(r, 'gone', signs, at, next);
    return next;
  }
  if (r.mention) r.mention.used = true;
  const gone = (some: readonly Sign[]): string => some.map((sign) => `${sign} gone`).join(', ');
  const sure = signs.filter((sign) => !unsure.includes(sign));
  r.ask(at, next, {
    id: 'which-gone',
    ask: `which of these are gone: ${signs.join(', ')}?`,
    mend: `write each by itself: \`${gone(signs)}\``,
    choices: [
      { label: 'all of them', text: gone(signs) },
      { label: `${gone(sure)}; ${unsure.join(', ')} seen`, text: `${gone(sure)}, ${unsure.join(', ')}` },
    ],
  });
  return next;
}

/** Kept with the place it was said of, where that stands right before it. */
function noteGone(r: VisitReader, at: number, next: number): number {
  const { mention, note } = r;
  const isBeside = (mentioned: number): boolean =>
    note.tokens.slice(mentioned, at).every((token) => token.kind === 'mark' || isFiller(token));
  const from = mention && !mention.used && isBeside(mention.next) ? mention.from : at;
  if (mention) mention.used = true;
  const { text } = stretchOf(note, from, next);
  r.notes.push(text);
  r.say(at, next, `note, since no foot was lifted: ${text}`);
  return next;
}

function putSigns(
  r: VisitReader,
  key: 'signs' | 'gone',
  signs: readonly Sign[],
  at: number,
  next: number,
): void {
  const said = `${signs.join(', ')}${key === 'gone' ? ' gone' : ''}`;
  const add = (whose: string, to: Pick<FootFinding, 'signs' | 'gone'>): void => {
    to[key] = [...new Set([...(to[key] ?? []), ...signs])];
    if (signs.some((sign) => to.signs?.includes(sign) && to.gone?.includes(sign)))
      r.askTwice(at, next, `${whose}: ${signs.join(', ')}`);
  };
  const feet = feetThemselves(r);
  if (feet) {
    if (r.mention) r.mention.used = true;
    for (const foot of feet) add(foot, r.footOf(foot));
    r.say(at, next, `${feet.join(' ')}: ${said}`);
    return;
  }
  const name = lesionFor(r, 'sign', at, next);
  if (name === undefined) return;
  add(name, r.foundOf(name));
  r.say(at, next, `${name}: ${said}`);
}

/**
 * `off feed`, `slobbering`: seen of the animal. `down` is said of much else (`swelling down`, `pared down`), so it
 * counts only where it stands by itself.
 */
export function readAnimalSign(r: VisitReader, at: number, { value, next }: Phrase): number | undefined {
  if (value === 'down' && !(beginsAt(r, at) && isEnd(r, next))) return undefined;
  r.draft.signs = [...new Set([...(r.draft.signs ?? []), value as AnimalSign])];
  r.say(at, next, `general sign: ${value}`);
  return next;
}

/** Right behind her number, a sentence's end or a comma, words like `she is` passed over. */
function beginsAt(r: VisitReader, at: number): boolean {
  const { tokens } = r.note;
  let from = at;
  while (from > r.behindNumber && (isFiller(tokens[from - 1]!) || tokens[from - 1]!.bare === 'cow'))
    from -= 1;
  const before = tokens[from - 1];
  return from === r.behindNumber || !before || ['stop', 'line', 'mark'].includes(before.kind);
}

/** `lifted`, `not lifted`: of feet, or of one lesion or mark. */
export function readLifted(r: VisitReader, at: number, { value, next }: Phrase): number {
  const lifted = value === 'yes';
  const feet = feetThemselves(r);
  if (feet) {
    if (r.mention) r.mention.used = true;
    for (const foot of feet) {
      const finding = r.footOf(foot);
      if (finding.lifted !== undefined && finding.lifted !== lifted) r.askTwice(at, next, `${foot}: lifted`);
      else finding.lifted = lifted;
    }
    r.say(at, next, `${feet.join(' ')}: lifted ${value}`);
    return next;
  }
  const name = lesionFor(r, 'lifted', at, next);
  if (name !== undefined) r.setFound(name, 'lifted', lifted, at, next);
  return next;
}

/** `RH sound` is a word on the foot. Of a lesion it is no state: that is asked. */
export function readSound(r: VisitReader, at: number, { next }: Phrase): number | undefined {
  const feet = feetThemselves(r);
  if (feet) {
    if (r.mention) r.mention.used = true;
    for (const foot of feet) r.footOf(foot).note ??= 'sound';
    r.say(at, next, `${feet.join(' ')}: sound`);
    return next;
  }
  if (r.subject.is !== 'lesion') return undefined;
  if (r.mention) r.mention.used = true;
  r.ask(at, next, {
    id: 'sound-lesion',
    ask: 'a lesion is called sound, and that is no state of it',
    mend: 'write healed, covered or open; sound can be said of a foot',
    choices: ['healed', 'covered', 'open'].map((state) => ({ label: state, text: state })),
  });
  return next;
}

/** `joined b`: this gap runs into b now. */
export function readJoined(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const called = phraseAt(r.note.tokens, phrase.next);
  const into = nameAt(r, called?.kind === 'called' ? called.next : phrase.next);
  if (!into) return undefined;
  const name = lesionFor(r, 'joined', at, into.next);
  if (name !== undefined) r.setFound(name, 'joined', into.name, at, into.next);
  return into.next;
}

/** `code WLA`, `now called white line abscess`: its name is another from this visit on. */
export function readCode(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const from = skip(r.note.tokens, phrase.next, 'a', 'is');
  const kind = phraseAt(r.note.tokens, from);
  if (kind?.kind !== 'lesion') return undefined;
  const exact = /^[A-Z]{2,3}$/.test(r.note.tokens[from]!.text) ? r.note.tokens[from]!.text : undefined;
  const codes = kind.value.split(' ');
  const code = codes.length === 1 ? codes[0] : codes.find((one) => one === exact);
  if (code === undefined) return undefined;
  const name = lesionFor(r, 'code', at, kind.next);
  if (name !== undefined) r.setFound(name, 'code', code as LesionCode, at, kind.next);
  return kind.next;
}

/** `loose horn off`, of the lesion spoken of; `cut back: lesion a, lesion b` of several. */
export function readCutBack(r: VisitReader, at: number, phrase: Phrase): number {
  const { tokens } = r.note;
  const names: string[] = [];
  let next = phrase.next;
  for (let from = skip(tokens, next, 'and'); ; from = skip(tokens, next, 'and')) {
    const called = phraseAt(tokens, from);
    const listed = called?.kind === 'called' ? nameAt(r, called.next) : undefined;
    if (!listed || tokens[listed.next]?.text === ':') break;
    names.push(listed.name);
    next = listed.next;
  }
  const spoken = names.length > 0 ? undefined : lesionFor(r, 'cut-back', at, next);
  const all = spoken === undefined ? names : [spoken];
  if (all.length === 0) return next;
  r.draft['cut-back'] = [...new Set([...(r.draft['cut-back'] ?? []), ...all])];
  r.say(at, next, `cut back: ${all.join(', ')}`);
  return next;
}
