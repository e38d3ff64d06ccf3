import { terminal } from '../../problem/message.js';
import type { IncomingMessage } from 'node:http';
import type { FormPage, HeldView } from '../form-view.js';
import { animalsPage, farmsPage } from '../list-pages.js';
import { keptPage, type KeptHow, troublePage } from '../said-pages.js';
import { visitForm, type FormFor } from '../visit-form.js';
import { visitPage } from '../visit-page.js';
import type { FormValues } from '../field.js';
import { onHer } from '../known-of-animal.js';
import { readInbox } from '../../keep/inbox/inbox-entry.js';
import { wordsOf } from '../../reference/words.js';
import { kindOfVisit } from '../../record/lifting.js';
import { megabytes, type YardPlace, type YardSetting } from './yard-setting.js';
import { readSubmission } from './read-submission.js';
import { type FormAgain, receiveVisit } from './receive-visit.js';
import { findFarm } from '../../keep/kept-file.js';
import type { Keeping } from '../../keep/change.js';
import type { Business } from '../../record/business.js';
import type { FarmRecord } from '../../record/practice.js';
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
  const farm = yardFarm(setting, place.farm, place.at === 'animal' ? place.animal : undefined);
  const work = farm?.work.find(({ record }) => place.at === 'animal' && record.slug === place.animal);
  const words = farm
    ? wordsOf(farm.record.farm.language ?? farm.business.language ?? 'en-GB')
    : setting.words;
  const own = { ...setting, words };
  const nothing = { status: 404, page: troublePage(words, words.say('form.trouble.no-such')) };
  if (!farm) return nothing;
  if (place.at === 'farm') return { status: 200, page: animalsPage(words, farm, setting.keeping().today) };
  if (!work) return nothing;
  if (request.method === 'POST') return await received(request, farm, place.animal, own);
  const kept = query.get('kept');
  if (kept !== null) return keptSaid(kept, query, farm, own) ?? nothing;
  return { status: 200, page: blankForm(farm, own) };
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
function blankForm(farm: YardFarm, { keeping, words, formId }: YardSetting): FormPage {
  const now = keeping();
  const [work] = farm.work;
  if (!work) throw new RangeError('no animal to draw a form for');
  const { trimmer } = farm.business;
  const values: FormValues = new Map([
    ['date', [now.today]],
    ['kind', [kindOfVisit(work.record.animal, now.today)]],
    ...(trimmer === undefined ? [] : [['by', [trimmer]] as const]),
  ]);
  return visitPage({
    words,
    farmName: farm.record.farm.farm,
    work,
    waiting: farm.waiting.includes(work.record.slug),
    form: visitForm(formFor(farm, work, now), values),
    id: formId(),
    today: now.today,
    values,
    troubles: new Map(),
    refused: [],
    mayKeep: 'no',
    held: new Map(),
  });
}

async function received(
  request: IncomingMessage,
  farm: YardFarm,
  animal: string,
  setting: YardSetting,
): Promise<YardAnswer> {
  const { words, keeping, tell } = setting;
  const said = (status: number, key: string): YardAnswer => ({
    status,
    page: troublePage(words, words.say(`form.trouble.${key}`, megabytes)),
  });
  const came = await readSubmission(request);
  if (came.outcome === 'far too large') return said(413, 'too-large');
  if (came.outcome !== 'whole') return said(400, came.outcome === 'no form' ? 'old-form' : 'not-whole');
  const [work] = farm.work;
  if (!work) return said(404, 'no-such');
  const made = formFor(farm, work, keeping());
  const to = { farm: farm.record.slug, animal, folder: farm.folder, made };
  const done = receiveVisit(to, came.submission, setting);
  if (done.outcome === 'old form') return said(400, 'old-form');
  if (done.outcome === 'again') return { status: statusOf(done), page: formAgain(done, farm, setting) };
  const how: KeptHow = done.outcome === 'kept' ? 'kept' : done.outcome === 'already kept' ? 'already' : 'instead'; // prettier-ignore
  const { id, visit, pictures } = done.entry;
  const { farm: slug } = to;
  const day = String(visit['date']);
  tell(`${terminal(`yard.${done.outcome}`, { farm: slug, animal, day, pictures: pictures.length })}\n`);
  return { status: 303, to: `${animal}?kept=${id}&how=${how}${done.beside ? '&beside=yes' : ''}` };
}

function statusOf({ troubles, refused }: FormAgain): number {
  return troubles.size > 0 || refused.length > 0 ? 422 : 200;
}

function formAgain(again: FormAgain, farm: YardFarm, { words, keeping }: YardSetting): FormPage {
  const [work] = farm.work;
  if (!work) throw new RangeError('no animal to draw a form for');
  const held = [...again.held].map(
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
  return visitPage({
    words,
    farmName: farm.record.farm.farm,
    work,
    waiting: false,
    form: again.form,
    id: again.id,
    today: keeping().today,
    values: again.values,
    troubles: again.troubles,
    refused: again.refused,
    mayKeep: again.mayKeep,
    held: new Map(held),
  });
}

function keptSaid(
  id: string,
  query: URLSearchParams,
  farm: YardFarm,
  { words, disk }: YardSetting,
): YardAnswer | undefined {
  const entry = readInbox(disk.files, farm.folder).entries.find((one) => one.id === id);
  const [work] = farm.work;
  if (!entry || !work || entry.animal !== work.record.slug) return undefined;
  const given = query.get('how');
  const how: KeptHow = given === 'already' || given === 'instead' ? given : 'kept';
  const farmName = farm.record.farm.farm;
  return {
    status: 200,
    page: keptPage(words, { work, farmName, entry, how, beside: query.has('beside') }),
  };
}

/** A farm as it is now: its cases worked out, and of whom a visit waits in the inbox. */
interface YardFarm {
  readonly record: FarmRecord;
  readonly business: Business;
  readonly folder: string;
  readonly work: readonly CaseWork[];
  readonly waiting: readonly string[];
}

/** Undefined where there is no such farm, or its files have an error. Only the animal named is worked out, where one is. */
function yardFarm(
  { keeping, disk, reading }: YardSetting,
  slug: string,
  animal?: string,
): YardFarm | undefined {
  const now = keeping();
  const { practice, priors } = reading();
  const record = practice.farms.find((farm) => farm.slug === slug);
  const found = findFarm(now, slug);
  if (!record || found.outcome !== 'found') return undefined;
  const { business } = practice;
  const cases = record.cases.filter((one) => animal === undefined || one.slug === animal);
  const folder = found.farm.entry.path;
  return {
    record,
    business,
    folder,
    work: workOutFarm({ ...record, cases }, { business, today: now.today, priors }),
    waiting: [...new Set(readInbox(disk.files, folder).open.map((entry) => entry.animal))],
  };
}

/** What an animal's form is made for. */
function formFor({ record }: YardFarm, { record: { animal } }: CaseWork, { today }: Keeping): FormFor {
  return { animal, gaitScale: gaitScaleOn(record.farm, today), onHer: onHer(animal, today) };
}
