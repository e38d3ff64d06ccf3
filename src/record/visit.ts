import { z } from 'zod';
import { group, type InnerPlace, key, type Key, may, type VisitPlace } from './key.js';
import { lengthMm, longText, shortName, amount, text, timeOfDay, amended } from './measures.js';
import {
  ddStages,
  lesionCodes,
  lesionStates,
  signs,
  tools,
  topFoundWords,
  animalSigns,
  blockMaterials,
  carryingClawWords,
  claws,
  farmTasks,
  feet,
  fixtureEvents,
  painReliefWords,
  photoMoments,
  photoViews,
  productClasses,
  vetTasks,
  visitKinds,
  type EpisodeResult,
} from './words.js';
import { calendarDay } from './calendar-day.js';

const foundSigns = z.array(z.enum(signs));

/**
 * What was found of one lesion or mark at one visit. Lengths in mm.
 *
 * Which keys may stand together depends on the lesion's code; that is checked between
 * declaration and finding, not here.
 */
export const found = group({
  state: may(z.enum(lesionStates), {
    told: 'state',
    sheet: ['lesion 4/1', 'new 5/1'],
    ask: 1,
    of: 'wall, ulcer, double sole, toe necrosis, present',
    noted: 'state',
  }),
  stage: may(z.enum(ddStages), {
    told: 'stage',
    sheet: ['lesion 1/1', 'new 5/2'],
    ask: 2,
    of: 'dermatitis',
    noted: 'stage',
  }),
  top: may(lengthMm, { unit: 'mm', sheet: ['lesion 2/1', 'new 3/1'], ask: 3, of: 'wall', noted: 'length' }),
  'top-found': may(z.enum(topFoundWords), {
    told: 'top-found',
    sheet: ['lesion 3/1', 'new 4/1'],
    ask: 4,
    of: 'wall',
    noted: 'top-found',
  }),
  wall: may(lengthMm, { unit: 'mm', sheet: ['lesion 2/2', 'new 3/2'], ask: 5, of: 'wall', noted: 'length' }),
  'wall-at': may(z.enum(['beside']), { sheet: 'lesion 2/5', noted: 'wall-at of wall' }),
  'wall-lowered': may(z.boolean(), { sheet: 'lines', noted: 'wall-lowered of wall' }),
  'wall-tool': may(z.enum(tools), { told: 'tool', sheet: 'lines', noted: 'wall-tool' }),
  width: may(lengthMm, {
    unit: 'mm',
    sheet: ['lesion 2/4', 'new 3/4'],
    ask: 7,
    of: 'ulcer, double sole',
    noted: 'length',
  }),
  length: may(lengthMm, {
    unit: 'mm',
    sheet: ['lesion 2/3', 'new 3/3'],
    ask: 6,
    of: 'ulcer, double sole',
    noted: 'length',
  }),
  depth: may(lengthMm, { unit: 'mm', sheet: 'lines', noted: 'length' }),
  distance: may(lengthMm, {
    unit: 'mm',
    sheet: ['mark 1/1', 'new-mark 1/4'],
    ask: 8,
    of: 'mark',
    noted: 'mark',
  }),
  tool: may(z.enum(tools), {
    told: 'tool',
    sheet: ['lesion 3/2 ring', 'new 4/2 ring', 'mark 1/2 ring'],
    ask: 9,
    of: 'wall, ulcer, double sole, mark',
    noted: 'tool',
  }),
  signs: may(foundSigns, {
    told: 'sign',
    sheet: ['lesion 6/1 other', 'new 6/1 other'],
    ask: 10,
    of: 'wall, ulcer, double sole, toe necrosis, dermatitis, present',
    noted: 'sign',
  }),
  // On the back, of the signs that were there: seen first, they would lead the eye.
  gone: may(foundSigns, { told: 'sign', sheet: 'each', noted: 'no-more' }),
  code: may(z.enum(lesionCodes), { told: 'lesion', sheet: 'lines', noted: 'code' }),
  infected: may(z.boolean(), { sheet: 'lesion 5/4', noted: 'infected of wall, ulcer' }),
  'ran-up': may(z.boolean(), { sheet: 'lesion 5/2', noted: 'ran-up of wall' }),
  'opened-further': may(z.boolean(), { sheet: 'lesion 5/3', noted: 'opened-further of wall' }),
  joined: may(shortName, { sheet: 'lines', noted: 'joined' }),
  lifted: may(z.boolean(), { sheet: ['lesion 5/5', 'mark 1/3'], noted: 'lifted' }),
  note: may(longText, { sheet: 'lines', noted: 'with-note' }),
} satisfies Record<string, Key<InnerPlace>>);
/** What one visit found of one lesion or mark. */
export type Found = z.infer<typeof found>;

/** What belongs to a foot rather than to a lesion. */
export const footFinding = group({
  lifted: may(z.boolean(), { sheet: 'each', noted: 'lifted' }),
  signs: may(foundSigns, { told: 'sign', sheet: 'urgent 1/1', noted: 'sign' }),
  /** Looked for, and not there any more. */
  gone: may(foundSigns, { told: 'sign', sheet: 'each', noted: 'no-more' }),
  note: may(longText, { sheet: 'lines', noted: 'with-note' }),
} satisfies Record<string, Key<InnerPlace>>);
export type FootFinding = z.infer<typeof footFinding>;

/** The day a thing happened, or `unknown` where it was only found gone. */
const eventDay = z.union([calendarDay, z.literal('unknown')]);

/** On paper what is known to be on her stands before what is found, and what goes on behind it. */
export const blockEvent = group({
  foot: key(z.enum(feet), { told: 'foot', sheet: 'on 1/2 ring', noted: 'foot' }),
  claw: key(z.enum(claws), { told: 'claw', sheet: 'on 1/3 ring', noted: 'claw' }),
  event: key(z.enum(fixtureEvents), {
    told: 'event',
    sheet: ['block 1/1', 'arrival 1/1 other', 'on 1/1'],
    noted: 'event',
  }),
  material: may(z.enum(blockMaterials), { told: 'material', sheet: 'on 1/4 ring', noted: 'material' }),
  on: may(eventDay, { sheet: 'block 1/2 short', noted: 'ago' }),
  'carrying-claw': may(z.enum(carryingClawWords), {
    told: 'carrying-claw',
    sheet: 'block 2/1',
    noted: 'carrying',
  }),
  note: may(longText, { sheet: 'lines', noted: 'with-note' }),
} satisfies Record<string, Key<InnerPlace>>);
export type BlockEvent = z.infer<typeof blockEvent>;

export const wrapEvent = group({
  foot: key(z.enum(feet), { told: 'foot', sheet: 'on 2/2 ring', noted: 'foot' }),
  event: key(z.enum(fixtureEvents), {
    told: 'event',
    sheet: ['wrap 1/1', 'arrival 1/2 other', 'on 2/1'],
    noted: 'event',
  }),
  on: may(eventDay, { sheet: 'wrap 1/2 short', noted: 'ago' }),
  note: may(longText, { sheet: 'lines', noted: 'with-note' }),
} satisfies Record<string, Key<InnerPlace>>);
export type WrapEvent = z.infer<typeof wrapEvent>;

/** A product used. Withdrawal may be given in days, hours or milkings; 0 is a value, absent is unknown. */
export const productUse = group({
  product: key(text, { sheet: 'product 1/1 rest', noted: 'product' }),
  active: may(text, { sheet: 'lines', noted: 'product-part' }),
  class: may(z.enum(productClasses), {
    told: 'product-class',
    sheet: 'product 2/4 ring',
    noted: 'product-class',
  }),
  batch: may(text, { sheet: 'product 1/3 middle', noted: 'product-part' }),
  amount: may(text, { sheet: 'product 1/2 short', noted: 'product-part' }),
  route: may(text, { sheet: 'product 2/1 short', noted: 'product-part' }),
  lesion: may(shortName, { sheet: 'lines', noted: 'product-part' }),
  on: may(calendarDay, { sheet: 'product 2/2 short', noted: 'product-part' }),
  until: may(calendarDay, { ahead: true, sheet: 'product 2/3 short', noted: 'product-part' }),
  'milk-days': may(amount, { unit: 'd', sheet: 'product 3/1 digits', noted: 'product-part' }),
  'milk-hours': may(amount, { unit: 'h', sheet: 'product 3/2 ring', noted: 'product-part' }),
  'milk-milkings': may(amount, { unit: 'milkings', sheet: 'product 3/3 ring', noted: 'product-part' }),
  'milk-days-after-calving': may(amount, { unit: 'd', sheet: 'product 3/4 ring', noted: 'product-part' }),
  'meat-days': may(amount, { unit: 'd', sheet: 'product 3/5 digits', noted: 'product-part' }),
  'given-by': may(text, { sheet: 'product 4/1 rest', noted: 'product-part' }),
  'prescribed-by': may(text, { sheet: 'product 4/2 rest', noted: 'product-part' }),
  cost: may(amount, { sheet: 'lines', noted: 'product-part' }),
  note: may(longText, { sheet: 'lines', noted: 'product-part' }),
} satisfies Record<string, Key<InnerPlace>>);
export type ProductUse = z.infer<typeof productUse>;

export const photo = group({
  // The program names the file when the picture is taken into the farm's folder.
  file: key(text, { form: 'none', sheet: 'none', noted: 'none' }),
  foot: may(z.enum(feet), { told: 'foot', sheet: 'photos 1/3 ring', noted: 'none' }),
  claw: may(z.enum(claws), { told: 'claw', sheet: 'photos 1/4 ring', noted: 'none' }),
  view: may(z.enum(photoViews), { told: 'view', sheet: 'photos 1/1 other', noted: 'none' }),
  when: may(z.enum(photoMoments), { told: 'moment', sheet: 'photos 1/2', noted: 'none' }),
  caption: may(longText, { sheet: 'lines', noted: 'none' }),
} satisfies Record<string, Key<InnerPlace>>);
export type Photo = z.infer<typeof photo>;

/** What a question to the vet or an answer is about: feet, lesions, signs, or `lame` for how she walks. */
const about = z.array(text);
const aboutTold = 'foot sign animal-sign about';

const vetAsked = group({
  asked: key(calendarDay, { spans: ['0 days'], sheet: 'care 2/1', noted: 'call' }),
  why: key(longText, { sheet: 'care 2/3', noted: 'why' }),
  about: may(about, { told: aboutTold, sheet: 'care 2/2 middle', noted: 'sign' }),
} satisfies Record<string, Key<InnerPlace>>);

const vetDoes = group({
  what: key(z.enum(vetTasks), { told: 'task', sheet: 'care 4/3 middle', noted: 'task' }),
  on: key(calendarDay, {
    ahead: true,
    spans: ['0 days', '1 day', '3 days'],
    sheet: 'care 4/4 short',
    noted: 'vet-does',
  }),
} satisfies Record<string, Key<InnerPlace>>);

const vetAnswer = group({
  to: key(calendarDay, { sheet: 'care 3/1 short', noted: 'answered' }),
  by: key(text, { sheet: 'care 3/2 middle', noted: 'vet-noun' }),
  reply: key(longText, { sheet: 'care 3/4', noted: 'answered' }),
  about: may(about, { told: aboutTold, sheet: 'care 4/1 middle', noted: 'sign' }),
  closes: may(z.boolean(), { sheet: 'care 3/3', noted: 'vet-answer' }),
  treated: may(z.boolean(), { sheet: 'care 4/2', noted: 'vet-answer' }),
  does: may(z.array(vetDoes), { sheet: 'own', noted: 'vet-does' }),
} satisfies Record<string, Key<InnerPlace>>);

const askFarm = group({
  what: key(z.enum(farmTasks), { told: 'task', sheet: 'each', noted: 'task' }),
  by: key(calendarDay, {
    ahead: true,
    spans: ['3 days', '1 week', '2 weeks'],
    sheet: 'each',
    noted: 'until',
  }),
} satisfies Record<string, Key<InnerPlace>>);

const farmDid = group({
  what: key(z.enum(farmTasks), { told: 'task', sheet: 'each', noted: 'task' }),
  on: key(calendarDay, { spans: ['0 days', '1 day ago'], sheet: 'each', noted: 'farm-did' }),
} satisfies Record<string, Key<InnerPlace>>);

export const visit = group({
  date: key(calendarDay, {
    form: 'visit 1',
    sheet: 'visit 1/1 short',
    ask: 'none',
    log: 'beside',
    noted: 'relative-day',
  }),
  at: may(timeOfDay, { form: 'visit+ 3', sheet: 'visit 1/2 short', more: 21, log: 'about', noted: 'none' }),
  by: key(text, { form: 'visit+ 2', sheet: 'visit 1/3 rest', more: 23, log: 'beside', noted: 'by' }),
  kind: key(z.enum(visitKinds), {
    told: 'visit-kind',
    form: 'visit 2',
    sheet: 'visit 2/1 ring',
    more: 22,
    log: 'beside',
    noted: 'kind',
  }),
  why: may(longText, { form: 'visit+ 4', sheet: 'visit 2/2 rest', more: 24, log: 'found+', noted: 'why' }),
  gait: may(z.number(), { form: 'walk 1', sheet: 'walk 1/1', ask: 1, log: 'found', noted: 'gait' }),
  'gait-by': may(text, { form: 'visit+ 6', sheet: 'lines', more: 17, log: 'beside', noted: 'scored-by' }),
  'on-block': may(z.boolean(), {
    form: 'walk 2',
    sheet: 'walk 1/2 both',
    more: 18,
    log: 'beside',
    noted: 'on-block',
  }),
  condition: may(z.number(), {
    form: 'visit+ 7',
    sheet: 'next 2/3 short',
    more: 14,
    log: 'found',
    noted: 'condition',
  }),
  weight: may(amount, {
    unit: 'kg',
    form: 'visit+ 8',
    sheet: 'next 2/4 short',
    more: 15,
    log: 'found',
    noted: 'weight',
  }),
  signs: may(z.array(z.enum(animalSigns)), {
    told: 'animal-sign',
    form: 'visit+ 1',
    sheet: 'urgent 1/2 other',
    more: 16,
    log: 'found',
    noted: 'animal-sign',
  }),
  feet: may(z.partialRecord(z.enum(feet), footFinding), {
    form: 'work+ 6',
    sheet: 'own',
    more: 4,
    log: 'found',
    noted: 'foot',
  }),
  found: may(z.record(shortName, found), {
    form: 'found 1',
    sheet: 'own',
    ask: 2,
    more: 3,
    log: 'found+',
    noted: 'lesion',
  }),
  trimmed: may(z.array(z.enum(feet)), {
    told: 'foot',
    form: 'work+ 1',
    sheet: 'each',
    more: 5,
    log: 'done',
    noted: 'trimmed',
  }),
  'cut-back': may(z.array(shortName), {
    form: 'work+ 2',
    sheet: 'lesion 5/1',
    more: 6,
    log: 'done',
    noted: 'cut-back',
  }),
  blocks: may(z.array(blockEvent), {
    form: 'work+ 3',
    room: 2,
    sheet: 'own',
    ask: 3,
    more: 7,
    log: 'done+',
    noted: 'block',
  }),
  wraps: may(z.array(wrapEvent), {
    form: 'work+ 4',
    room: 2,
    sheet: 'own',
    ask: 4,
    more: 8,
    log: 'done+',
    noted: 'wrap',
  }),
  products: may(z.array(productUse), {
    form: 'work+ 5',
    room: 2,
    sheet: 'own',
    more: 9,
    log: 'done+',
    noted: 'product',
  }),
  'pain-relief': may(z.enum(painReliefWords), {
    told: 'pain-relief',
    form: 'care+ 1',
    sheet: 'care 1/1',
    ask: 5,
    more: 1,
    log: 'done',
    noted: 'pain',
  }),
  photos: may(z.array(photo), {
    form: 'photos+ 1',
    room: 3,
    sheet: 'own',
    more: 10,
    log: 'done',
    noted: 'none',
  }),
  vet: may(vetAsked, { form: 'care+ 2', sheet: 'own', ask: 6, more: 2, log: 'done+', noted: 'vet-noun' }),
  'vet-answer': may(vetAnswer, {
    form: 'care+ 3',
    sheet: 'own',
    more: 13,
    log: 'done+',
    noted: 'vet-answer',
  }),
  'ask-farm': may(z.array(askFarm), {
    form: 'care+ 4',
    room: 2,
    sheet: 'own',
    more: 11,
    log: 'done+',
    noted: 'task',
  }),
  'farm-did': may(z.array(farmDid), {
    form: 'care+ 5',
    room: 2,
    sheet: 'own',
    more: 12,
    log: 'done+',
    noted: 'farm-did',
  }),
  'tools-disinfected': may(z.boolean(), {
    form: 'visit+ 5',
    sheet: 'next 2/1',
    more: 19,
    log: 'about',
    noted: 'tools-disinfected of visit',
  }),
  'saw-expected': may(z.boolean(), {
    form: 'visit+ 9',
    sheet: 'after 1/1',
    more: 20,
    log: 'about',
    noted: 'saw-expected of visit',
  }),
  recheck: may(calendarDay, {
    ahead: true,
    form: 'next 1',
    spans: ['3 days', '1 week', '2 weeks', '4 weeks', '6 weeks', '8 weeks'],
    sheet: 'next 1/1',
    ask: 7,
    log: 'done',
    noted: 'recheck',
  }),
  note: may(longText, { form: 'next 2', sheet: 'lines', ask: 8, log: 'done+', noted: 'note' }),
  // A correction of what is on file, made with `growdown correct`: a new visit has none.
  amended: key(amended, { form: 'none', sheet: 'none', ask: 'none', log: 'done+', noted: 'none' }),
} satisfies Record<string, Key<VisitPlace>>);
/** One visit as its case file has it: who came when and why, and what was found and done. */
export type Visit = z.infer<typeof visit>;

/** Healed as written; of digital dermatitis M0. @example isHealed({ stage: 'M0' }) // → true */
export function isHealed({ state, stage }: Pick<Found, 'state' | 'stage'> = {}): boolean {
  return state === 'healed' || stage === 'M0';
}

/** The last word on how a lesion stands; undefined where there is none. */
export function lastFound(visits: readonly Visit[], lesion: string): Found | undefined {
  return visits.map(({ found: all }) => all?.[lesion]).findLast((one) => one?.state ?? one?.stage);
}

/** Results after which no foot of hers is lifted again. */
export const goneResults: ReadonlySet<EpisodeResult> = new Set(['culled', 'died', 'put down']);

/** Results after which she has left the farm. */
export const leftFarm: ReadonlySet<EpisodeResult> = new Set([...goneResults, 'sold', 'moved']);
