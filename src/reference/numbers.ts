import { z } from 'zod';
import { readShared } from './read-shared.js';
import { sourcedNumber, address } from './sourced.js';

/**
 * A piece of published work, a law or an open standard, with what a reader needs to find it: who, when, and a title or a
 * journal. What cannot be found so is no source: a number that leans on it is called a judgement.
 *
 * Checked: tests/reference/addresses.test.ts
 */
export const publishedSource = z
  .strictObject({
    authors: z.string(),
    year: z.int(),
    title: z.string().optional(),
    journal: z.string().optional(),
    doi: z
      .string()
      .regex(/^10\.\d{4,}\//)
      .optional(),
    note: z.string().optional(),
  })
  .refine(({ title, journal }) => title !== undefined || journal !== undefined);

/** Every source that an address in `shared/` may name, by its id. */
export const publishedSources: Readonly<Record<string, z.infer<typeof publishedSource>>> = readShared(
  'sources.json',
  z.record(z.string(), publishedSource),
);

/** Enough to find it in the list of sources. @example shortSource('leach-2012') // → 'Leach et al. 2012' */
export function shortSource(id: string): string {
  const found = publishedSources[id];
  if (!found) throw new RangeError(`no source "${id}" in shared/sources.json`);
  return `${found.authors} ${found.year}`;
}

/** The numbers a standing is told by, each with its address; `shared/healing.json`. */
export const healingNumbers = readShared(
  'healing.json',
  z.strictObject({ tellApart: sourcedNumber, rangeSds: sourcedNumber }),
);

const shared = readShared(
  'footbath.json',
  z.strictObject({
    numbers: z.strictObject({
      weeksAYear: sourcedNumber,
      copperOf: z.strictObject({ pentahydrate: sourcedNumber, anhydrous: sourcedNumber }),
      cropsTakeOff: sourcedNumber,
      soilDepth: sourcedNumber,
      soilDensity: sourcedNumber,
      soilRise: sourcedNumber,
      euSoilLimit: sourcedNumber,
      usLoadLimit: sourcedNumber,
    }),
    names: z.strictObject({ copper: z.array(z.string()), formaldehyde: z.array(z.string()), address }),
  }),
);

/** The numbers of the footbath sums, each with its address; `shared/footbath.json`. */
export const footbathNumbers = shared.numbers;

/** Parts of a product's name, in small letters, that say what is in it. */
export const bathNames: {
  readonly copper: readonly string[];
  readonly formaldehyde: readonly string[];
} = shared.names;

/** The numbers that figures over many animals are counted by, and what trials found in groups; `shared/herd.json`. */
export const herdNumbers = readShared(
  'herd.json',
  z.strictObject({
    figures: z.strictObject({
      leastFarms: sourcedNumber,
      leastAnimals: sourcedNumber,
      widestBounds: sourcedNumber,
      fewCases: sourcedNumber,
      carriedForward: sourcedNumber,
      rateCowYears: sourcedNumber,
      level: sourcedNumber,
      yearDays: sourcedNumber,
      boundDraws: sourcedNumber,
      boundSeed: sourcedNumber,
    }),
    trials: z.strictObject({
      longLame: sourcedNumber,
      newlyLameTrim: sourcedNumber,
      newlyLameBlock: sourcedNumber,
      newlyLamePainRelief: sourcedNumber,
      newlyLameAll: sourcedNumber,
      usualDelay: sourcedNumber,
    }),
  }),
);

/** From when a record is taken for a sealed one that it is like. Source: shared/ledger.json. */
export const ledgerNumbers = readShared(
  'ledger.json',
  z.strictObject({ alikeCorrected: sourcedNumber, alikeChanged: sourcedNumber }),
);

/** How large a message may be, how much of it a book may take, and how long a server is waited for. Source: shared/mail.json. */
export const mailNumbers = readShared(
  'mail.json',
  z.strictObject({
    /** The whole message as it travels, unless the user says otherwise. */
    messageMb: sourcedNumber,
    /** What the user can ask for at most. */
    mostMb: sourcedNumber,
    /** Of the message; half of it each where the book goes as HTML and as PDF. */
    bookShare: sourcedNumber,
    connectSeconds: sourcedNumber,
    silentSeconds: sourcedNumber,
  }),
);

const step = z.strictObject({
  /** Longest side of the latest, the previous and the first picture of a strip. */
  largePx: z.int().positive(),
  /** Longest side of the others. */
  smallPx: z.int().positive(),
  /** Of the JPEG, 1 to 100. */
  quality: z.int().min(1).max(100),
});
export type PictureStep = z.infer<typeof step>;

/** Sizes a book's pictures are made in, largest first, and the limits they keep to. Source: shared/picture-steps.json. */
export const pictureNumbers = readShared(
  'picture-steps.json',
  z.strictObject({
    steps: z.tuple([step], step),
    bookMb: sourcedNumber,
    limitMegapixels: sourcedNumber,
    leastShare: sourcedNumber,
  }),
);

/** Numbers of the round and its calendar. Source: shared/round.json. */
export const roundNumbers = readShared(
  'round.json',
  z.strictObject({ aheadDays: sourcedNumber, calendarKeepDays: sourcedNumber }),
);
