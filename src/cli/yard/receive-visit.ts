import type { Declares } from '../../keep/add-visit.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import { type HeldPicture, keepEntry, type Kept } from '../../keep/inbox/keep-entry.js';
import { takeEntry } from '../../keep/inbox/take-entry.js';
import type { FormValues } from '../../form/field.js';
import type { MayKeep } from '../../form/visit-page.js';
import { readForm } from '../../form/read-form.js';
import { type FormFor, type VisitForm, visitForm } from '../../form/visit-form.js';
import { limits, megabytes } from './limits.js';
import { picturesSent } from './pictures-sent.js';
import type { Submission } from './read-submission.js';
import { sentenceCase } from '../../words/number-in-words.js';
import { troublesAtFields } from './troubles-at-fields.js';
import type { YardSetting } from './yard-setting.js';

/** Where a visit was sent to. */
export interface SentTo {
  readonly farm: string;
  readonly animal: string;
  readonly folder: string;
  readonly made: FormFor;
}

/** The page comes back, with what was typed and what is wrong with it. */
export interface FormAgain {
  readonly outcome: 'again';
  readonly form: VisitForm;
  readonly id: string;
  readonly values: FormValues;
  readonly troubles: ReadonlyMap<string, string>;
  readonly refused: readonly string[];
  readonly mayKeep: MayKeep;
  /** Pictures that lie in the inbox, by the name of their fields, with their size in bytes. */
  readonly held: ReadonlyMap<string, readonly { readonly held: string; readonly bytes: number }[]>;
}

export type ReceivedVisit =
  (Kept & { readonly beside: boolean }) | FormAgain | { readonly outcome: 'old form' };

/**
 * Takes in what a form sent: keeps it in the inbox, synced, or gives the form back with all that was typed.
 *
 * Pictures are laid in the inbox before anything else, so that a form that comes back has them still. A visit the
 * record would refuse is asked about, and kept all the same where that is wanted: what was seen in the yard is not
 * lost over what stands on file.
 */
export function receiveVisit(to: SentTo, submission: Submission, setting: YardSetting): ReceivedVisit {
  const { values } = submission;
  const { words } = setting;
  const [id = ''] = values.get('form') ?? [];
  if (!/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(id)) return { outcome: 'old form' };
  const keeping = setting.keeping();
  const pictures = picturesSent(to.folder, id, submission, setting);
  const form = visitForm(to.made, values);
  const { draft, declares, shows, troubles: answers } = readForm(form, values, keeping.today);
  const troubles = new Map(values.has('more') ? [] : answers);
  for (const name of submission.tooLong)
    troubles.set(name, `over ${limits.answer} letters, expected fewer; the end was cut off`);
  for (const [name, message] of pictures.troubles) troubles.set(name, message);
  for (const [name, said] of shows)
    if (
      !values.has('more') &&
      Object.keys(said).length > 0 &&
      !pictures.held.has(name) &&
      !troubles.has(`${name}.file`)
    )
      troubles.set(`${name}.file`, words.say('form.photo.missing'));
  const again = (refused: readonly string[], mayKeep: MayKeep): FormAgain => ({
    outcome: 'again',
    form,
    id,
    values,
    troubles,
    refused,
    mayKeep,
    held: pictures.held,
  });
  if (submission.overfull) return again([words.say('form.trouble.too-large', megabytes)], 'no');
  if (values.has('more') || troubles.size > 0) return again([], 'no');

  const held = [...pictures.held].flatMap(([name, list]) =>
    list.map((one): HeldPicture => ({ held: one.held, sha256: one.sha256, shows: shows.get(name) ?? {} })),
  );
  const sent = {
    form: id,
    on: keeping.today,
    animal: to.animal,
    visit: draft as VisitDraft,
    declares,
    pictures: held,
  };
  const { messages, asked } = againstRecord(to, sent, setting);
  const [kept] = values.get('keep') ?? [];
  // What is kept as right is what was asked about, not what was typed since.
  const mayBeKept = kept !== undefined && (!asked || messages.every((message) => kept.includes(message)));
  if (messages.length > 0 && !mayBeKept) {
    const at = troublesAtFields(messages, form);
    for (const [name, message] of at) troubles.set(name, message);
    return again(
      messages.filter((message) => troublesAtFields([message], form).length === 0),
      asked ? 'as right' : 'for the desk',
    );
  }
  const entry = keepEntry(setting.disk, to.folder, { ...sent, evenSo: asked });
  return { ...entry, beside: messages.length > 0 && !asked };
}

/** What the record has against the visit as it would be taken; nothing is written. */
function againstRecord(
  { farm, animal }: SentTo,
  sent: {
    readonly form: string;
    readonly on: string;
    readonly visit: VisitDraft;
    readonly declares: Declares;
    readonly pictures: readonly HeldPicture[];
  },
  { keeping, words }: YardSetting,
): { readonly messages: readonly string[]; readonly asked: boolean } {
  const told = (...messages: readonly string[]) => ({ messages, asked: false });
  const said = Object.keys(sent.visit).some((key) => !['date', 'at', 'by', 'kind'].includes(key));
  if (!said && sent.pictures.length === 0) return told(words.say('form.visit.nothing'));
  const worked = takeEntry(keeping(), farm, {
    format: 1,
    id: sent.form,
    on: sent.on,
    animal,
    visit: sent.visit,
    declares: { ...sent.declares },
    pictures: [...sent.pictures],
  });
  if (worked.outcome === 'refused')
    return {
      messages: worked.problems.map(({ message, mend }) =>
        plain(`${message.replace(/\.$/, '')}. ${sentenceCase(mend)}.`),
      ),
      asked: worked.asked === true,
    };
  return worked.outcome === 'cannot' ? told(plain(worked.message)) : told();
}

function plain(message: string): string {
  return message.replaceAll(/`([^`]*)`/g, '“$1”');
}
