import { pastDay } from '../day-of.js';
import { nameAt } from '../name-of-lesion.js';
import { nameSaid } from '../place-said.js';
import { skip, stretchOf, wordsSaid } from '../note-text.js';
import { type Phrase, phraseAt } from '../phrase.js';
import { vetDay } from './request.js';
import type { VisitReader } from '../visit-reader.js';
import { given } from '../../record/given.js';

/** `vet asked: heat above the foot`, `rang the vet 26 May about the gap creeping up`, `vet asked about LH and pus`. */
export function readVet(r: VisitReader, at: number, phrase: Phrase): number {
  const { tokens } = r.note;
  const { day, next } = vetDay(r, phrase.next);
  const about = aboutSaid(r, skip(tokens, next));
  const said = wordsSaid(
    r.note,
    skip(
      tokens,
      about?.next ?? next,
      'about',
      'why',
      'because',
      're',
      'regarding',
      'for',
      'with',
      'to',
      'reason',
    ),
  );
  // What it was about is the reason too, where that is all that is said.
  const why = said ?? about;
  if (why) {
    if (r.draft.vet) r.askTwice(at, why.next, 'the vet');
    r.draft.vet = { asked: day, why: why.words, ...(about ? { about: about.items } : {}) };
    r.say(at, why.next, `vet asked on ${day}${aboutInWords(about)}: ${why.words}`);
    return why.next;
  }
  r.ask(at, next, {
    id: 'vet-why',
    ask: 'what was the vet asked about?',
    mend: 'write it behind, as in `vet asked: heat above the foot`',
  });
  return next;
}

interface AboutSaid {
  readonly items: string[];
  /** As written, without the word `about`. */
  readonly words: string;
  readonly next: number;
}

const aboutInWords = (about: AboutSaid | undefined): string =>
  about ? ` about ${about.items.join(', ')}` : '';

/**
 * `about LH, lesion a and pus`: feet, lesions or marks by their names, signs, `lame`. Undefined where any other word
 * stands among them or runs on from them: `about the pus at the toe` is a reason and names nothing.
 */
function aboutSaid(r: VisitReader, at: number): AboutSaid | undefined {
  const { tokens } = r.note;
  if (tokens[at]?.bare !== 'about') return undefined;
  const items: string[] = [];
  let next = at + 1;
  for (let from = next; ; from = next) {
    while ([',', '&', '+', 'and', 'the'].includes(tokens[from]?.bare ?? '')) from += 1;
    const item = aboutAt(r, from);
    if (!item) break;
    for (const each of item.items) items.push(each);
    next = item.next;
  }
  if (items.length === 0 || !isEndOfPart(r, next)) return undefined;
  return { items: [...new Set(items)], words: stretchOf(r.note, at + 1, next).text, next };
}

function aboutAt(r: VisitReader, at: number): Pick<AboutSaid, 'items' | 'next'> | undefined {
  const { tokens } = r.note;
  const phrase = phraseAt(tokens, at);
  if (phrase?.kind === 'foot') return { items: phrase.value.split(' '), next: phrase.next };
  if (phrase?.kind === 'sign' || phrase?.kind === 'animal-sign')
    return { items: [phrase.value], next: phrase.next };
  if (tokens[at]?.bare === 'lame') return { items: ['lame'], next: at + 1 };
  const isCalled = phrase?.kind === 'called' || phrase?.kind === 'mark';
  const named = nameAt(r, isCalled ? phrase.next : at);
  return named && { items: [named.name], next: named.next };
}

/** Whether a part of a question or an answer ends there: at a colon or a dash, with the sentence, or before another part. */
function isEndOfPart(r: VisitReader, at: number): boolean {
  const token = r.note.tokens[at];
  if (!token || ['stop', 'line', 'quoted', 'mark'].includes(token.kind)) return true;
  return (
    phraseAt(r.note.tokens, at)?.kind === 'why' || phraseAt(r.note.tokens, at, 'answer-part') !== undefined
  );
}

/**
 * `vet answered by "P. Wexmarrow" to 26 May reply "…"`; without a day, the one question in her file still open.
 * `vet closes: work may go on`, `vet closes about LH`: what was asked is over.
 */
export function readVetAnswer(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const { tokens } = r.note;
  let by: string | undefined;
  let to: string | undefined;
  let about: AboutSaid | undefined;
  let closes: boolean | undefined = phrase.value === 'closes' ? true : undefined;
  let treated: boolean | undefined;
  let next = phrase.next;
  if (closes && !isEndOfPart(r, next) && !aboutSaid(r, next)) return undefined;
  for (;;) {
    const from = skip(tokens, next);
    const part = phraseAt(tokens, from, 'answer-part');
    const name = part?.value === 'by' && by === undefined ? nameSaid(tokens, part.next, r.people) : undefined;
    const day = part?.value === 'to' && to === undefined ? pastDay(r, part.next) : undefined;
    const on = about ? undefined : aboutSaid(r, from);
    const isClosing = part?.value === 'closes' || part?.value === 'does not close';
    const word = part?.value === 'treated' || part?.value === 'not-treated' ? part : undefined;
    if (name) by = name.name;
    else if (day) to = day.day ?? r.date;
    else if (on) about = on;
    else if (isClosing && closes === undefined && isEndOfPart(r, part.next)) closes = part.value === 'closes';
    else if (word && treated === undefined) treated = word.value === 'treated';
    else {
      next = part?.value === 'reply' ? part.next : next;
      break;
    }
    next = name?.next ?? day?.next ?? on?.next ?? part!.next;
  }
  const before = r.draft['vet-answer'];
  const said = wordsSaid(r.note, next);
  if (before && closes && !said && !about) {
    before.closes = true;
    r.say(at, next, `the answer of ${before.by} closes what was asked`);
    return next;
  }
  // Where no more is said than that it is over, that is the reply.
  const reply = said ?? (closes ? { words: stretchOf(r.note, at, next).text, next } : undefined);
  to ??= openQuestion(r);
  if (reply && to !== undefined) {
    if (before) r.askTwice(at, reply.next, 'the vet’s answer');
    r.draft['vet-answer'] = {
      to,
      by: by ?? 'the vet',
      reply: reply.words,
      ...(about ? { about: about.items } : {}),
      ...given({ closes, treated }),
    };
    const closing = closes ? ', which closes it' : '';
    const medicine = treated === undefined ? '' : treated ? ', medicine given' : ', no medicine given';
    r.say(
      at,
      reply.next,
      `answer of ${by ?? 'the vet'} to the question of ${to}${aboutInWords(about)}${closing}${medicine}: ${reply.words}`,
    );
    return reply.next;
  }
  r.ask(at, reply?.next ?? next, {
    id: 'vet-answer-part',
    ask: reply
      ? 'which question did the vet answer? Her file has not exactly one that is open'
      : 'what did the vet answer?',
    mend: 'write `vet answered to 26 May:` and the reply',
  });
  return reply?.next ?? next;
}

/** The day of the one question to the vet in her file that has no answer yet. */
function openQuestion(r: VisitReader): string | undefined {
  const visits = r.animal.visits.filter(({ date }) => date <= r.date);
  const answered = new Set(
    visits.filter(({ date }) => date < r.date).flatMap((visit) => visit['vet-answer']?.to ?? []),
  );
  const open = visits.flatMap(({ vet }) => (vet && !answered.has(vet.asked) ? [vet.asked] : []));
  return open.length === 1 ? open[0] : undefined;
}
