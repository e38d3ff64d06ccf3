import { z } from 'zod';
import type footbath from '../../shared/footbath.json';
import type healing from '../../shared/healing.json';
import type herd from '../../shared/herd.json';
import type ledger from '../../shared/ledger.json';
import type mail from '../../shared/mail.json';
import type round from '../../shared/round.json';
import { readShared } from './read-shared.js';
import { readNumbers, sourcedNumber } from './sourced.js';

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

/** The numbers a status is decided by, each with its address; `shared/healing.json`. */
export const healingNumbers = readNumbers<typeof healing>('healing.json');

const bath = readNumbers<typeof footbath>('footbath.json');

/** The numbers of the footbath sums, each with its address; `shared/footbath.json`. */
export const footbathNumbers = bath.numbers;

/** Parts of a product's name, in small letters, that say what is in it. */
export const bathNames: {
  readonly copper: readonly string[];
  readonly formaldehyde: readonly string[];
} = bath.names;

/** The numbers that figures over many animals are counted by, and what trials found in groups; `shared/herd.json`. */
export const herdNumbers = readNumbers<typeof herd>('herd.json');

/** From when a record is taken for a sealed one that it is like. Source: shared/ledger.json. */
export const ledgerNumbers = readNumbers<typeof ledger>('ledger.json');

/**
 * How large a message may be, how much of it a book may take (half of it each where it goes as HTML and as PDF), and how
 * long a server is waited for. Source: shared/mail.json.
 */
export const mailNumbers = readNumbers<typeof mail>('mail.json');

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
export const roundNumbers = readNumbers<typeof round>('round.json');
