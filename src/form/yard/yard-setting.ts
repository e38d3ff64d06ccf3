import type { CaseFiles } from '../../casefile/source-text.js';
import { readPractice } from '../../casefile/read-practice.js';
import type { Priors } from '../../growth/learning/priors-for.js';
import { pooledOn } from '../../herd/pooled-on.js';
import type { Keeping } from '../../keep/change.js';
import { findFolder } from '../../keep/kept-file.js';
import type { Practice } from '../../record/practice.js';
import type { Disk } from '../../keep/disk/disk.js';
import type { Words } from '../../reference/words.js';
import { createHash, timingSafeEqual } from 'node:crypto';
import { slug } from '../../record/measures.js';

/** All case files as they are now, and what they teach of growth. */
interface YardReading {
  readonly practice: Practice;
  readonly farmsRefused: readonly string[];
  readonly priors: Priors;
}

/**
 * Reads the cases folder when it is first asked for, and again only when one of its case files has another size or
 * time than then, or is new or gone, or the day is another: of thousands of animals the reading takes seconds, the
 * looking none to speak of. Where the system tells no time of a file, it is read each time.
 *
 * What a picture shows or whether it is there is no matter of a form, and is not looked for.
 *
 * Checked: tests/form/yard/remembered-reading.test.ts
 */
export function rememberedReading(keeping: () => Keeping): () => YardReading {
  let known: { readonly stamp: string; readonly reading: YardReading } | undefined;
  return () => {
    const now = keeping();
    const stamp = stampOf(now);
    if (known && stamp !== undefined && known.stamp === stamp) return known.reading;
    const { practice, farmsRefused } = readPractice(now.files, now.cases, { today: now.today });
    const reading = { practice, farmsRefused, priors: pooledOn(practice, now.today).priors };
    // The stamp is older than the reading: what is saved in between shows at the next request.
    known = stamp === undefined ? undefined : { stamp, reading };
    return reading;
  };
}

function stampOf(now: Keeping): string | undefined {
  const found = findFolder(now);
  if (found.outcome !== 'found') return undefined;
  const folders = found.farms.flatMap(({ entry: { path } }) => [path, `${path}/.growdown`]);
  const files = [found.folder, ...folders].flatMap((folder) => filesIn(now.files, folder));
  const lines = files.map((path) => {
    const there = now.files.look(path);
    return there?.changedAt === undefined ? undefined : `${path}\t${there.bytes}\t${there.changedAt}`;
  });
  return lines.includes(undefined) ? undefined : [now.today, ...lines].join('\n');
}

function filesIn(files: CaseFiles, folder: string): string[] {
  if (files.look(folder)?.kind !== 'folder') return [];
  return files
    .list(folder)
    .filter(({ kind }) => kind === 'file' || kind === 'link')
    .map(({ name }) => `${folder}/${name}`);
}

/** What answering a request needs. */
export interface YardSetting {
  readonly disk: Disk;
  /** As on the day of the request. */
  readonly keeping: () => Keeping;
  readonly reading: () => YardReading;
  readonly words: Words;
  readonly formId: () => string;
  /** Tells the user at the laptop. */
  readonly tell: (line: string) => void;
}

/** Where a request that is let in leads. */
export type YardPlace =
  | { readonly at: 'farms' }
  | { readonly at: 'farm'; readonly farm: string }
  /** A case to be opened. */
  | { readonly at: 'new'; readonly farm: string }
  | { readonly at: 'animal'; readonly farm: string; readonly animal: string };

/**
 * Whether a request is let in, and where it leads; undefined for every other, which gets no answer of substance.
 *
 * The `Host` must be one this program was asked for: a name elsewhere that points here (DNS rebinding) is not. The
 * token is compared in a time that does not hang on how much of it is right.
 *
 * Checked: tests/form/yard/guard.test.ts
 */
export function yardPlaceOf(
  { host, path }: { readonly host: string | undefined; readonly path: string },
  { token, hosts }: { readonly token: string; readonly hosts: readonly string[] },
): YardPlace | undefined {
  if (host === undefined || !hosts.includes(host.toLowerCase())) return undefined;
  const [before, given = '', ...rest] = path.split('/');
  if (before !== '' || !isSame(given, token)) return undefined;
  const [farm, animal, ...more] = rest;
  if (farm === '' && animal === undefined) return { at: 'farms' };
  if (farm === undefined || animal === undefined || more.length > 0 || !slug.safeParse(farm).success)
    return undefined;
  if (animal === '') return { at: 'farm', farm };
  // No file of an animal is called so.
  if (animal === '+') return { at: 'new', farm };
  return slug.safeParse(animal).success ? { at: 'animal', farm, animal } : undefined;
}

function isSame(given: string, token: string): boolean {
  const hash = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(hash(given), hash(token));
}

/** What is taken in at most. Judged for one visit with four pictures of a phone over a farm's Wi-Fi. */
export const limits = {
  /** Bytes of one sending, and of one picture in it. */
  sending: 25_000_000,
  picture: 12_000_000,
  /** Above this nothing is read on: up to here what was typed still comes back. */
  readOn: 100_000_000,
  /** Letters of one answer, answers, pictures. */
  answer: 20_000,
  answers: 2000,
  pictures: 24,
  /** Milliseconds for the head of a request, for the whole of it, and with nothing coming. */
  head: 15_000,
  whole: 240_000,
  silent: 60_000,
  /** Of those that have not yet asked for anything with the token, the longest there makes room for the next. */
  strangers: 30,
  connections: 200,
  /** Milliseconds a form may still be read on after its last byte came. */
  settle: 500,
} as const;

/** The same in million bytes, as a page says it. */
export const megabytes = { most: limits.sending / 1e6, picture: limits.picture / 1e6 };
