import { pastDay } from '../day-of.js';
import { nameSaid } from '../name-said.js';
import { skip, wordsSaid } from '../note-text.js';
import { type Phrase, phraseAt } from '../phrase.js';
import { vetDay } from './request.js';
import type { VisitReader } from '../visit-reader.js';

/** `vet asked: heat above the foot`, `rang the vet 26 May about the gap creeping up`. */
export function readVet(r: VisitReader, at: number, phrase: Phrase): number {
  const { tokens } = r.note;
  const { day, next } = vetDay(r, phrase.next);
  const why = wordsSaid(
    r.note,
    skip(tokens, next, 'about', 'why', 'because', 're', 'regarding', 'for', 'with', 'to', 'reason'),
  );
  if (why) {
    if (r.draft.vet) r.askTwice(at, why.next, 'the vet');
    r.draft.vet = { asked: day, why: why.words };
    r.say(at, why.next, `vet asked on ${day}: ${why.words}`);
    return why.next;
  }
  r.ask(at, next, {
    id: 'vet-why',
    ask: 'what was the vet asked about?',
    mend: 'write it behind, as in `vet asked: heat above the foot`',
  });
  return next;
}

/** `vet answered by "P. Wexmarrow" to 26 May reply "…"`; without a day, the one question in her file still open. */
export function readVetAnswer(r: VisitReader, at: number, phrase: Phrase): number {
  const { tokens } = r.note;
  let by: string | undefined;
  let to: string | undefined;
  let treated: boolean | undefined;
  let next = phrase.next;
  for (;;) {
    const part = phraseAt(tokens, skip(tokens, next), 'answer-part');
    const name = part?.value === 'by' && by === undefined ? nameSaid(tokens, part.next, r.people) : undefined;
    const day = part?.value === 'to' && to === undefined ? pastDay(r, part.next) : undefined;
    const word = part?.value === 'treated' || part?.value === 'not-treated' ? part : undefined;
    if (name) by = name.name;
    else if (day) to = day.day ?? r.date;
    else if (word && treated === undefined) treated = word.value === 'treated';
    else {
      next = part?.value === 'reply' ? part.next : next;
      break;
    }
    next = name?.next ?? day?.next ?? word?.next ?? next;
  }
  const reply = wordsSaid(r.note, next);
  to ??= openQuestion(r);
  if (reply && to !== undefined) {
    if (r.draft['vet-answer']) r.askTwice(at, reply.next, 'the vet’s answer');
    r.draft['vet-answer'] = {
      to,
      by: by ?? 'the vet',
      reply: reply.words,
      ...(treated === undefined ? {} : { treated }),
    };
    const medicine = treated === undefined ? '' : treated ? ', medicine given' : ', no medicine given';
    r.say(at, reply.next, `answer of ${by ?? 'the vet'} to the question of ${to}${medicine}: ${reply.words}`);
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
