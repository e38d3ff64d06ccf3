import { z } from 'zod';
import { at, group, type InnerPlace, key, type Key, may, type VisitPlace } from './key.js';
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

const someSigns = z.array(z.enum(signs));
/** Looked for, and not there any more. On the sheet's back, of the signs that were there: seen first, they would lead the eye. */
const gone = may(someSigns, { told: 'sign', sheet: 'each', noted: 'no-more' });
const note = may(longText, { sheet: 'lines', noted: 'with-note' });
/** Families that have a state. */
const staged = 'wall, ulcer, double sole, toe necrosis, present';

/** On the sheet among what is asked of a lesion that is followed, and of a new one. */
function both<const L extends Row, const N extends Row>(lesion: L, fresh: N) {
  return { sheet: [`lesion ${lesion}`, `new ${fresh}`] as const };
}
type Row = `${number}/${number}`;

/**
 * What was found of one lesion or mark at one visit. Lengths in mm.
 *
 * Which keys may appear together depends on the lesion's code; that is checked between
 * declaration and finding, not here.
 */
export const found = group({
  state: may(z.enum(lesionStates), {
    told: 'state',
    ...both('4/1', '5/1'),
    ask: 1,
    of: staged,
    noted: 'state',
  }),
  stage: may(z.enum(ddStages), {
    told: 'stage',
    ...both('1/1', '5/2'),
    ask: 2,
    of: 'dermatitis',
    noted: 'stage',
  }),
  top: may(lengthMm, { unit: 'mm', ...both('2/1', '3/1'), ask: 3, of: 'wall', noted: 'length' }),
  'top-found': may(z.enum(topFoundWords), {
    told: 'top-found',
    ...both('3/1', '4/1'),
    ask: 4,
    of: 'wall',
    noted: 'top-found',
  }),
  wall: may(lengthMm, { unit: 'mm', ...both('2/2', '3/2'), ask: 5, of: 'wall', noted: 'length' }),
  'wall-at': may(z.enum(['beside']), { sheet: 'lesion 2/5', noted: 'wall-at of wall' }),
  'wall-lowered': may(z.boolean(), { sheet: 'lines', noted: 'wall-lowered of wall' }),
  'wall-tool': may(z.enum(tools), { told: 'tool', sheet: 'lines', noted: 'wall-tool' }),
  width: may(lengthMm, {
    unit: 'mm',
    ...both('2/4', '3/4'),
    ask: 7,
    of: 'ulcer, double sole',
    noted: 'length',
  }),
  length: may(lengthMm, {
    unit: 'mm',
    ...both('2/3', '3/3'),
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
  signs: may(someSigns, {
    told: 'sign',
    sheet: ['lesion 6/1 other', 'new 6/1 other'],
    ask: 10,
    of: 'wall, ulcer, double sole, toe necrosis, dermatitis, present',
    noted: 'sign',
  }),
  gone,
  code: may(z.enum(lesionCodes), { told: 'lesion', sheet: 'lines', noted: 'code' }),
  infected: may(z.boolean(), { sheet: 'lesion 5/4', noted: 'infected of wall, ulcer' }),
  'ran-up': may(z.boolean(), { sheet: 'lesion 5/2', noted: 'ran-up of wall' }),
  'opened-further': may(z.boolean(), { sheet: 'lesion 5/3', noted: 'opened-further of wall' }),
  joined: may(shortName, { sheet: 'lines', noted: 'joined' }),
  lifted: may(z.boolean(), { sheet: ['lesion 5/5', 'mark 1/3'], noted: 'lifted' }),
  note,
} satisfies Record<string, Key<InnerPlace>>);
/** What one visit found of one lesion or mark. */
export type Found = z.infer<typeof found>;

/** What belongs to a foot rather than to a lesion. */
export const footFinding = group({
  lifted: may(z.boolean(), { sheet: 'each', noted: 'lifted' }),
  signs: may(someSigns, { told: 'sign', sheet: 'urgent 1/1', noted: 'sign' }),
  gone,
  note,
} satisfies Record<string, Key<InnerPlace>>);
export type FootFinding = z.infer<typeof footFinding>;

/** The day a thing happened, or `unknown` where it was only found gone. */
const eventDay = z.union([calendarDay, z.literal('unknown')]);

/** On paper what is known to be on her comes before what is found, and what goes on behind it. */
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
  note,
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
  note,
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
  date: key(calendarDay, { ...at('visit 1', 'visit 1/1 short', 'beside', 'relative-day'), ask: 'none' }),
  at: may(timeOfDay, { ...at('visit+ 3', 'visit 1/2 short', 'about', 'none'), more: 21 }),
  by: key(text, { ...at('visit+ 2', 'visit 1/3 rest', 'beside', 'by'), more: 23 }),
  kind: key(z.enum(visitKinds), {
    ...at('visit 2', 'visit 2/1 ring', 'beside', 'kind'),
    told: 'visit-kind',
    more: 22,
  }),
  why: may(longText, { ...at('visit+ 4', 'visit 2/2 rest', 'found+', 'why'), more: 24 }),
  gait: may(z.number(), { ...at('walk 1', 'walk 1/1', 'found', 'gait'), ask: 1 }),
  'gait-by': may(text, { ...at('visit+ 6', 'lines', 'beside', 'scored-by'), more: 17 }),
  'on-block': may(z.boolean(), { ...at('walk 2', 'walk 1/2 both', 'beside', 'on-block'), more: 18 }),
  condition: may(z.number(), { ...at('visit+ 7', 'next 2/3 short', 'found', 'condition'), more: 14 }),
  weight: may(amount, { ...at('visit+ 8', 'next 2/4 short', 'found', 'weight'), unit: 'kg', more: 15 }),
  signs: may(z.array(z.enum(animalSigns)), {
    ...at('visit+ 1', 'urgent 1/2 other', 'found', 'animal-sign'),
    told: 'animal-sign',
    more: 16,
  }),
  feet: may(z.partialRecord(z.enum(feet), footFinding), {
    ...at('work+ 6', 'own', 'found', 'foot'),
    more: 4,
  }),
  found: may(z.record(shortName, found), { ...at('found 1', 'own', 'found+', 'lesion'), ask: 2, more: 3 }),
  trimmed: may(z.array(z.enum(feet)), { ...at('work+ 1', 'each', 'done', 'trimmed'), told: 'foot', more: 5 }),
  'cut-back': may(z.array(shortName), { ...at('work+ 2', 'lesion 5/1', 'done', 'cut-back'), more: 6 }),
  blocks: may(z.array(blockEvent), { ...at('work+ 3', 'own', 'done+', 'block'), room: 2, ask: 3, more: 7 }),
  wraps: may(z.array(wrapEvent), { ...at('work+ 4', 'own', 'done+', 'wrap'), room: 2, ask: 4, more: 8 }),
  products: may(z.array(productUse), { ...at('work+ 5', 'own', 'done+', 'product'), room: 2, more: 9 }),
  'pain-relief': may(z.enum(painReliefWords), {
    ...at('care+ 1', 'care 1/1', 'done', 'pain'),
    told: 'pain-relief',
    ask: 5,
    more: 1,
  }),
  photos: may(z.array(photo), { ...at('photos+ 1', 'own', 'done', 'none'), room: 3, more: 10 }),
  vet: may(vetAsked, { ...at('care+ 2', 'own', 'done+', 'vet-noun'), ask: 6, more: 2 }),
  'vet-answer': may(vetAnswer, { ...at('care+ 3', 'own', 'done+', 'vet-answer'), more: 13 }),
  'ask-farm': may(z.array(askFarm), { ...at('care+ 4', 'own', 'done+', 'task'), room: 2, more: 11 }),
  'farm-did': may(z.array(farmDid), { ...at('care+ 5', 'own', 'done+', 'farm-did'), room: 2, more: 12 }),
  'tools-disinfected': may(z.boolean(), {
    ...at('visit+ 5', 'next 2/1', 'about', 'tools-disinfected of visit'),
    more: 19,
  }),
  'saw-expected': may(z.boolean(), {
    ...at('visit+ 9', 'after 1/1', 'about', 'saw-expected of visit'),
    more: 20,
  }),
  recheck: may(calendarDay, {
    ...at('next 1', 'next 1/1', 'done', 'recheck'),
    ahead: true,
    spans: ['3 days', '1 week', '2 weeks', '4 weeks', '6 weeks', '8 weeks'],
    ask: 7,
  }),
  note: may(longText, { ...at('next 2', 'lines', 'done+', 'note'), ask: 8 }),
  // A correction of what is on file, made with `growdown correct`: a new visit has none.
  amended: key(amended, { ...at('none', 'none', 'done+', 'none'), ask: 'none' }),
} satisfies Record<string, Key<VisitPlace>>);
/** One visit as its case file has it: who came when and why, and what was found and done. */
export type Visit = z.infer<typeof visit>;

/** Healed as written; of digital dermatitis M0. @example isHealed({ stage: 'M0' }) // → true */
export function isHealed({ state, stage }: Pick<Found, 'state' | 'stage'> = {}): boolean {
  return state === 'healed' || stage === 'M0';
}

/** The last word on the status of a lesion; undefined where there is none. */
export function lastFound(visits: readonly Visit[], lesion: string): Found | undefined {
  return visits.map(({ found: all }) => all?.[lesion]).findLast((one) => one?.state ?? one?.stage);
}

/** Results after which no foot of hers is lifted again. */
export const goneResults: ReadonlySet<EpisodeResult> = new Set(['culled', 'died', 'put down']);

/** Results after which she has left the farm. */
export const leftFarm: ReadonlySet<EpisodeResult> = new Set([...goneResults, 'sold', 'moved']);
