import { kindOfVisit } from '../record/lifting.js';
import { visit } from '../record/visit.js';
import { lesionKinds } from '../reference/lesions.js';
import { codeBefore } from './lesions-that-fit.js';
import type { AnimalReading, NoteVisit } from './note-reading.js';
import { attachCarrying } from './statement/carrying-claw.js';
import { nameInFull } from './first-met.js';
import { askIfNothingSaid, stateChoices } from './subject.js';
import type { VisitReader } from './visit-reader.js';

/** What a note left unsaid and the record or the words themselves settle; and what is still to ask. */
export function finishVisit(r: VisitReader, defaultBy: string | undefined): AnimalReading {
  const asked = r.questions.length;
  askIfNothingSaid(r);
  attachCarrying(r, true);
  firstMetAndFound(r);
  stateOfEach(r);
  kindUnsaid(r);
  whoDidIt(r, defaultBy);
  // What is missing at the end may hang on what was asked before: one thing after the other.
  if (asked > 0) r.questions.splice(asked);
  const notes = [
    ...r.notes,
    ...r.pieces.filter(({ as }) => as === undefined).map(({ text }) => notUnderstood(text)),
  ];
  if (notes.length > 0) r.draft.note = notes.join('\n');
  const pieces = r.pieces.toSorted((a, b) => a.from - b.from);
  const questions = r.questions.toSorted((a, b) => a.from - b.from);
  const reading = {
    farm: r.farm.slug,
    animal: r.record.slug,
    called: r.called,
    date: questions.some(({ id }) => id === 'no-day') ? undefined : r.date,
    pieces,
    questions,
  };
  const draft = inOrder({ ...r.draft, date: r.date });
  if (questions.length > 0 || !isWhole(draft)) return reading;
  const declares = declaredBy(r);
  return { ...reading, draft, ...(declares ? { declares } : {}) };
}

/** A lesion is declared for what was found of it; one that is only named beside other work is asked about. */
function firstMetAndFound(r: VisitReader): void {
  for (const name of Object.keys(r.firstMet))
    if (!Object.hasOwn(r.metEarlier, name) && !Object.hasOwn(r.draft.found ?? {}, name))
      r.ask(r.behindNumber, r.behindNumber, {
        id: 'nothing-said',
        ask: `nothing is said of ${nameInFull(r, name)}`,
        mend: 'say how it stands, or take it out',
      });
}

/** Lesions her file does not declare that this visit speaks of. */
function declaredBy({ firstMet, draft }: VisitReader): AnimalReading['declares'] {
  const spoken = new Set([
    ...Object.keys(draft.found ?? {}),
    ...(draft['cut-back'] ?? []),
    ...(draft.products ?? []).map(({ lesion }) => lesion),
  ]);
  const own = Object.entries(firstMet).filter(([name]) => spoken.has(name));
  return own.length === 0 ? undefined : Object.fromEntries(own);
}

/** @example notUnderstood('grumpy') // → '[not understood: grumpy]' */
export function notUnderstood(text: string): string {
  return `[not understood: ${text.replaceAll(/\s+/g, ' ')}]`;
}

/**
 * A finding without a word on its state: a gap or an ulcer that was open last time and is measured today is open.
 * Anything else is asked; covered and healed are never taken for granted.
 */
function stateOfEach(r: VisitReader): void {
  for (const [name, found] of Object.entries(r.draft.found ?? {})) {
    const code = found.code ?? codeBefore(r.animal, name, r.date);
    const foot = r.declared(name)?.foot;
    const down = found.lifted === false || (foot !== undefined && r.draft.feet?.[foot]?.lifted === false);
    const lifts = r.draft.kind !== 'report' && r.draft.kind !== 'missed';
    if (r.stateUnsaid.has(name)) continue;
    if (code === undefined || !lifts || down || (found.state ?? found.stage ?? found.joined) !== undefined)
      continue;
    const before = r.animal.visits
      .filter((one) => one.date < r.date)
      .findLast((one) => one.found?.[name]?.state !== undefined)?.found?.[name]?.state;
    const measured = [found.top, found.length, found.width, found.depth].some((length) => (length ?? 0) > 0);
    const stage = lesionKinds[code].measures.has('stage');
    if (!stage && before === 'open' && measured) {
      found.state = 'open';
      r.say(r.behindNumber, r.behindNumber, `${name}: open, as it was last time and is measured today`);
    } else {
      r.ask(r.behindNumber, r.behindNumber, {
        id: stage ? 'no-stage' : 'no-state',
        ask: `how does it stand: ${nameInFull(r, name)}?`,
        mend: stage ? 'say its stage, as in `M2`' : 'say open, covered or healed behind its name',
        choices: stateChoices(r, name).map(({ label, text }) => ({
          label,
          text: ` lesion ${name}:${text}.`,
        })),
      });
    }
  }
}

/** Whoever measured or worked on a foot lifted it; the rest may be word from the farm, and is asked. */
function kindUnsaid(r: VisitReader): void {
  if (r.draft.kind !== undefined) return;
  const { draft } = r;
  const lifted =
    Object.keys(draft.found ?? {}).length + Object.keys(draft.feet ?? {}).length > 0 ||
    [draft.trimmed, draft['cut-back'], draft.blocks, draft.wraps].some((list) => (list?.length ?? 0) > 0);
  // What is on file of this very day may be this note, taken before.
  const visits = r.animal.visits.filter(({ date }) => date < r.date);
  const kind = kindOfVisit({ ...r.animal, visits }, r.date);
  if (lifted) {
    draft.kind = kind;
    const why =
      kind === 'recheck' ? 'she was lifted before' : 'no foot was lifted before in this run of trouble';
    r.say(r.behindNumber, r.behindNumber, `kind ${kind}: ${why}`);
  } else {
    r.ask(r.behindNumber, r.behindNumber, {
      id: 'no-kind',
      ask: 'was a foot lifted, or is this word from the farm or the vet?',
      mend: 'write `recheck`, `report` or `missed` behind her number',
      choices: ['recheck', 'report', 'missed'].map((word) => ({ label: word, text: ` ${word}.` })),
    });
  }
}

/** Word from the farm is not the trimmer's own: there nobody is taken for granted. */
function whoDidIt(r: VisitReader, defaultBy: string | undefined): void {
  if (r.draft.by !== undefined) return;
  const by = r.draft.kind === 'report' ? undefined : defaultBy;
  if (by !== undefined) {
    r.draft.by = by;
    r.say(r.behindNumber, r.behindNumber, `by ${by}`);
    return;
  }
  r.ask(r.behindNumber, r.behindNumber, {
    id: 'no-name',
    ask: r.draft.kind === 'report' ? 'who gave word?' : 'who did the work?',
    mend: 'write `by` and a name behind her number',
    choices: r.people.map((name) => ({ label: name, text: ` by "${name}".` })),
  });
}

/** Keys in the order of the case format. */
function inOrder(draft: Partial<NoteVisit>): Partial<NoteVisit> {
  const keys = Object.keys(visit.shape) as (keyof NoteVisit)[];
  return Object.fromEntries(keys.filter((key) => draft[key] !== undefined).map((key) => [key, draft[key]]));
}

function isWhole(draft: Partial<NoteVisit>): draft is NoteVisit {
  return draft.date !== undefined && draft.by !== undefined && draft.kind !== undefined;
}
