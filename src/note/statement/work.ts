import type { Foot, PainRelief } from '../../record/words.js';
import { skip } from '../note-text.js';
import { type Phrase, phraseAt } from '../phrase.js';
import { placeSaid } from '../place-said.js';
import type { VisitReader } from '../visit-reader.js';

/** `trimmed LH RF`, `LH trimmed`, `all four trimmed`; alone it is the foot spoken of. */
export function readTrimmed(r: VisitReader, at: number, phrase: Phrase): number {
  const { tokens } = r.note;
  const { mention } = r;
  const before =
    mention?.place &&
    !mention.used &&
    mention.next === at &&
    mention.place.claw === undefined &&
    !mention.place.codes
      ? mention.place.feet
      : [];
  const after = placeSaid(tokens, skip(tokens, phrase.next));
  const feetOnly = after && after.claw === undefined && !after.codes && !after.site && !after.mark;
  const listed = after && feetOnly && tokens[after.next]?.text !== ':' && !opensFinding(r, after.next);
  const spoken = r.subjectFoot();
  const next = before.length === 0 && listed ? after.next : phrase.next;
  const feet: readonly Foot[] =
    before.length > 0 ? before : listed ? after.feet : spoken !== undefined ? [spoken] : (after?.feet ?? []);
  const from = before.length > 0 && mention ? mention.from : at;
  if (before.length > 0 && listed && sameSentence(r, at, after.next)) {
    r.ask(from, after.next, {
      id: 'trimmed-which',
      ask: 'which feet were trimmed, those before the word or those behind it?',
      mend: 'write `trimmed LH RF.` with a full stop behind the last foot',
      choices: [
        { label: before.join(' '), text: `trimmed ${before.join(' ')}.` },
        {
          label: [...before, ...after.feet].join(' '),
          text: `trimmed ${[...before, ...after.feet].join(' ')}.`,
        },
      ],
    });
    return after.next;
  }
  if (mention && before.length > 0) mention.used = true;
  if (feet.length === 0) {
    r.ask(at, phrase.next, {
      id: 'trimmed-which',
      ask: 'which feet were trimmed?',
      mend: 'name them, as in `trimmed LH RH`',
      replace: [phrase.next, phrase.next],
      choices: [
        { label: 'both hinds', text: ' LH RH' },
        { label: 'all four', text: ' LF RF LH RH' },
      ],
    });
    return next;
  }
  r.draft.trimmed = [...new Set([...(r.draft.trimmed ?? []), ...feet])];
  r.say(from, next, `trimmed ${feet.join(' ')}`);
  return next;
}

function opensFinding(r: VisitReader, at: number): boolean {
  const kind = phraseAt(r.note.tokens, skip(r.note.tokens, at))?.kind ?? '';
  return ['length', 'state', 'stage', 'sign', 'top-found', 'sound', 'lifted', 'trimmed', 'lesion'].includes(
    kind,
  );
}

function sameSentence(r: VisitReader, from: number, to: number): boolean {
  return r.note.tokens.slice(from, to).every(({ text }) => text !== ',' && text !== '.');
}

export function readPainRelief(r: VisitReader, at: number, { value, next }: Phrase): number {
  r.set('pain-relief', value as PainRelief, at, next, `pain relief: ${value}`);
  return next;
}

/** `tools disinfected`, `saw expected`, each with `not`. */
export function readAnsweredWork(r: VisitReader, at: number, { kind, value, next }: Phrase): number {
  const key = kind as 'tools-disinfected' | 'saw-expected';
  r.set(key, value === 'yes', at, next, `${key}: ${value}`);
  return next;
}
