import { inRow, terminal } from '../../problem/message.js';
import type { Problem, RecordPath } from '../../problem/problem.js';
import { placeByDate } from '../../keep/add-visit.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import {
  type HeldPicture,
  keepEntry,
  type Kept,
  holdPicture,
  type Sent,
  entryOf,
  takeEntry,
} from '../../keep/inbox/take-entry.js';
import type { AnswerField, Field, FormValues } from '../field.js';
import type { MayKeep } from '../visit-page.js';
import { readForm } from '../read-form.js';
import { type FormFor, type VisitForm, visitForm } from '../visit-form.js';
import { limits, megabytes, type YardSetting } from './yard-setting.js';
import type { Submission } from './read-submission.js';
import { sentenceCase } from '../../words/day-and-place.js';
import { kindOf } from '../../keep/add-picture.js';
import { given } from '../../record/given.js';
import { animalMeant, type CalledAnimal } from '../../casefile/animal-meant.js';
import { slugInstead } from '../../casefile/folder-entries.js';
import { told } from '../../reference/words.js';
import { sha256Of } from '../../ledger/canonical.js';
import { heldPicture, pictureIn, readInbox } from '../../keep/inbox/inbox-entry.js';
import { bytesOf } from '../../keep/kept-file.js';

/** Where a visit was sent to. */
export interface SentTo {
  readonly farm: string;
  readonly animal: string;
  readonly folder: string;
  readonly made: FormFor;
  /** The farm's cases, and those that wait to be opened. */
  readonly others: readonly CalledAnimal[];
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
 * lost over what is on file.
 */
export function receiveVisit(to: SentTo, submission: Submission, setting: YardSetting): ReceivedVisit {
  const { values } = submission;
  const { words } = setting;
  const [id = ''] = values.get('form') ?? [];
  if (!/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(id)) return { outcome: 'old form' };
  const keeping = setting.keeping();
  const pictures = picturesSent(to.folder, id, submission, setting);
  const form = visitForm(to.made, values);
  const { draft, declares, opens, shows, troubles: answers } = readForm(form, values, keeping.today);
  const troubles = new Map(values.has('more') ? [] : answers);
  const number = opens?.animal ?? '';
  if (number !== '' && animalMeant(to.others, number).meant.length > 0)
    troubles.set('animal', words.say('form.trouble.there', { animal: told(number) }));
  for (const name of submission.tooLong)
    troubles.set(name, words.say('form.trouble.too-long', { most: limits.answer }));
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
    animal: opens ? (slugInstead(number) ?? number) : to.animal,
    visit: draft as VisitDraft,
    ...given({ opens }),
    declares,
    pictures: held,
  };
  const { against, asked } = againstRecord(to, sent, setting, form);
  const [kept] = values.get('keep') ?? [];
  // What is kept as right is what was asked about, not what was typed since.
  const mayBeKept = kept !== undefined && (!asked || against.every(({ message }) => kept.includes(message)));
  if (against.length > 0 && !mayBeKept) {
    for (const { field, message } of against)
      if (field !== undefined) troubles.set(field, [troubles.get(field) ?? [], message].flat().join(' '));
    const nowhere = against.flatMap(({ field, message }) => (field === undefined ? message : []));
    return again(nowhere, asked ? 'as right' : 'for the desk');
  }
  const entry = keepEntry(setting.disk, to.folder, { ...sent, evenSo: asked });
  return { ...entry, beside: against.length > 0 && !asked };
}

interface Against {
  readonly message: string;
  readonly field?: string;
}

/** What the record has against the visit as it would be taken; nothing is written. */
function againstRecord(
  { farm, folder, made }: SentTo,
  sent: Sent,
  { keeping, words, disk }: YardSetting,
  form: VisitForm,
): { readonly against: readonly Against[]; readonly asked: boolean } {
  const all = (...messages: readonly string[]) => ({
    against: messages.map((message) => ({ message })),
    asked: false,
  });
  const said = Object.keys(sent.visit).some((key) => !['date', 'at', 'by', 'kind'].includes(key));
  if (!said && sent.pictures.length === 0) return all(words.say('form.visit.nothing'));
  const worked = takeEntry(keeping(), farm, entryOf(readInbox(disk.files, folder), sent));
  if (worked.outcome === 'cannot') return all(plain(worked.message));
  if (worked.outcome !== 'refused') return all();
  const visit = placeByDate(made.animal.visits, sent.visit);
  return {
    against: worked.problems.map((problem) => againstField(problem, fieldAbout(problem.path, visit, form))),
    asked: worked.asked === true,
  };
}

/** A state or a stage that is missing is where it belongs, without the place that the field itself tells. */
function againstField({ id, message, mend }: Problem, field: AnswerField | undefined): Against {
  const fix = sentenceCase(mend);
  const said =
    field && id === 'record/state-missing'
      ? terminal('form.missing', { key: field.key, choices: inRow('or', field.choices), fix })
      : `${message.replace(/\.$/, '')}. ${fix}.`;
  return { message: plain(said), ...given({ field: field?.name }) };
}

function plain(message: string): string {
  return message.replaceAll(/`([^`]*)`/g, '“$1”');
}

/** The field that a place in the record is filled in by; `visit` is where in her visits this one would be. */
function fieldAbout(path: RecordPath = [], visit: number, form: VisitForm): AnswerField | undefined {
  const inForm = path[0] !== 'visits' ? path : path[1] === visit ? path.slice(2) : [];
  const name = inForm.join('.');
  return answersIn([...form.identity, ...form.fields.values(), ...form.declared]).find(
    (field) => name === field.name || name.startsWith(`${field.name}.`),
  );
}

function answersIn(fields: readonly Field[]): AnswerField[] {
  return fields.flatMap((field) =>
    field.kind === 'answer' ? field : answersIn(field.kind === 'group' ? field.fields : field.entries),
  );
}

interface PictureHeld {
  readonly held: string;
  readonly sha256: string;
  readonly bytes: number;
}

/** Lays the pictures a form sent in the inbox of its farm, beside those it sent before and has not dropped. */
function picturesSent(
  folder: string,
  form: string,
  { values, pictures, tooLarge }: Submission,
  { disk, keeping, words }: YardSetting,
) {
  const held = new Map<string, PictureHeld[]>();
  const troubles = new Map<string, string>();
  const dropped = values.get('drop') ?? [];
  const add = (name: string, one: PictureHeld): void => {
    const before = held.get(name) ?? [];
    if (!before.some((other) => other.held === one.held)) held.set(name, [...before, one]);
  };
  for (const [field, names] of values) {
    const [, name = ''] = /^(photos\.\d+)\.held$/.exec(field) ?? [];
    for (const one of name === '' ? [] : names) {
      if (!heldPicture.safeParse(one).success || !one.startsWith(form) || dropped.includes(one)) continue;
      const bytes = bytesOf(disk.files, pictureIn(folder, one));
      if (bytes) add(name, { held: one, sha256: sha256Of(bytes), bytes: bytes.length });
    }
  }
  for (const { name: field, bytes } of pictures) {
    const [, name = ''] = /^(photos\.\d{1,2})\.file$/.exec(field) ?? [];
    if (name === '') continue;
    const kind = kindOf(keeping(), folder, bytes);
    if (kind === 'jpeg' || kind === 'png' || kind === 'webp')
      add(name, { ...holdPicture(disk, folder, form, bytes), bytes: bytes.length });
    else troubles.set(field, words.say(kind === 'heic' ? 'form.trouble.heic' : 'form.trouble.not-a-picture'));
  }
  for (const field of tooLarge) troubles.set(field, words.say('form.trouble.picture-large', megabytes));
  return { held, troubles };
}
