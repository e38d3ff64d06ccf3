import { slugInstead } from '../../casefile/folder-entries.js';
import { given } from '../../record/given.js';
import { type NoteOf, writeNote } from '../../note/write/write-note.js';
import { doubtsOfDraft } from '../../record/doubts.js';
import type { Visit } from '../../record/visit.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import type { FormValues } from '../field.js';
import { readForm } from '../read-form.js';
import { type FormFor, visitForm } from '../visit-form.js';

/** What filled-in fields come to: the visit in the words of notes, or what is wrong, by the name of its field. */
export type VisitText =
  | { readonly outcome: 'text'; readonly text: string; readonly day: string }
  | { readonly outcome: 'again'; readonly troubles: ReadonlyMap<string, string> }
  /** What looks like a slip, by the name of its field. */
  | { readonly outcome: 'asked'; readonly doubts: ReadonlyMap<string, string> };

/**
 * What was filled in as a note that `growdown take` reads back to the same visit.
 *
 * Valid:   `isRight`: whoever fills it in has been asked about it
 *
 * Runs in the form's own page and here alike: the fields are those of the served form, the words those of `writeNote`.
 *
 * Checked: tests/form/four-ways.test.ts
 */
export function visitAsText(
  of: Pick<NoteOf, 'farm' | 'slug'>,
  made: FormFor,
  values: FormValues,
  today: string,
  isRight: (doubt: string) => boolean,
): VisitText {
  const { draft, declares, opens, troubles } = readForm(visitForm(made, values), values, today);
  if (troubles.size > 0 || draft.date === undefined) return { outcome: 'again', troubles };
  const { lesions } = declares;
  const animal = { ...made.animal, lesions: { ...made.animal.lesions, ...lesions } };
  const doubts = doubtsOfDraft(animal, draft as Visit, { today }).filter(({ message }) => !isRight(message));
  if (doubts.length > 0)
    return {
      outcome: 'asked',
      doubts: new Map(doubts.map(({ path, message }) => [path.slice(2).join('.'), message])),
    };
  const slug = opens ? (slugInstead(opens.animal) ?? opens.animal) : of.slug;
  const whose = { ...of, slug, animal, ...given({ opens, lesions }) };
  const text = writeNote(whose, draft as VisitDraft);
  return { outcome: 'text', text, day: draft.date };
}
