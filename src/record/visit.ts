import { z } from 'zod';
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

/**
 * What was found of one lesion or mark at one visit. Lengths in mm.
 *
 * Which keys may stand together depends on the lesion's code; that is checked between
 * declaration and finding, not here.
 */
export const found = z.strictObject({
  state: z.enum(lesionStates).optional(),
  stage: z.enum(ddStages).optional(),
  top: lengthMm.optional(),
  'top-found': z.enum(topFoundWords).optional(),
  wall: lengthMm.optional(),
  'wall-at': z.enum(['beside']).optional(),
  'wall-lowered': z.boolean().optional(),
  'wall-tool': z.enum(tools).optional(),
  width: lengthMm.optional(),
  length: lengthMm.optional(),
  depth: lengthMm.optional(),
  distance: lengthMm.optional(),
  tool: z.enum(tools).optional(),
  signs: z.array(z.enum(signs)).optional(),
  gone: z.array(z.enum(signs)).optional(),
  code: z.enum(lesionCodes).optional(),
  infected: z.boolean().optional(),
  'ran-up': z.boolean().optional(),
  'opened-further': z.boolean().optional(),
  joined: shortName.optional(),
  lifted: z.boolean().optional(),
  note: longText.optional(),
});
/** What one visit found of one lesion or mark. */
export type Found = z.infer<typeof found>;

/** What belongs to a foot rather than to a lesion. */
export const footFinding = z.strictObject({
  lifted: z.boolean().optional(),
  signs: z.array(z.enum(signs)).optional(),
  /** Looked for, and not there any more. */
  gone: z.array(z.enum(signs)).optional(),
  note: longText.optional(),
});
export type FootFinding = z.infer<typeof footFinding>;

/** The day a thing happened, or `unknown` where it was only found gone. */
const eventDay = z.union([calendarDay, z.literal('unknown')]);

export const blockEvent = z.strictObject({
  foot: z.enum(feet),
  claw: z.enum(claws),
  event: z.enum(fixtureEvents),
  material: z.enum(blockMaterials).optional(),
  on: eventDay.optional(),
  'carrying-claw': z.enum(carryingClawWords).optional(),
  note: longText.optional(),
});
export type BlockEvent = z.infer<typeof blockEvent>;

export const wrapEvent = z.strictObject({
  foot: z.enum(feet),
  event: z.enum(fixtureEvents),
  on: eventDay.optional(),
  note: longText.optional(),
});
export type WrapEvent = z.infer<typeof wrapEvent>;

/** A product used. Withdrawal may be given in days, hours or milkings; 0 is a value, absent is unknown. */
export const productUse = z.strictObject({
  product: text,
  active: text.optional(),
  class: z.enum(productClasses).optional(),
  batch: text.optional(),
  amount: text.optional(),
  route: text.optional(),
  lesion: shortName.optional(),
  on: calendarDay.optional(),
  until: calendarDay.optional(),
  'milk-days': amount.optional(),
  'milk-hours': amount.optional(),
  'milk-milkings': amount.optional(),
  'milk-days-after-calving': amount.optional(),
  'meat-days': amount.optional(),
  'given-by': text.optional(),
  'prescribed-by': text.optional(),
  cost: amount.optional(),
  note: longText.optional(),
});
export type ProductUse = z.infer<typeof productUse>;

export const photo = z.strictObject({
  file: text,
  foot: z.enum(feet).optional(),
  claw: z.enum(claws).optional(),
  view: z.enum(photoViews).optional(),
  when: z.enum(photoMoments).optional(),
  caption: longText.optional(),
});
export type Photo = z.infer<typeof photo>;

/** What a question to the vet or an answer is about: feet, lesions, signs, or `lame` for how she walks. */
const about = z.array(text);

export const visit = z.strictObject({
  date: calendarDay,
  at: timeOfDay.optional(),
  by: text,
  kind: z.enum(visitKinds),
  why: longText.optional(),
  gait: z.number().optional(),
  'gait-by': text.optional(),
  'on-block': z.boolean().optional(),
  condition: z.number().optional(),
  weight: amount.optional(),
  signs: z.array(z.enum(animalSigns)).optional(),
  feet: z.partialRecord(z.enum(feet), footFinding).optional(),
  found: z.record(shortName, found).optional(),
  trimmed: z.array(z.enum(feet)).optional(),
  'cut-back': z.array(shortName).optional(),
  blocks: z.array(blockEvent).optional(),
  wraps: z.array(wrapEvent).optional(),
  products: z.array(productUse).optional(),
  'pain-relief': z.enum(painReliefWords).optional(),
  photos: z.array(photo).optional(),
  vet: z.strictObject({ asked: calendarDay, why: longText, about: about.optional() }).optional(),
  'vet-answer': z
    .strictObject({
      to: calendarDay,
      by: text,
      reply: longText,
      about: about.optional(),
      closes: z.boolean().optional(),
      treated: z.boolean().optional(),
      does: z.array(z.strictObject({ what: z.enum(vetTasks), on: calendarDay })).optional(),
    })
    .optional(),
  'ask-farm': z.array(z.strictObject({ what: z.enum(farmTasks), by: calendarDay })).optional(),
  'farm-did': z.array(z.strictObject({ what: z.enum(farmTasks), on: calendarDay })).optional(),
  'tools-disinfected': z.boolean().optional(),
  'saw-expected': z.boolean().optional(),
  recheck: calendarDay.optional(),
  note: longText.optional(),
  amended,
});
/** One visit as its case file has it: who came when and why, and what was found and done. */
export type Visit = z.infer<typeof visit>;

/** Results after which no foot of hers is lifted again. */
export const goneResults: ReadonlySet<EpisodeResult> = new Set(['culled', 'died', 'put down']);

/** Results after which she has left the farm. */
export const leftFarm: ReadonlySet<EpisodeResult> = new Set([...goneResults, 'sold', 'moved']);
