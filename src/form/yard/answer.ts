import { terminal } from '../../problem/message.js';
import type { IncomingMessage } from 'node:http';
import type { FormPage, HeldView } from '../form-view.js';
import { animalsPage, farmsPage } from '../list-pages.js';
import { keptPage, type KeptHow, troublePage, valuesOfVisit } from '../said-pages.js';
import { visitForm, type FormFor, type VisitForm } from '../visit-form.js';
import { readForm } from '../read-form.js';
import { isDeepStrictEqual } from 'node:util';
import { visitPage } from '../visit-page.js';
import type { FormValues } from '../field.js';
import { given } from '../../record/given.js';
import { knownOnHer } from '../known-of-animal.js';
import { type InboxEntry, pictureIn, readInbox } from '../../keep/inbox/inbox-entry.js';
import { placeOnFile } from '../../keep/inbox/correct-sent.js';
import { takenBefore } from '../../keep/inbox/take-entry.js';
import { type Animal, caseFormat } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { dayInWords } from '../../words/day-and-place.js';
import { wordsOf } from '../../reference/words.js';
import { kindOfVisit } from '../../record/lifting.js';
import { megabytes, type YardPlace, type YardSetting } from './yard-setting.js';
import { readSubmission } from './read-submission.js';
import { type FormAgain, receiveVisit } from './receive-visit.js';
import { findFarm } from '../../keep/kept-file.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { workOutFarm } from '../../schedule/work-out-case.js';

export type YardAnswer =
  { readonly status: number; readonly page: FormPage } | { readonly status: 303; readonly to: string };

/** Answers a request that was let in. */
export async function answer(
  request: IncomingMessage,
  place: YardPlace,
  query: URLSearchParams,
  setting: YardSetting,
): Promise<YardAnswer> {
  if (place.at === 'farms') return { status: 200, page: farms(setting) };
  const farm = yardFarm(setting, place);
  const words = farm
    ? wordsOf(farm.record.farm.language ?? farm.business.language ?? 'en-GB')
    : setting.words;
  const own = { ...setting, words };
  const nothing = { status: 404, page: troublePage(words, words.say('form.trouble.no-such')) };
  if (!farm) return nothing;
  const { today } = setting.keeping();
  if (place.at === 'farm') return { status: 200, page: animalsPage(words, farm, today) };
  const [work] = farm.work;
  if (!work) return nothing;
  const at: Her = { farm, work, isNew: place.at === 'new' };
  if (request.method === 'POST') return await received(request, at, own);
  const kept = query.get('kept');
  if (kept !== null) return keptSaid(kept, query, at, own) ?? nothing;
  const sent = query.get('sent') ?? undefined;
  const entry = sentOf(at, today).find(({ id }) => id === sent);
  if (sent !== undefined && !entry) return nothing;
  return { status: 200, page: entry ? sentForm(entry, at, own) : blankForm(at, own) };
}

/** Whose form it is: an animal with a case, or one whose case is to be opened. */
interface Her {
  readonly farm: YardFarm;
  readonly work: CaseWork;
  readonly isNew: boolean;
}

function farms({ reading, words }: YardSetting): FormPage {
  const { practice, farmsRefused } = reading();
  const list = practice.farms.map(({ slug, farm, cases }) => ({
    slug,
    name: farm.farm,
    animals: cases.length,
  }));
  return farmsPage(words, list, farmsRefused);
}

/** The form as it is first shown: the day, who is there and what kind of visit it is are filled in. */
function blankForm(at: Her, setting: YardSetting): FormPage {
  const { today } = setting.keeping();
  const { trimmer } = at.farm.business;
  const values: FormValues = new Map([
    ['date', [today]],
    ['kind', [kindOfVisit(at.work.record.animal, today)]],
    ...(trimmer === undefined ? [] : [['by', [trimmer]] as const]),
  ]);
  const form = visitForm(formFor(at, today), values);
  return formPage({ form, id: setting.formId(), values, ...nothingWrong, held: new Map() }, at, setting);
}

const nothingWrong = { troubles: new Map<string, string>(), refused: [], mayKeep: 'no' } as const;

/** The form as it was sent today, to be changed and sent again. Pictures that are on file already stay there. */
function sentForm(entry: InboxEntry, at: Her, setting: YardSetting): FormPage {
  const id = entry['instead-of'] ?? entry.id;
  const held = new Map<string, { held: string; bytes: number }[]>();
  const values = new Map(valuesOfVisit(entry.visit, { ...entry.declares, ...entry.opens }));
  const pictures = at.farm.inbox.marks.has(entry.id) ? [] : entry.pictures;
  for (const [index, { held: name, shows }] of pictures.entries()) {
    const bytes = setting.disk.files.look(pictureIn(at.farm.folder, name))?.bytes ?? 0;
    held.set(`photos.${index}`, [{ held: name, bytes }]);
    for (const [key, value] of Object.entries(given(shows))) values.set(`photos.${index}.${key}`, [value]);
  }
  const { today } = setting.keeping();
  const form = visitForm(formFor(at, today, id), values);
  return formPage({ form, id, values: tappedAgain(form, values, today), ...nothingWrong, held }, at, setting);
}

/** With what was said like last time as that one tap, where the tap says the very same. */
function tappedAgain(form: VisitForm, values: FormValues, today: CalendarDay): FormValues {
  const found = form.fields.get('found');
  const tapped = new Map(values);
  for (const { name, ...field } of found?.kind === 'group' ? found.fields : []) {
    const last = Object.entries((field.kind === 'group' && field.last) || {});
    if (last.length === 0 || last.some(([key, value]) => values.get(`${name}.${key}`)?.[0] !== value))
      continue;
    for (const [key] of last) tapped.delete(`${name}.${key}`);
    tapped.set(`${name}.last`, ['yes']);
  }
  const says = (of: FormValues): unknown => readForm(form, of, today).draft;
  return isDeepStrictEqual(says(tapped), says(values)) ? tapped : values;
}

async function received(request: IncomingMessage, at: Her, setting: YardSetting): Promise<YardAnswer> {
  const { words, keeping, tell } = setting;
  const { farm, work, isNew } = at;
  const said = (status: number, key: string): YardAnswer => ({
    status,
    page: troublePage(words, words.say(`form.trouble.${key}`, megabytes)),
  });
  const came = await readSubmission(request);
  if (came.outcome === 'far too large') return said(413, 'too-large');
  if (came.outcome !== 'whole') return said(400, came.outcome === 'no form' ? 'old-form' : 'not-whole');
  const { slug } = farm.record;
  const [form] = came.submission.values.get('form') ?? [];
  const { today } = keeping();
  const made = formFor(at, today, form);
  const waiting = sentOf(at, today).flatMap(({ id, 'instead-of': of, animal, opens }) =>
    opens && (of ?? id) !== form ? [{ slug: animal, animal: opens }] : [],
  );
  const others = [...farm.record.cases, ...waiting];
  const to = { farm: slug, animal: work.record.slug, folder: farm.folder, made, others };
  const done = receiveVisit(to, came.submission, setting);
  if (done.outcome === 'old form') return said(400, 'old-form');
  if (done.outcome === 'again') return { status: statusOf(done), page: formPage(done, at, setting) };
  const how: KeptHow = done.outcome === 'kept' ? 'kept' : done.outcome === 'already kept' ? 'already' : 'instead'; // prettier-ignore
  const { id, animal, visit, pictures } = done.entry;
  const day = String(visit['date']);
  tell(`${terminal(`yard.${done.outcome}`, { farm: slug, animal, day, pictures: pictures.length })}\n`);
  const page = isNew ? '+' : animal;
  return { status: 303, to: `${page}?kept=${id}&how=${how}${done.beside ? '&beside=yes' : ''}` };
}

function statusOf({ troubles, refused }: FormAgain): number {
  return troubles.size > 0 || refused.length > 0 ? 422 : 200;
}

/** A form with what is in it: blank, as it was sent, or come back with what is wrong. */
function formPage(it: Omit<FormAgain, 'outcome'>, { farm, work, isNew }: Her, { words, keeping }: YardSetting): FormPage {
  const { today } = keeping();
  const held = [...it.held].map(
    ([name, list]) =>
      [
        name,
        list.map(({ held: one, bytes }): HeldView => ({
          held: one,
          says: words.say('form.photo.held', { kb: Math.max(1, Math.round(bytes / 1000)) }),
          drop: words.say('form.photo.drop'),
        })),
      ] as const,
  );
  const sent = sentOf({ farm, work, isNew }, today).filter(({ id, 'instead-of': of }) => !isNew && (of ?? id) !== it.id); // prettier-ignore
  return visitPage({
    ...it,
    words,
    farmName: farm.record.farm.farm,
    work,
    isNew,
    sent: sent.map(({ id, visit }) => ({
      to: `?sent=${id}`,
      says: words.say('form.visit.change-sent', { day: dayInWords(words, String(visit['date'])) }),
    })),
    today,
    held: new Map(held),
  });
} // prettier-ignore

/** What was sent of an animal, or of those without a case, and may be changed here: all that waits, and what was taken today; of each form its last word. */
function sentOf({ farm: { inbox }, work, isNew }: Her, today: string): InboxEntry[] {
  const lasts = new Map(inbox.entries.map((entry) => [entry['instead-of'] ?? entry.id, entry]));
  return [...lasts.values()].filter(
    ({ id, on, animal, opens }) =>
      (!inbox.marks.has(id) || (on === today && inbox.marks.get(id)?.became !== 'set aside')) &&
      (isNew ? opens !== undefined && !inbox.marks.has(id) : animal === work.record.slug),
  );
}

function keptSaid(
  id: string,
  query: URLSearchParams,
  { farm, work, isNew }: Her,
  { words }: YardSetting,
): YardAnswer | undefined {
  const entry = farm.inbox.entries.find((one) => one.id === id);
  if (!entry || (isNew ? entry.opens === undefined : entry.animal !== work.record.slug)) return undefined;
  const asked = query.get('how');
  const how: KeptHow = asked === 'already' || asked === 'instead' ? asked : 'kept';
  const farmName = farm.record.farm.farm;
  return {
    status: 200,
    page: keptPage(words, { work, farmName, entry, how, beside: query.has('beside') }),
  };
}

type YardFarm = NonNullable<ReturnType<typeof yardFarm>>;

/** Undefined where there is no such farm, or its files have an error. Only the animal named is worked out, where one is. */
function yardFarm({ keeping, disk, reading }: YardSetting, place: Exclude<YardPlace, { at: 'farms' }>) {
  const now = keeping();
  const { practice, priors } = reading();
  const record = practice.farms.find((farm) => farm.slug === place.farm);
  const found = findFarm(now, place.farm);
  if (!record || found.outcome !== 'found') return undefined;
  const { business } = practice;
  const cases = {
    farm: record.cases,
    animal: record.cases.filter((one) => place.at === 'animal' && one.slug === place.animal),
    new: [{ slug: '', animal: nobody, narrative: '', source: record.source }],
  }[place.at];
  const folder = found.farm.entry.path;
  return {
    record,
    business,
    folder,
    work: workOutFarm({ ...record, cases }, { business, today: now.today, priors }),
    inbox: readInbox(disk.files, folder),
  };
}

const nobody: Animal = { casefile: caseFormat, animal: '', lesions: {}, visits: [] };

/** What an animal's form is made for: her record without what this form said before, should that be on file already. */
function formFor({ farm, work, isNew }: Her, today: CalendarDay, form = ''): FormFor {
  const { animal } = work.record;
  const was = takenBefore(farm.inbox, form);
  const visits = was ? animal.visits.filter((_, at) => at !== placeOnFile(animal.visits, was.visit)) : animal.visits;
  const before = { ...animal, visits };
  const gaitScale = gaitScaleOn(farm.record.farm, today);
  return { animal: before, gaitScale, onHer: knownOnHer(before, today), ...(isNew ? { opens: true } : {}) };
} // prettier-ignore
