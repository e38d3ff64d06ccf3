import { type Phrase, phraseAt } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';
import {
  readAnimalSign,
  readCode,
  readCutBack,
  readJoined,
  readLifted,
  readSign,
  readSound,
  readStage,
  readState,
  readStateUnsaid,
  readTopFound,
  readWallAt,
  readYesNo,
} from './finding.js';
import { readCarrying } from './carrying-claw.js';
import { readLength, readTool, readWallTool } from './length.js';
import { readProduct } from './product.js';
import { readAskFarm, readFarmDid, readRecheck, readVetDoes } from './request.js';
import { readCondition, readGait, readScoredBy, readWalks, readWeight } from './score.js';
import { readVet, readVetAnswer } from './vet.js';
import { readNew } from '../subject.js';
import {
  readAmended,
  readAt,
  readBy,
  readKind,
  readFreeNote,
  readWhy,
  readWithNote,
} from './words-of-visit.js';
import { readAnsweredWork, readPainRelief, readTrimmed } from './work.js';
import type { BlockMaterial, FixtureEvent, Foot, Claw } from '../../record/words.js';
import type { WrapEvent, BlockEvent } from '../../record/visit.js';
import { wrapsOn, blocksOn } from '../fixtures-on.js';
import { given } from '../../record/given.js';
import { pastDay } from '../day-of.js';
import { skip } from '../note-text.js';
import { type PlaceSaid, placeSaid } from '../place-said.js';

/** What is said of a block or a wrap besides what became of it. */
interface FixtureTold {
  place: Omit<PlaceSaid, 'next'> | undefined;
  material: BlockMaterial | undefined;
  on: string | undefined;
  next: number;
}

/** Kinds of words that make a place before them a lesion's and not a block's. */
const findings = new Set([
  'length', 'state', 'stage', 'top-found', 'sign', 'infected', 'ran-up', 'opened-further', 'lifted', 'sound',
]); // prettier-ignore

/** The place just named, if nothing was said of it and it is no lesion by its kind: `LH inner block on`. */
function placeBefore(r: VisitReader, at: number): Omit<PlaceSaid, 'next'> | undefined {
  const { mention } = r;
  if (!mention?.place || mention.used || mention.next !== at) return undefined;
  const { codes, site, mark, feet } = mention.place;
  return codes || site || mark || feet.length > 1 ? undefined : mention.place;
}

/** What follows the words for it: its place, what it is made of, the day; each once, in any order. */
function toldAfter(r: VisitReader, told: FixtureTold, kind: string): FixtureTold {
  const { tokens } = r.note;
  for (;;) {
    const at = skip(tokens, told.next, 'on', 'the', 'of', 'to', 'in', 'a');
    const unknown = phraseAt(tokens, at, 'unknown-day');
    const day = told.on === undefined && !unknown ? pastDay(r, at) : undefined;
    const phrase = phraseAt(tokens, at);
    const place = told.place ? undefined : placeOfFixture(r, at);
    if (unknown && told.on === undefined) told = { ...told, on: 'unknown', next: unknown.next };
    else if (day) told = { ...told, on: day.day ?? 'unknown', next: day.next };
    else if (kind === 'block' && phrase?.kind === 'material' && told.material === undefined)
      told = { ...told, material: phrase.value as BlockMaterial, next: phrase.next };
    else if (place) told = { ...told, place, next: place.next };
    else return told;
  }
}

function placeOfFixture(r: VisitReader, at: number): PlaceSaid | undefined {
  const place = placeSaid(r.note.tokens, at);
  if (!place || place.codes || place.site || place.mark || place.feet.length > 1) return undefined;
  const then = skip(r.note.tokens, place.next);
  if (r.note.tokens[place.next]?.text === ':') return undefined;
  const follows = phraseAt(r.note.tokens, then);
  const stage = /^m[0-4]$/.test(r.note.tokens[then]?.bare ?? '');
  return stage || findings.has(follows?.kind ?? '') ? undefined : place;
}

/** Reads one statement from its first words on: the first token behind it, or undefined where the words say nothing by themselves. */
export type ReadStatement = (r: VisitReader, at: number, phrase: Phrase) => number | undefined;

/** Which reader takes a phrase of which kind. Kinds that are not here are read where they are asked for. */
export const statements: Readonly<Record<string, ReadStatement>> = {
  'first-met': readNew,
  length: readLength,
  tool: readTool,
  'wall-tool': readWallTool,
  state: readState,
  'state-unsaid': readStateUnsaid,
  stage: (r, at, { next }) => readStage(r, at, next),
  'top-found': readTopFound,
  'wall-at': readWallAt,
  'wall-lowered': readYesNo,
  infected: readYesNo,
  'ran-up': readYesNo,
  'opened-further': readYesNo,
  sign: readSign,
  'animal-sign': readAnimalSign,
  joined: readJoined,
  code: readCode,
  lifted: readLifted,
  sound: readSound,
  'cut-back': readCutBack,
  block: readFixture,
  wrap: readFixture,
  material: readMaterial,
  carrying: readCarrying,
  gait: readGait,
  walks: readWalks,
  'scored-by': readScoredBy,
  condition: readCondition,
  weight: readWeight,
  trimmed: readTrimmed,
  product: readProduct,
  'pain-relief': readPainRelief,
  vet: readVet,
  'vet-answer': readVetAnswer,
  'vet-does': readVetDoes,
  'ask-farm': readAskFarm,
  'farm-did': readFarmDid,
  recheck: readRecheck,
  kind: readKind,
  why: readWhy,
  by: readBy,
  at: readAt,
  'tools-disinfected': readAnsweredWork,
  'saw-expected': readAnsweredWork,
  amended: readAmended,
  'with-note': readWithNote,
  note: readFreeNote,
};

/** `wood block on inner`, `block off`, `wrap off RH`: what became of a block or a wrap. */
function readFixture(
  r: VisitReader,
  at: number,
  phrase: Phrase,
  material?: BlockMaterial,
  start = at,
): number {
  const before = placeBefore(r, start);
  const told = toldAfter(r, { place: before, material, on: undefined, next: phrase.next }, phrase.kind);
  const from = before && r.mention ? r.mention.from : start;
  if (before && r.mention) {
    r.mention.used = true;
    r.subject = r.mention.before;
  }
  if (phrase.kind === 'block') readBlock(r, from, phrase, told);
  else readWrap(r, from, phrase, told);
  return told.next;
}

/** `wood` before `block on`. */
function readMaterial(r: VisitReader, at: number, { value, next }: Phrase): number | undefined {
  const phrase = phraseAt(r.note.tokens, next);
  return phrase?.kind === 'block' ? readFixture(r, next, phrase, value as BlockMaterial, at) : undefined;
}

/** What became of a wrap: on the foot said, or the one that only can be meant; else it is asked. */
function readWrap(r: VisitReader, from: number, phrase: Phrase, told: FixtureTold): void {
  const on = wrapsOn(r.animal, r.date);
  const goesOn = phrase.value === 'on?' || phrase.value === 'fitted' || phrase.value === 'already on';
  const named = told.place?.feet[0];
  const spoken = r.subjectFoot();
  const known = goesOn || (spoken !== undefined && on.includes(spoken)) ? spoken : undefined;
  const foot: Foot | undefined = named ?? known ?? (goesOn || on.length !== 1 ? undefined : on[0]);
  if (foot === undefined) {
    r.ask(from, told.next, {
      id: 'which-foot',
      ask: 'which foot is the wrap on?',
      mend: 'name the foot, as in `wrap off RH`',
      replace: [phrase.next, phrase.next],
      choices: ['LF', 'RF', 'LH', 'RH'].map((one) => ({ label: one, text: ` ${one}` })),
    });
    return;
  }
  if (phrase.value === 'on?' && on.includes(foot)) return askOn(r, from, phrase, told, 'wrap');
  const event = (phrase.value === 'on?' ? 'fitted' : phrase.value) as FixtureEvent;
  const wrap: WrapEvent = { foot, event, ...given({ on: told.on }) };
  (r.draft.wraps ??= []).push(wrap);
  r.noteOn = (note) => (wrap.note = note);
  r.say(from, told.next, `wrap ${event}, ${foot}${told.on === undefined ? '' : `, on ${told.on}`}`);
}

/** What became of a block: on the claw said, or the one that only can be meant; else it is asked. */
function readBlock(r: VisitReader, from: number, phrase: Phrase, told: FixtureTold): void {
  const on = blocksOn(r.animal, r.date);
  const asked = told.place;
  const foot = asked?.feet[0] ?? r.subjectFoot();
  const said = asked?.claw === 'other' ? otherClaw(r, foot) : asked?.claw;
  const there = on.filter(
    (one) => (foot === undefined || one.foot === foot) && (said === undefined || one.claw === said),
  );
  const goesOn = phrase.value === 'on?' || phrase.value === 'fitted' || phrase.value === 'already on';
  const [one] = there.length > 0 || asked?.feet[0] !== undefined || said !== undefined ? there : on;
  const sure = !goesOn && (there.length === 1 || (there.length === 0 && on.length === 1));
  const at =
    foot !== undefined && said !== undefined
      ? { foot, claw: said }
      : sure && one
        ? { foot: one.foot, claw: one.claw }
        : undefined;
  if (!at) return askClaw(r, from, phrase, told, foot, said);
  if (phrase.value === 'on?' && there.length > 0) return askOn(r, from, phrase, told, 'block');
  const event = (phrase.value === 'on?' ? 'fitted' : phrase.value) as FixtureEvent;
  const block: BlockEvent = {
    ...at,
    event,
    ...given({ material: told.material, on: told.on }),
  };
  (r.draft.blocks ??= []).push(block);
  r.noteOn = (note) => (block.note = note);
  const rest = [told.material, told.on === undefined ? '' : `on ${told.on}`].filter(Boolean).join(', ');
  r.say(from, told.next, `block ${event}, ${at.foot} ${at.claw} claw${rest ? `, ${rest}` : ''}`);
}

/** The claw beside the sore one, where the lesion spoken of is on one. */
function otherClaw(r: VisitReader, foot: Foot | undefined): Claw | undefined {
  const subject = r.subject.is === 'lesion' ? r.declared(r.subject.name) : undefined;
  if (!subject?.claw || subject.foot !== foot) return undefined;
  return subject.claw === 'outer' ? 'inner' : 'outer';
}

function askClaw(
  r: VisitReader,
  from: number,
  phrase: Phrase,
  told: FixtureTold,
  foot: Foot | undefined,
  claw: Claw | undefined,
): void {
  const feet = foot === undefined ? (['LF', 'RF', 'LH', 'RH'] as const) : [foot];
  const claws = claw === undefined ? (['inner', 'outer'] as const) : [claw];
  r.ask(from, told.next, {
    id: 'which-claw',
    ask: 'which claw is the block on?',
    mend: 'name the claw that carries it, as in `block off LH inner`',
    replace: told.place ? [from, told.next] : [phrase.next, phrase.next],
    choices: feet.flatMap((one) =>
      claws.map((side) => ({
        label: `${one} ${side}`,
        text: told.place
          ? `block ${phrase.value === 'on?' ? 'on' : phrase.value} ${one} ${side}`
          : ` ${one} ${side}`,
      })),
    ),
  });
}

/** `block on`, and by her file one was on: the same one, or a new one? */
function askOn(
  r: VisitReader,
  from: number,
  phrase: Phrase,
  told: FixtureTold,
  what: 'block' | 'wrap',
): void {
  const start = phrase.next - 1;
  r.ask(from, told.next, {
    id: `${what}-on-twice`,
    ask: `by her file a ${what} was on there already: is it the same one, or a new one?`,
    mend: `write \`${what} still on\`, \`${what} replaced\` or \`${what} fitted\``,
    replace: [start, phrase.next],
    choices: [
      { label: 'the same, still on', text: `${what} still on` },
      { label: 'a new one for the old', text: `${what} replaced` },
      { label: 'a new one; the old was off', text: `${what} fitted` },
    ],
  });
}
