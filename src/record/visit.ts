import { z } from 'zod';
import { group, type InnerPlace, key, type Key, type VisitPlace } from './key.js';
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

const yesNo = z.boolean().optional();
const foundSigns = z.array(z.enum(signs)).optional();

/**
 * What was found of one lesion or mark at one visit. Lengths in mm.
 *
 * Which keys may stand together depends on the lesion's code; that is checked between
 * declaration and finding, not here.
 */
export const found = group({
  state: key(z.enum(lesionStates).optional(), {
    told: ['state'],
    sheet: ['lesion 4/1', 'met 5/1'],
    ask: 1,
    of: ['wall', 'ulcer', 'double sole', 'toe necrosis', 'present'],
  }),
  stage: key(z.enum(ddStages).optional(), {
    told: ['stage'],
    sheet: ['lesion 1/1', 'met 4/2'],
    ask: 2,
    of: ['dermatitis'],
  }),
  top: key(lengthMm.optional(), { unit: 'mm', sheet: ['lesion 2/1', 'met 3/1'], ask: 3, of: ['wall'] }),
  'top-found': key(z.enum(topFoundWords).optional(), {
    told: ['top-found'],
    sheet: 'lesion 3/2',
    ask: 4,
    of: ['wall'],
  }),
  wall: key(lengthMm.optional(), { unit: 'mm', sheet: ['lesion 2/2', 'met 3/2'], ask: 5, of: ['wall'] }),
  'wall-at': key(z.enum(['beside']).optional(), { sheet: 'lesion 6/3' }),
  'wall-lowered': key(yesNo, { sheet: 'lesion 6/4' }),
  'wall-tool': key(z.enum(tools).optional(), { told: ['tool'], sheet: 'lesion 7/1', line: 'short' }),
  width: key(lengthMm.optional(), {
    unit: 'mm',
    sheet: ['lesion 2/4', 'met 3/4'],
    ask: 7,
    of: ['ulcer', 'double sole'],
  }),
  length: key(lengthMm.optional(), {
    unit: 'mm',
    sheet: ['lesion 2/3', 'met 3/3'],
    ask: 6,
    of: ['ulcer', 'double sole'],
  }),
  depth: key(lengthMm.optional(), { unit: 'mm', sheet: 'lesion 2/5' }),
  distance: key(lengthMm.optional(), {
    unit: 'mm',
    sheet: ['mark 1/1', 'new-mark 1/4'],
    ask: 8,
    of: ['mark'],
  }),
  tool: key(z.enum(tools).optional(), {
    told: ['tool'],
    sheet: ['lesion 3/1', 'met 4/1', 'mark 1/2'],
    ask: 9,
    of: ['wall', 'ulcer', 'double sole', 'mark'],
  }),
  signs: key(foundSigns, {
    told: ['sign'],
    sheet: ['lesion 5/1', 'met 5/2'],
    writtenIfNew: true,
    ask: 10,
    of: ['wall', 'ulcer', 'double sole', 'toe necrosis', 'dermatitis', 'present'],
  }),
  // A box for each sign gone would take the room of the signs seen: it is written under words.
  gone: key(foundSigns, { told: ['sign'], sheet: 'none' }),
  code: key(z.enum(lesionCodes).optional(), { told: ['lesion'], sheet: 'lesion 7/3', line: 'short' }),
  infected: key(yesNo, { sheet: 'lesion 4/3' }),
  'ran-up': key(yesNo, { sheet: 'lesion 6/2' }),
  'opened-further': key(yesNo, { sheet: 'lesion 6/1' }),
  joined: key(shortName.optional(), { names: 'lesions', sheet: 'lesion 7/2', line: 'short' }),
  lifted: key(yesNo, { sheet: ['lesion 4/4', 'mark 1/3'] }),
  note: key(longText.optional(), { sheet: ['lesion 7/4', 'mark 1/4'] }),
} satisfies Record<string, Key<InnerPlace>>);
/** What one visit found of one lesion or mark. */
export type Found = z.infer<typeof found>;

/** What belongs to a foot rather than to a lesion. */
export const footFinding = group({
  lifted: key(yesNo, { sheet: 'grid' }),
  signs: key(foundSigns, { told: ['sign'], sheet: 'grid' }),
  /** Looked for, and not there any more; on paper under the words of the foot. */
  gone: key(foundSigns, { told: ['sign'], sheet: 'none' }),
  note: key(longText.optional(), { sheet: 'grid' }),
} satisfies Record<string, Key<InnerPlace>>);
export type FootFinding = z.infer<typeof footFinding>;

/** The day a thing happened, or `unknown` where it was only found gone. */
const eventDay = z.union([calendarDay, z.literal('unknown')]).optional();

/** On paper what comes off stands before what is found, and what goes on behind it. */
export const blockEvent = group({
  foot: key(z.enum(feet), { told: ['foot'], sheet: ['off 1/1', 'on 1/1'] }),
  claw: key(z.enum(claws), { told: ['claw'], sheet: ['off 1/2', 'on 1/2'] }),
  event: key(z.enum(fixtureEvents), { told: ['event'], sheet: ['off 2/1', 'on 1/3'] }),
  material: key(z.enum(blockMaterials).optional(), { told: ['material'], sheet: 'on 2/1' }),
  on: key(eventDay, { sheet: 'off 1/3', line: 'short' }),
  'carrying-claw': key(z.enum(carryingClawWords).optional(), { told: ['carrying-claw'], sheet: 'off 3/1' }),
  note: key(longText.optional(), { sheet: ['off 1/4', 'on 2/2'] }),
} satisfies Record<string, Key<InnerPlace>>);
export type BlockEvent = z.infer<typeof blockEvent>;

export const wrapEvent = group({
  foot: key(z.enum(feet), { told: ['foot'], sheet: ['off 4/1', 'on 3/1'] }),
  event: key(z.enum(fixtureEvents), { told: ['event'], sheet: ['off 5/1', 'on 3/2'] }),
  on: key(eventDay, { sheet: 'off 4/2', line: 'short' }),
  note: key(longText.optional(), { sheet: ['off 4/3', 'on 3/3'] }),
} satisfies Record<string, Key<InnerPlace>>);
export type WrapEvent = z.infer<typeof wrapEvent>;

/** A product used. Withdrawal may be given in days, hours or milkings; 0 is a value, absent is unknown. */
export const productUse = group({
  product: key(text, { sheet: 'products 1/1', line: 'rest' }),
  active: key(text.optional(), { sheet: 'products 1/2', line: 'rest' }),
  class: key(z.enum(productClasses).optional(), { told: ['product-class'], sheet: 'products 2/1' }),
  batch: key(text.optional(), { sheet: 'products 1/3', line: 'rest' }),
  amount: key(text.optional(), { sheet: 'products 2/3', line: 'short' }),
  route: key(text.optional(), { sheet: 'products 5/1', line: 'middle' }),
  lesion: key(shortName.optional(), { names: 'lesions', sheet: 'products 2/2', line: 'short' }),
  on: key(calendarDay.optional(), { sheet: 'products 4/1', line: 'short' }),
  until: key(calendarDay.optional(), { sheet: 'products 4/2', line: 'short' }),
  'milk-days': key(amount.optional(), { unit: 'd', sheet: 'products 3/1' }),
  'milk-hours': key(amount.optional(), { unit: 'h', sheet: 'products 3/2' }),
  'milk-milkings': key(amount.optional(), { unit: 'milkings', sheet: 'products 3/3' }),
  'milk-days-after-calving': key(amount.optional(), { unit: 'd', sheet: 'products 3/4' }),
  'meat-days': key(amount.optional(), { unit: 'd', sheet: 'products 3/5' }),
  'given-by': key(text.optional(), { sheet: 'products 4/3', line: 'rest' }),
  'prescribed-by': key(text.optional(), { sheet: 'products 4/4', line: 'rest' }),
  cost: key(amount.optional(), { sheet: 'products 5/2', line: 'short' }),
  note: key(longText.optional(), { sheet: 'products 5/3' }),
} satisfies Record<string, Key<InnerPlace>>);
export type ProductUse = z.infer<typeof productUse>;

export const photo = group({
  // The program names the file when the picture is taken into the farm's folder.
  file: key(text, { form: 'none', sheet: 'none' }),
  foot: key(z.enum(feet).optional(), { told: ['foot'], sheet: 'photos 1/1' }),
  claw: key(z.enum(claws).optional(), { told: ['claw'], sheet: 'photos 1/2' }),
  view: key(z.enum(photoViews).optional(), { told: ['view'], sheet: 'photos 2/1' }),
  when: key(z.enum(photoMoments).optional(), { told: ['moment'], sheet: 'photos 1/3' }),
  caption: key(longText.optional(), { sheet: 'photos 1/4' }),
} satisfies Record<string, Key<InnerPlace>>);
export type Photo = z.infer<typeof photo>;

/** What a question to the vet or an answer is about: feet, lesions, signs, or `lame` for how she walks. */
const about = z.array(text).optional();
const aboutTold = ['foot', 'sign', 'animal-sign', 'about'] as const;

const vetAsked = group({
  asked: key(calendarDay, { spans: ['0 days'], sheet: 'care 2/1' }),
  why: key(longText, { sheet: 'care 2/3' }),
  about: key(about, { told: aboutTold, sheet: 'care 2/2', line: 'middle' }),
} satisfies Record<string, Key<InnerPlace>>);

// What he does or gave himself is written at the desk: an answer comes by telephone or letter.
const vetDoes = group({
  what: key(z.enum(vetTasks), { told: ['task'], sheet: 'none' }),
  on: key(calendarDay, { spans: ['0 days', '1 day', '3 days'], sheet: 'none' }),
} satisfies Record<string, Key<InnerPlace>>);

const vetAnswer = group({
  to: key(calendarDay, { sheet: 'care 3/1' }),
  by: key(text, { sheet: 'care 3/2', line: 'middle' }),
  reply: key(longText, { sheet: 'care 3/4' }),
  // The back has no line more: the answer names the day of the question, and the rest is written in its words.
  about: key(about, { told: aboutTold, sheet: 'none' }),
  closes: key(yesNo, { sheet: 'care 3/3' }),
  treated: key(yesNo, { sheet: 'none' }),
  does: key(z.array(vetDoes).optional(), { sheet: 'within' }),
} satisfies Record<string, Key<InnerPlace>>);

const askFarm = group({
  what: key(z.enum(farmTasks), { told: ['task'], sheet: 'grid' }),
  by: key(calendarDay, { spans: ['3 days', '1 week', '2 weeks'], sheet: 'grid' }),
} satisfies Record<string, Key<InnerPlace>>);

const farmDid = group({
  what: key(z.enum(farmTasks), { told: ['task'], sheet: 'grid' }),
  on: key(calendarDay, { spans: ['0 days', '1 day'], sheet: 'grid' }),
} satisfies Record<string, Key<InnerPlace>>);

export const visit = group({
  date: key(calendarDay, {
    form: 'visit 1',
    sheet: 'visit 1/1',
    line: 'day',
    ask: 'none',
    log: 'with another',
  }),
  at: key(timeOfDay.optional(), {
    form: 'visit folded 1',
    sheet: 'visit 1/2',
    line: 'short',
    more: 21,
    log: 'about',
  }),
  by: key(text, { form: 'visit 2', sheet: 'visit 1/3', line: 'rest', more: 23, log: 'with another' }),
  kind: key(z.enum(visitKinds), {
    told: ['visit-kind'],
    form: 'visit 3',
    sheet: 'visit 2/1',
    more: 22,
    log: 'with another',
  }),
  why: key(longText.optional(), { form: 'visit folded 2', sheet: 'visit 2/2', more: 24, log: 'found whole' }),
  gait: key(z.number().optional(), { form: 'walk 1', sheet: 'walk 1/1', ask: 1, log: 'found brief' }),
  'gait-by': key(text.optional(), {
    form: 'walk folded 2',
    sheet: 'walk 2/1',
    line: 'rest',
    more: 17,
    log: 'with another',
  }),
  'on-block': key(yesNo, {
    form: 'walk 2',
    sheet: 'walk 1/2',
    bothWays: true,
    more: 18,
    log: 'with another',
  }),
  condition: key(z.number().optional(), {
    form: 'walk folded 3',
    sheet: 'walk 2/2',
    line: 'short',
    more: 14,
    log: 'found brief',
  }),
  weight: key(amount.optional(), {
    unit: 'kg',
    form: 'walk folded 4',
    sheet: 'walk 2/3',
    line: 'short',
    more: 15,
    log: 'found brief',
  }),
  signs: key(z.array(z.enum(animalSigns)).optional(), {
    told: ['animal-sign'],
    form: 'walk folded 1',
    sheet: 'walk 2/4',
    line: 'middle',
    more: 16,
    log: 'found brief',
  }),
  feet: key(z.partialRecord(z.enum(feet), footFinding).optional(), {
    form: 'work folded 4',
    sheet: 'within',
    more: 4,
    log: 'found brief',
  }),
  found: key(z.record(shortName, found).optional(), {
    form: 'found 1',
    sheet: 'within',
    ask: 2,
    more: 3,
    log: 'found whole',
  }),
  trimmed: key(z.array(z.enum(feet)).optional(), {
    told: ['foot'],
    form: 'work 1',
    sheet: 'grid',
    more: 5,
    log: 'done brief',
  }),
  'cut-back': key(z.array(shortName).optional(), {
    names: 'lesions',
    form: 'work 2',
    sheet: 'lesion 4/2',
    more: 6,
    log: 'done brief',
  }),
  blocks: key(z.array(blockEvent).optional(), {
    form: 'work folded 1',
    room: 2,
    sheet: 'within',
    ask: 3,
    more: 7,
    log: 'done whole',
  }),
  wraps: key(z.array(wrapEvent).optional(), {
    form: 'work folded 2',
    room: 2,
    sheet: 'within',
    ask: 4,
    more: 8,
    log: 'done whole',
  }),
  products: key(z.array(productUse).optional(), {
    form: 'work folded 3',
    room: 2,
    sheet: 'within',
    more: 9,
    log: 'done whole',
  }),
  'pain-relief': key(z.enum(painReliefWords).optional(), {
    told: ['pain-relief'],
    form: 'care 1',
    sheet: 'care 1/1',
    ask: 5,
    log: 'done brief',
  }),
  photos: key(z.array(photo).optional(), {
    form: 'photos 1',
    room: 3,
    sheet: 'within',
    more: 10,
    log: 'done brief',
  }),
  vet: key(vetAsked.optional(), { form: 'care folded 1', sheet: 'within', ask: 6, log: 'done whole' }),
  'vet-answer': key(vetAnswer.optional(), {
    form: 'care folded 2',
    sheet: 'within',
    more: 13,
    log: 'done whole',
  }),
  'ask-farm': key(z.array(askFarm).optional(), {
    form: 'care folded 3',
    room: 2,
    sheet: 'within',
    more: 11,
    log: 'done whole',
  }),
  'farm-did': key(z.array(farmDid).optional(), {
    form: 'care folded 4',
    room: 2,
    sheet: 'within',
    more: 12,
    log: 'done whole',
  }),
  'tools-disinfected': key(yesNo, {
    form: 'next 3',
    sheet: 'next 2/1',
    bothWays: true,
    more: 19,
    log: 'about',
  }),
  'saw-expected': key(yesNo, { form: 'found folded 1', sheet: 'after 1/1', more: 20, log: 'about' }),
  recheck: key(calendarDay.optional(), {
    form: 'next 1',
    spans: ['1 week', '2 weeks', '4 weeks', '6 weeks', '8 weeks'],
    sheet: 'next 1/1',
    ask: 7,
    log: 'done brief',
  }),
  note: key(longText.optional(), { form: 'next 2', sheet: 'next 2/2', ask: 8, log: 'done whole' }),
  // A correction of what is on file, made with `growdown correct`: a new visit has none.
  amended: key(amended, { form: 'none', sheet: 'none', ask: 'none', log: 'done whole' }),
} satisfies Record<string, Key<VisitPlace>>);
/** One visit as its case file has it: who came when and why, and what was found and done. */
export type Visit = z.infer<typeof visit>;

/** Results after which no foot of hers is lifted again. */
export const goneResults: ReadonlySet<EpisodeResult> = new Set(['culled', 'died', 'put down']);

/** Results after which she has left the farm. */
export const leftFarm: ReadonlySet<EpisodeResult> = new Set([...goneResults, 'sold', 'moved']);
