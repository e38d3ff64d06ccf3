import { z } from 'zod';
import { calendarDay, type CalendarDay } from '../record/calendar-day.js';
import { slug } from '../record/measures.js';
import { type Period, isInPeriod } from '../record/period.js';
import type { CommonOptions } from '../run/exit-code.js';
import { episodesOf } from '../healing/episode.js';
import type { CaseRecord } from '../record/practice.js';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { archiveText } from '../reference/study-results.js';

/** What `archive.json` says of an archive: what was chosen for it, for a program to read. Keys are permanent. */
export const archiveFacts = z.strictObject({
  /** The version of this form. */
  archive: z.literal(1),
  farm: slug,
  /** The day it was made as on. */
  day: calendarDay,
  period: z.strictObject({ from: calendarDay, to: calendarDay }).optional(),
  location: z.enum(['removed', 'kept']),
  contacts: z.enum(['removed', 'kept']),
  /** How far the farm's chain of seals goes; absent where nothing is sealed. */
  head: z.strictObject({ entries: z.int().min(1), hash: z.string().regex(/^[0-9a-f]{64}$/) }).optional(),
  animals: z.array(slug),
  /** On file, and not in this archive. */
  'other-animals': z.array(slug),
  'left-out': z.array(z.strictObject({ file: z.string(), why: z.string() })),
});
export type ArchiveFacts = z.infer<typeof archiveFacts>;

/** Where it is under `data/`. */
export const factsPath = 'archive.json';

/** The facts as they lie in the archive. */
export function factsText(facts: ArchiveFacts): string {
  return `${JSON.stringify(facts, null, 2)}\n`;
}

/** What was asked of `growdown archive`. */
export type ArchiveOptions = CommonOptions & {
  readonly out: string;
  readonly period?: Period;
  readonly zip?: true;
  readonly keepLocation?: true;
  readonly clips?: true;
  readonly contacts: boolean;
  readonly pdf: boolean;
};

/** The cases of a period: those with a visit in it, and those whose trouble had begun by its end and had not ended before it. */
export function casesIn(
  cases: readonly CaseRecord[],
  period: Period | undefined,
  today: CalendarDay,
): readonly CaseRecord[] {
  if (!period) return cases;
  return cases.filter(
    ({ animal }) =>
      animal.visits.some(({ date }) => isInPeriod(date, period)) ||
      episodesOf(animal, today).some(({ lameSince, visits, ended }) => {
        const [begins] = [lameSince, animal.visits[visits[0] ?? -1]?.date]
          .filter((day) => day !== undefined)
          .toSorted();
        return begins !== undefined && begins <= period.to && (ended ?? period.from) >= period.from;
      }),
  );
}

/** One picture or film of the farm, as it was taken and as it lies in the archive. */
export interface PictureListed {
  /** Its own name, from the farm's folder. */
  readonly file: string;
  /** From `data/`; empty where it was left out. */
  readonly archivedAs: string;
  readonly location: 'removed' | 'none found' | 'kept' | 'left out';
  readonly bytes: number;
  readonly sha512: string;
  /** Empty where it was left out. */
  readonly sha512Archived: string;
}

/** Where the list is under `data/`. */
export const picturesPath = 'pictures.csv';

const sha512 = z.string().regex(/^[0-9a-f]{128}$/);
const row = z.strictObject({
  file: z.string().min(1),
  archived_as: z.string(),
  location: z.enum(['removed', 'none found', 'kept', 'left out']),
  bytes_as_taken: z.string().regex(/^\d{1,15}$/),
  sha512_as_taken: sha512,
  sha512_archived: z.union([sha512, z.literal('')]),
});
const columns = Object.keys(row.shape) as (keyof z.infer<typeof row>)[];

/** The list as CSV (RFC 4180). */
export function pictureListText(pictures: readonly PictureListed[]): string {
  const rows = pictures.map((one): z.infer<typeof row> => ({
    file: one.file,
    archived_as: one.archivedAs,
    location: one.location,
    bytes_as_taken: String(one.bytes),
    sha512_as_taken: one.sha512,
    sha512_archived: one.sha512Archived,
  }));
  return stringify(rows, { header: true, columns, record_delimiter: '\r\n' });
}

/** Reads the list back; undefined where it is not one of ours. */
export function readPictureList(text: string): readonly PictureListed[] | undefined {
  try {
    const rows = z.array(row).parse(parse(text, { columns: true, record_delimiter: '\r\n' }));
    return rows.map((one) => ({
      file: one.file,
      archivedAs: one.archived_as,
      location: one.location,
      bytes: Number(one.bytes_as_taken),
      sha512: one.sha512_as_taken,
      sha512Archived: one.sha512_archived,
    }));
  } catch {
    return undefined;
  }
}

/** So wide are the lines of a text that must be readable anywhere. */
const widest = 78;

/** What the text for a stranger says of one archive. */
interface ReadmeOf {
  readonly facts: ArchiveFacts;
  readonly farm: string;
  readonly business: string;
  readonly version: string;
  /** Paths under `data/` that are in it. */
  readonly paths: readonly string[];
  /** Whether an animal came from another farm. */
  readonly cameFromOthers: boolean;
}

/** The text a stranger finds in an archive: what it is, what lies where, how to check it without this program. */
export function readmeText({ facts, farm, business, version, paths, cameFromOthers }: ReadmeOf): string {
  const { readme } = archiveText;
  const { period, head, animals } = facts;
  const others = facts['other-animals'];
  const values: Record<string, string> = {
    farm,
    business,
    version,
    day: facts.day,
    from: period?.from ?? '',
    to: period?.to ?? '',
    kept: String(animals.length),
    of: String(animals.length + others.length),
    entries: String(head?.entries ?? 0),
    head: head?.hash ?? '',
    'left-out': archiveText['left-out'],
    'former-farm': archiveText['former-farm'],
  };
  const lines = [
    ...readme.what,
    ...(period ? readme.period : []),
    ...readme.places,
    ...placesIn(facts.farm, paths),
    ...readme.check,
    ...(head ? readme.chain : readme['no-chain']),
    ...readme['left-out'],
    ...(facts.location === 'kept' ? readme['location-kept'] : readme['location-removed']),
    ...(facts.contacts === 'removed' ? readme['contacts-removed'] : []),
    ...(cameFromOthers ? readme['former-farms-removed'] : []),
    ...facts['left-out'].map(({ file, why }) => filled(readme['file-left-out'], { file, why })),
  ];
  return `${lines.flatMap((line) => wrapped(filled(line, values))).join('\n')}\n`;
}

function placesIn(farm: string, paths: readonly string[]): string[] {
  const { place } = archiveText.readme;
  const cases = `cases/${farm}/`;
  const places: readonly (readonly [string, string])[] = [
    ['cases/', place.cases],
    [`${cases}photos/`, place.photos],
    [`${cases}renamed/`, place.renamed],
    [`${cases}.growdown/`, place.ledger],
    ['books/', place.books],
    ['audit/', place.audit],
    ['records/', place.records],
    ['format/', place.format],
    [picturesPath, place.pictures],
    [factsPath, place.facts],
  ];
  return places
    .filter(([start]) => paths.some((path) => path.startsWith(start)))
    .flatMap(([start, what]) => [`  data/${start}`, `      ${what}`]);
}

function filled(line: string, values: Readonly<Record<string, string>>): string {
  return line.replaceAll(/\{([a-z-]+)\}/g, (whole, name: string) => values[name] ?? whole);
}

/** Breaks a long line between words; what follows is indented as far. A word longer than a line stays whole. */
function wrapped(line: string): string[] {
  const indent = /^\s*(?:- )?/.exec(line)![0];
  const lines: string[] = [];
  let now = '';
  for (const word of line.slice(indent.length).split(' ')) {
    const longer =
      now === '' ? (lines.length === 0 ? indent : ' '.repeat(indent.length)) + word : `${now} ${word}`;
    if (longer.length <= widest || now === '') now = longer;
    else {
      lines.push(now);
      now = ' '.repeat(indent.length) + word;
    }
  }
  return [...lines, now];
}
