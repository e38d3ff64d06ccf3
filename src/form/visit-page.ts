import { findingsInWords } from '../book/finding-in-words.js';
import { daysBetween } from '../record/calendar-day.js';
import type { CaseWork } from '../schedule/case-work.js';
import { dueInWords } from '../words/compose-due.js';
import { dayInWords } from '../words/day-in-words.js';
import { nextReadingSentence } from '../words/compose-regrowth.js';
import { sentenceCase } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { FormValues } from './field.js';
import { type Showing, fieldViews, isBegun } from './field-view.js';
import { labelOf } from './field-words.js';
import type { FieldView, HeldView, PartView, VisitPage } from './form-view.js';
import { formLayout } from './form-layout.js';
import { foundViews } from './found-view.js';
import type { VisitForm } from './visit-form.js';

/** All that the page of a visit is made of. */
export interface VisitPageFor {
  readonly words: Words;
  readonly farmName: string;
  readonly work: CaseWork;
  /** Whether a visit to her waits in the inbox. */
  readonly waiting: boolean;
  readonly form: VisitForm;
  /** The random id of this form. */
  readonly id: string;
  readonly today: string;
  readonly values: FormValues;
  readonly troubles: ReadonlyMap<string, string>;
  /** What the record has against the visit, of no one field. */
  readonly refused: readonly string[];
  /** Whether only the record refuses it, so that it may be kept as it is. */
  readonly mayKeep: boolean;
  readonly held: ReadonlyMap<string, readonly HeldView[]>;
}

/** The form of one animal's visit: who she is, what was last, what is due, then the parts of the form in their order. */
export function visitPage(of: VisitPageFor): VisitPage {
  const { words, work, form, farmName, values, troubles } = of;
  const { animal } = work.record;
  const showing: Showing = { words, animal, values, troubles, held: of.held };
  return {
    page: 'visit',
    language: words.language,
    title: words.say('form.title.visit', { animal: animal.animal, farm: farmName }),
    heading: words.say('form.visit.heading', { animal: animal.animal }),
    back: words.say('form.visit.back-farm', { farm: farmName }),
    identity: [
      ...(animal.tag === undefined ? [] : [animal.tag]),
      ...(animal.handling === undefined
        ? []
        : [words.say('form.animals.handling', { handling: animal.handling })]),
    ],
    waiting: of.waiting ? words.say('form.visit.waiting') : '',
    last: lastVisit(words, work),
    due: dueNow(words, work),
    how: words.say('form.visit.how'),
    problems: problemsOf(of),
    keepAnyway: of.mayKeep ? words.say('form.visit.keep-anyway') : '',
    form: of.id,
    parts: formLayout.parts.map((part) => partView(part, form, showing, of)),
    send: words.say('form.visit.send'),
    moreRoom: words.say('form.visit.more-room'),
    moreRoomSays: words.say('form.visit.more-room-says'),
  };
}

function partView(
  { name, keys, folded }: (typeof formLayout.parts)[number],
  form: VisitForm,
  showing: Showing,
  { words, work, today }: VisitPageFor,
): PartView {
  const expectedOf = (lesion: string): string | undefined => {
    const line = work.growth.lesions.find((one) => one.lesion === lesion);
    return (line && nextReadingSentence(words, line, today)) || undefined;
  };
  const views = (key: string): FieldView[] => {
    const field = form.fields.get(key);
    if (!field) return [];
    if (key === 'found') return foundViews(form, showing, expectedOf);
    if (key === 'feet' && field.kind === 'group')
      return field.fields.flatMap((foot) => fieldViews(foot, showing));
    return fieldViews(field, showing).map((view) => ({
      ...view,
      folded: view.show === 'group' ? formLayout.room[key] !== undefined : view.folded,
    }));
  };
  const begun = folded.some((key) => {
    const field = form.fields.get(key);
    return field !== undefined && isBegun(field, showing);
  });
  return {
    heading: words.say(`form.part.${name}`),
    fields: keys.flatMap(views),
    folded: folded.flatMap(views),
    foldLabel: folded.length === 0 ? '' : words.say(`form.fold.${name}`),
    foldOpen: begun,
  };
}

/** The last visit, and where nothing was looked at then, what was found the last time that something was. */
function lastVisit(words: Words, { record: { animal } }: CaseWork): VisitPage['last'] {
  const at = animal.visits.length - 1;
  const last = animal.visits[at];
  if (!last) return { heading: words.say('form.visit.no-visit'), lines: [] };
  const looked = animal.visits.findLastIndex(({ found = {} }) => Object.keys(found).length > 0);
  const seen = animal.visits[looked];
  return {
    heading: words.say('form.visit.last', { day: dayInWords(words, last.date), by: last.by }),
    lines: [
      ...(last.gait === undefined ? [] : [sentenceCase(words.say('form.visit.gait', { gait: last.gait }))]),
      ...(seen && looked < at
        ? [words.say('form.visit.found-on', { day: dayInWords(words, seen.date) })]
        : []),
      ...(seen ? findingsInWords(words, animal, looked) : []).map(({ label, value }) => `${label}: ${value}`),
    ],
  };
}

function dueNow(words: Words, { record: { animal }, due }: CaseWork): VisitPage['due'] {
  const open = due.filter(({ standing }) => standing !== 'done').toSorted((a, b) => daysBetween(b.by, a.by));
  return {
    heading: words.say('form.visit.due'),
    lines:
      open.length === 0
        ? [words.say('form.visit.nothing-due')]
        : open.map((item) =>
            words.say('form.visit.due-line', {
              day: dayInWords(words, item.by),
              what: dueInWords(words, animal, item).what,
            }),
          ),
  };
}

function problemsOf({ words, troubles, refused, mayKeep }: VisitPageFor): VisitPage['problems'] {
  if (troubles.size === 0 && refused.length === 0) return '';
  const at = [...troubles].map(([field, message]) => ({
    field,
    text: words.say('form.trouble.is', {
      label: field.startsWith('photos.') ? words.say('form.key.photos') : labelOf(words, field),
      message,
    }),
  }));
  return {
    says: words.say(mayKeep ? 'form.visit.refused' : 'form.visit.mend'),
    list: [...refused.map((text) => ({ field: '', text })), ...at],
  };
}
