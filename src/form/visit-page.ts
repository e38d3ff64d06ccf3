import { type Showing, type FormValues, labelWithPlace } from './field.js';
import type { HeldView, VisitPage } from './form-view.js';
import type { VisitForm } from './visit-form.js';
import type { CaseWork } from '../schedule/case-work.js';
import { type Words, told } from '../reference/words.js';
import { dueNow, identityOf, lastVisit } from './known-of-animal.js';
import { stopInWords } from '../words/compose-due.js';
import { visitParts } from './visit-parts.js';

/** Whether a visit that came back may be kept as it is: to be put right at the desk, or because it is right. */
export type MayKeep = 'no' | 'for the desk' | 'as right';

interface VisitPageFor {
  readonly words: Words;
  readonly farmName: string;
  readonly work: CaseWork;
  /** Her case is to be opened. */
  readonly isNew: boolean;
  readonly sent: VisitPage['sent'];
  readonly form: VisitForm;
  readonly id: string;
  readonly today: string;
  readonly values: FormValues;
  readonly troubles: ReadonlyMap<string, string>;
  /** What the record has against the visit, of no one field. */
  readonly refused: readonly string[];
  readonly mayKeep: MayKeep;
  readonly held: ReadonlyMap<string, readonly HeldView[]>;
}

/** The form of one animal's visit: who she is, what was last, what is due, then the parts of the form in their order. */
export function visitPage(of: VisitPageFor): VisitPage {
  const { words, work, form, values, troubles } = of;
  const farmName = told(of.farmName);
  const { animal } = work.record;
  const stop = stopInWords(words, [work]);
  const showing: Showing = { words, animal, values, troubles, held: of.held };
  return {
    page: 'visit',
    language: words.language,
    title: words.say(of.isNew ? 'form.title.new' : 'form.title.visit', {
      animal: animal.animal,
      farm: farmName,
    }),
    heading: words.say(of.isNew ? 'form.visit.new' : 'form.visit.heading', { animal: animal.animal }),
    back: words.say('form.visit.back-farm', { farm: farmName }),
    backTo: './',
    identity: [...(stop ? [`${stop.title}. ${stop.text}`] : []), ...identityOf(words, work)],
    sent: of.sent,
    last: of.isNew ? '' : lastVisit(words, work),
    due: dueNow(words, work, of.today),
    how: [words.say('form.visit.how')],
    problems: problemsOf(of),
    keep:
      of.mayKeep === 'no'
        ? ''
        : {
            says: words.say(keepAs[of.mayKeep]),
            value: of.mayKeep === 'as right' ? [...of.refused, ...troubles.values()].join(' ') : 'as it is',
          },
    form: of.id,
    ...visitParts(form, showing),
    send: words.say('form.visit.send'),
    moreRoom: words.say('form.visit.more-room'),
    moreRoomSays: words.say('form.visit.more-room-says'),
  };
}

const keepAs = {
  'for the desk': 'form.visit.keep-anyway',
  'as right': 'form.visit.keep-as-right',
} as const;
const comesBack = {
  no: 'form.visit.mend',
  'for the desk': 'form.visit.refused',
  'as right': 'form.visit.asked',
} as const;

function problemsOf({ words, troubles, refused, mayKeep }: VisitPageFor): VisitPage['problems'] {
  if (troubles.size === 0 && refused.length === 0) return '';
  const at = [...troubles].map(([field, message]) => ({
    field,
    text: words.say('form.trouble.is', {
      label: field.startsWith('photos.') ? words.say('key.photos.form') : labelWithPlace(words, field),
      message,
    }),
  }));
  return {
    says: words.say(comesBack[mayKeep]),
    list: [...refused.map((text) => ({ field: '', text })), ...at],
  };
}
