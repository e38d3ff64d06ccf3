import type { FarmSeals } from '../ledger/seals-of-farm.js';
import type { Problem } from '../problem/problem.js';
import { sortProblems } from '../problem/format-problem.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice, RecordSource } from '../record/practice.js';
import type { CaseFiles } from './source-text.js';
import { asItWas } from './unfinished.js';
import { findFarms, openCasesFolder } from './find-farms.js';
import type { FolderEntry } from './folder-entries.js';
import type { PictureCare } from './look-at-picture.js';
import { readRecordFile } from './read-record-file.js';
import { business as businessSchema } from '../record/business.js';
import { type FarmReading, readFarm } from './read-farm.js';
import { rememberedFarm, type Remembering } from './remembered-farm.js';
import { given } from '../record/given.js';
import type { Values } from '../reference/words.js';
import { checkIntervalsInOrder, earlierWithTheSame, warn } from './check/check-context.js';

/** What reading one farm's folder came to. */
export interface FarmRead {
  readonly slug: string;
  readonly problems: readonly Problem[];
  readonly filesRead: number;
}

/** How case files are read; with a `memory` each farm is read anew only where something in its folder has changed. */
interface ReadingAs extends Partial<Omit<Remembering, 'pictures'>> {
  readonly today: CalendarDay;
  readonly pictures?: PictureCare;
}

/** All that was read, and all that is wrong with it. */
export interface PracticeReading {
  /** Only the farms without an error. */
  readonly practice: Practice;
  /** By file, then place. */
  readonly problems: readonly Problem[];
  /** Case files opened: business, farms, animals. */
  readonly filesRead: number;
  /** The hash of all that a farm was read from, where it is remembered. */
  readonly keyOf: (farm: string) => string | undefined;
  /** Each farm's records beside their seals, by its slug; worked out when first asked for. */
  readonly sealsOf: (farm: string) => FarmSeals | undefined;
  /** Slugs of all farms found, sorted. */
  readonly farmsFound: readonly string[];
  /** Slugs of the farms with an error, sorted: no book may be written of these. */
  readonly farmsRefused: readonly string[];
  /** The same, by place: the cases folder as it is shown, what is of no one farm, and each farm's own. */
  readonly parts: {
    /** Undefined where it could not be opened. */
    readonly folder: string | undefined;
    readonly common: Omit<FarmRead, 'slug'>;
    readonly farms: readonly FarmRead[];
  };
}

/**
 * Reads the trimmer's whole cases folder: every farm and animal, every problem in one run. It is always read whole,
 * since every cow on file teaches what to expect of the others; `chooseFarm` then picks one farm.
 *
 * One bad file refuses its farm and no other. An error in `business.md` refuses every farm: its name, its intervals
 * and its prices are in every book, and none may be written on a guess. The farms are still read and checked, so
 * that all problems are reported at once.
 *
 * Error:   never throws on what the folder holds; every trouble is a `Problem`
 * Checked: tests/casefile/
 */
export function readPractice(
  lying: CaseFiles,
  casesFolder: string,
  { today, pictures = 'sized', trustsPictures = false, memory, onRead }: ReadingAs,
): PracticeReading {
  const { files, problems: unfinished } = asItWas(lying, casesFolder);
  const opened = openCasesFolder(files, casesFolder);
  if (opened.outcome === 'problem') return nothing([opened.problem]);
  const { root, folder, shown } = opened;
  const found = findFarms(root, folder, shown);
  const business = readBusiness(files, found.business);
  const readings = found.farms.map((farm) => ({
    slug: farm.slug,
    shown: farm.entry.shown,
    ...(memory && typeof pictures === 'string'
      ? rememberedFarm(files, farm, { today, pictures, trustsPictures, memory, ...given({ onRead }) })
      : readFarm(files, farm, today, pictures)),
  }));
  const sound = business.record ? readings.filter(isSound) : [];
  const between = checkBetweenFarms(sound);
  const told = (home: string): Problem[] => [unfinished.get(home) ?? []].flat();
  const common = {
    problems: [...found.problems, ...business.problems, ...told('')],
    filesRead: found.business ? 1 : 0,
  };
  const farms = readings.map(({ slug, shown: own, problems, filesRead }): FarmRead => {
    const among = between.filter(({ file }) => file.startsWith(`${own}/`));
    return { slug, problems: [...problems, ...among, ...told(slug)], filesRead };
  });
  return {
    practice: {
      business: business.record ?? {},
      narrative: business.narrative,
      farms: sound.map(({ record }) => record),
    },
    keyOf: (slug) => readings.find((farm) => farm.slug === slug)?.key,
    problems: sortProblems([common, ...farms].flatMap(({ problems }) => problems)),
    filesRead: [common, ...farms].reduce((sum, { filesRead }) => sum + filesRead, 0),
    sealsOf: (slug) => readings.find((farm) => farm.slug === slug)?.seals(),
    farmsFound: readings.map(({ slug }) => slug),
    farmsRefused: readings.flatMap(({ slug }) => (sound.some((farm) => farm.slug === slug) ? [] : [slug])),
    parts: { folder: shown, common, farms },
  };
}

/** It is optional, and then empty; without a record where it has an error. */
function readBusiness(files: CaseFiles, entry: FolderEntry | undefined) {
  if (!entry) return { record: {}, narrative: '', problems: [] };
  const file = readRecordFile(files, entry, businessSchema, 'business');
  if (file.outcome === 'refused') return { record: undefined, narrative: '', problems: file.problems };
  const problems = [
    ...file.remarks,
    ...[...checkIntervalsInOrder(file.record.intervals)].map(file.problemOf),
  ];
  const sound = problems.every(({ severity }) => severity !== 'error');
  return { record: sound ? file.record : undefined, narrative: file.narrative, problems };
}

function nothing(problems: readonly Problem[]): PracticeReading {
  return {
    practice: { business: {}, narrative: '', farms: [] },
    problems,
    filesRead: 0,
    keyOf: () => undefined,
    sealsOf: () => undefined,
    farmsFound: [],
    farmsRefused: [],
    parts: { folder: undefined, common: { problems, filesRead: 0 }, farms: [] },
  };
}

/**
 * What looks wrong between farms: one name on two of them, one cow in trouble on two of them.
 *
 * Warnings only: two farms may bear one name, and a cow that has moved may be written up on either side first.
 */
function checkBetweenFarms(farms: readonly Sound[]): Problem[] {
  const namesakes = earlierWithTheSame(farms, ({ known }) => [known.farm.trim().toLowerCase()]);
  const tagged = farms.flatMap((home) => home.known.tags.map(([slug, tag]) => ({ home, slug, tag })));
  const sameTags = earlierWithTheSame(tagged, ({ tag }) => [tag]);
  const warned = ({ source }: { source: RecordSource }, id: string, key: string, values: Values): Problem => {
    const { at: _, path, ...finding } = warn(id, [key], values);
    return { ...finding, file: source.file, place: source.placeOf(path) };
  };
  return [
    ...farms.flatMap((one, i) =>
      namesakes[i]!.map(({ shown }) =>
        warned(one.record, 'farm-name-twice', 'farm', { farm: one.known.farm, earlier: `${shown}/farm.md` }),
      ),
    ),
    ...tagged.flatMap(({ home, slug }, i) =>
      sameTags[i]!.filter((other) => other.home !== home).map((other) => {
        const hers = home.record.cases.find((one) => one.slug === slug)!;
        const earlier = `${other.home.shown}/${other.slug}.md`;
        return warned(hers, 'tag-on-two-farms', 'tag', { tag: hers.animal.tag!, earlier });
      }),
    ),
  ];
}

/** A farm that read without an error. */
interface Sound {
  readonly shown: string;
  readonly record: FarmRecord;
  readonly known: NonNullable<FarmReading['known']>;
}

function isSound<Read extends FarmReading>(read: Read): read is Read & Sound {
  return read.record !== undefined;
}
