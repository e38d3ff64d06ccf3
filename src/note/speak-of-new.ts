import { familyOf } from '../reference/lesions.js';
import { calledIn, nameInFull, placeInWords } from './called-in-note.js';
import { firstMet } from './first-met.js';
import { codeBefore, isDone } from './lesions-that-fit.js';
import { isDoubt } from './note-text.js';
import type { Place } from './place-said.js';
import type { Mention, VisitReader } from './visit-reader.js';

/** By the writer's own word it is new; that one she has is at that very place is then asked about. */
export function speakOfNew(
  r: VisitReader,
  mention: Mention,
  place: Omit<Place, 'next'>,
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
export function speakOfUndeclared(
  r: VisitReader,
  mention: Mention,
  place: Omit<Place, 'next'>,
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
    ask: `her file declares no ${place.mark ? 'mark' : 'lesion'} like this: ${placeInWords(place)}`,
    mend: `${met?.mend ?? 'if it is new, declare it first (`growdown declare`)'}; if it is one she has, name it by its letter`,
    choices: [
      ...near.map((name) => ({ label: `it is ${nameInFull(r, name)}`, text: calledIn(r, name) })),
      ...(met?.choices ?? []),
    ],
  });
}

/** One of hers that may be meant all the same: on that foot, and of a kind that may have got the name said here. */
function mayBe(r: VisitReader, name: string, { feet, codes }: Omit<Place, 'next'>): boolean {
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

function askNotSure(r: VisitReader, mention: Mention, place: Omit<Place, 'next'>): void {
  r.subject = { is: 'asked' };
  mention.used = true;
  r.ask(mention.from, mention.next, {
    id: 'not-sure',
    ask: `is it sure that she has a new lesion here: ${placeInWords(place)}?`,
    mend: 'take the word of doubt out; or put the words after `note:`',
  });
}
