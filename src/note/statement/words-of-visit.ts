import type { VisitKind } from '../../record/words.js';
import { comingDay, pastDay } from '../day-of.js';
import { nameSaid } from '../place-said.js';
import { restOfLine, skip, wordsSaid } from '../note-text.js';
import { type Phrase, phraseAt } from '../phrase.js';
import { spanSaid } from '../number-said.js';
import type { VisitReader } from '../visit-reader.js';

/** `note: quiet today`: free words, to the end of the line. */
export function readFreeNote(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const said = restOfLine(r.note, phrase.next);
  if (!said) return undefined;
  r.notes.push(said.words);
  r.say(at, said.next, `note: ${said.words}`);
  return said.next;
}

/** `with note "…"`: free words on the block, wrap, product, foot or lesion told last. */
export function readWithNote(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  if (r.mention && r.subject.is !== 'nothing' && !r.noteOn) noteOnSubject(r);
  const said = r.noteOn && wordsSaid(r.note, phrase.next);
  if (!said || !r.noteOn) return undefined;
  r.noteOn(said.words);
  r.say(at, said.next, `note on it: ${said.words}`);
  return said.next;
}

function noteOnSubject(r: VisitReader): void {
  if (r.mention) r.mention.used = true;
  if (r.subject.is === 'lesion') r.foundOf(r.subject.name);
  else if (r.subject.is === 'place' && r.subject.place.feet.length === 1) r.footOf(r.subject.place.feet[0]!);
}

/** `by Orla Venn`; `by` before a tool is said with the tool. */
export function readBy(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  if (phrase.next === at + 1 && phraseAt(r.note.tokens, phrase.next)?.kind === 'tool') return phrase.next;
  const name = nameSaid(r.note.tokens, phrase.next, r.people);
  if (!name) return undefined;
  const heading = r.heading;
  r.set('by', name.name, at, name.next, `by ${name.name}`);
  r.heading = heading;
  return name.next;
}

/** `at 10:40`. */
export function readAt(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const { tokens } = r.note;
  const [hour, sign, minute] = tokens.slice(phrase.next, phrase.next + 3);
  const dotted = /^(\d{1,2})\.(\d\d)$/.exec(hour?.text ?? '');
  const glued = hour?.to === sign?.from && sign?.to === minute?.from && /^[:.]$/.test(sign?.text ?? '');
  const parts = dotted ? [dotted[1]!, dotted[2]!] : glued ? [hour!.text, minute!.text] : undefined;
  if (!parts || !/^\d{1,2}$/.test(parts[0]!) || !/^\d\d$/.test(parts[1]!)) return undefined;
  let next = phrase.next + (dotted ? 1 : 3);
  const half = tokens[next]?.bare;
  let hours = Number(parts[0]);
  if (half === 'pm' || half === 'am') {
    hours = (hours % 12) + (half === 'pm' ? 12 : 0);
    next += 1;
  }
  if (hours > 23 || Number(parts[1]) > 59) return undefined;
  const time = `${String(hours).padStart(2, '0')}:${parts[1]}`;
  const heading = r.heading;
  r.set('at', time, at, next, `at ${time}`);
  r.heading = heading;
  return next;
}

/** `first visit`, `report from Nan Thistlewrack`, `missed: not in the pen`; `recheck 4 weeks` asks to look again. */
export function readKind(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const { tokens } = r.note;
  const kind = phrase.value as VisitKind;
  const after = skip(tokens, phrase.next, 'in', 'on');
  if (kind === 'recheck' && (spanSaid(tokens, after) || !r.heading)) {
    const said = comingDay(r, after);
    if (said) {
      if (said.day !== undefined) r.set('recheck', said.day, at, said.next, `look again on ${said.day}`);
      return said.next;
    }
  }
  const heading = r.heading;
  r.set('kind', kind, at, phrase.next, `kind ${kind}`);
  r.heading = heading;
  if (kind === 'report') {
    const name = nameSaid(tokens, skip(tokens, phrase.next, 'from', 'by', 'of'), r.people);
    if (name) {
      r.set('by', name.name, phrase.next, name.next, `by ${name.name}`);
      return name.next;
    }
  }
  const why =
    kind === 'missed' && tokens[phrase.next]?.text === ':' ? wordsSaid(r.note, phrase.next) : undefined;
  if (!why) return phrase.next;
  r.set('why', why.words, phrase.next, why.next, `why: ${why.words}`);
  return why.next;
}

/** `why not in the pen`, of a missed visit. */
export function readWhy(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  if (r.draft.kind !== 'missed' && r.note.tokens[phrase.next]?.kind !== 'quoted') return undefined;
  const why = wordsSaid(r.note, phrase.next);
  if (!why) return undefined;
  r.set('why', why.words, at, why.next, `why: ${why.words}`);
  return why.next;
}

/** `amended 4 March by Orla Venn why "wrong foot"`: a correction in the open. */
export function readAmended(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const { tokens } = r.note;
  const day = pastOrToday(r, skip(tokens, phrase.next, 'on'));
  if (day?.day === undefined) return undefined;
  const by = nameSaid(tokens, skip(tokens, day.next, 'by'), r.people);
  const why = by && wordsSaid(r.note, skip(tokens, by.next, 'why', 'because'));
  if (!by || !why) return undefined;
  (r.draft.amended ??= []).push({ date: day.day, by: by.name, why: why.words });
  r.say(at, why.next, `amended on ${day.day} by ${by.name}: ${why.words}`);
  return why.next;
}

/** An amendment comes after its visit: any day written in full is taken, one without a year is the latest by today. */
function pastOrToday(r: VisitReader, at: number): ReturnType<typeof pastDay> {
  const visited = r.date;
  r.date = r.context.today;
  const day = pastDay(r, at);
  r.date = visited;
  return day;
}
