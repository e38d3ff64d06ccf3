import { z } from 'zod';
import {
  lesionCodes,
  lesionStates,
  sites,
  wallLines,
  type LesionCode,
  type Site,
  type WallLine,
} from '../record/words.js';
import { given } from '../record/given.js';
import { readShared } from './read-shared.js';
import { address } from './sourced.js';
import type { Found } from '../record/visit.js';

/** What a finding may measure; `stage` is digital dermatitis's own. Lengths in mm. */
export const measures = ['top', 'wall', 'length', 'width', 'depth', 'stage'] as const;
export type Measure = (typeof measures)[number];

/** Kinds of lesion that are measured, told and forecast alike. */
export const lesionFamilies = [
  'wall',
  'ulcer',
  'double sole',
  'toe necrosis',
  'dermatitis',
  'present',
] as const;
export type LesionFamily = (typeof lesionFamilies)[number];

const family = z.strictObject({
  measures: z.array(z.enum(measures)),
  states: z.array(z.enum(lesionStates)),
  /** `growing out` for a gap in the wall, `closing` for an ulcer. */
  forecast: z.enum(['growing out', 'closing', 'none']),
});

/** What sets single kinds apart from others of their family. */
const traits = ['fissure', 'from the coronet', 'thin or bruised', 'foul', 'at the toe'] as const;

const table = z.strictObject({
  address,
  families: z.record(z.enum(lesionFamilies), family),
  lesions: z.record(
    z.enum(lesionCodes),
    z.strictObject({
      /** Full English name in the ICAR Claw Health Atlas, small letters. */
      name: z.string(),
      family: z.enum(lesionFamilies),
      /** What it is, in a sentence. */
      about: z.string(),
      /** Where it is found; absent where it is the shape of a whole claw. */
      sites: z.array(z.enum(sites)).optional(),
      traits: z.array(z.enum(traits)).default([]),
    }),
  ),
  usualLines: z.partialRecord(z.enum(sites), z.enum(wallLines)),
});

const shared = readShared('lesions.json', table);

function kindOf(code: LesionCode) {
  const { sites: found, ...lesion } = shared.lesions[code];
  const { measures: measured, states, forecast } = shared.families[lesion.family];
  const own = { measures: new Set(measured), states: new Set<string>(states), forecast };
  return { ...lesion, ...own, ...given({ sites: found && new Set(found) }) };
}

/**
 * What is known of each kind of lesion, by its ICAR code.
 *
 * Source:  shared/lesions.json
 * Checked: tests/reference/lesions.test.ts
 * @example lesionKinds.WL.name // → 'white line disease'
 */
export const lesionKinds = Object.fromEntries(lesionCodes.map((code) => [code, kindOf(code)])) as Readonly<
  Record<LesionCode, ReturnType<typeof kindOf>>
>;

/** @example familyOf('SU') // → 'ulcer' */
export function familyOf(code: LesionCode): LesionFamily {
  return lesionKinds[code].family;
}

/** A gap in wall horn: read from the coronet down, and grown out. @example isWallGap('HFV') // → true */
export function isWallGap(code: LesionCode): boolean {
  return familyOf(code) === 'wall';
}

/** @example hasTrait('HFV', 'fissure') // → true */
export function hasTrait(code: LesionCode, trait: (typeof traits)[number]): boolean {
  return lesionKinds[code].traits.includes(trait);
}

/** The line a length is usually read on at a site; undefined off the wall. @example usualLine('white line rear') // → 'heel' */
export function usualLine(site: Site): WallLine | undefined {
  return shared.usualLines[site];
}

/** Keys of a finding that only mean something on a gap in the wall. */
export const wallGapKeys: ReadonlySet<string> = new Set([
  'top-found',
  'wall-at',
  'wall-lowered',
  'wall-tool',
  'ran-up',
  'opened-further',
  'joined',
] satisfies (keyof Found)[]);
