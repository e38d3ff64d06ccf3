import type { FarmSeals } from '../ledger/seals-of-farm.js';
import type { Problem } from '../problem/problem.js';
import { sortProblems } from '../problem/sort-problems.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import type { CaseFiles } from './case-files.js';
import { asItWas } from './unfinished.js';
import { checkBetweenFarms } from './check/check-between-farms.js';
import { findFarms } from './find-farms.js';
import { openCasesFolder } from './open-cases-folder.js';
import type { PictureCare } from './picture-bytes.js';
import { readBusiness } from './read-business.js';
import { readFarm } from './read-farm.js';

/** What reading one farm's folder came to. */
export interface FarmRead {
  readonly slug: string;
  readonly problems: readonly Problem[];
  readonly filesRead: number;
}

/** All that was read, and all that is wrong with it. */
export interface PracticeReading {
  /** Only the farms without an error. */
  readonly practice: Practice;
  /** By file, then place. */
  readonly problems: readonly Problem[];
  /** Case files opened: business, farms, animals. */
  readonly filesRead: number;
  /** Each farm's records beside their seals, by its slug; worked out when first asked for. */
  readonly sealsOf: (farm: string) => FarmSeals | undefined;
  /** Slugs of all farms found, sorted. */
  readonly farmsFound: readonly string[];
  /** Slugs of the farms with an error, sorted: no book may be written of these. */
  readonly farmsRefused: readonly string[];
  /** The same told apart: the cases folder as it is shown, what is of no one farm, and each farm's own. */
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
 * and its prices stand in every book, and none may be written on a guess. The farms are still read and checked, so
 * that all problems are told at once.
 *
 * Error:   never throws on what the folder holds; every trouble is a `Problem`
 * Checked: tests/casefile/
 */
export function readPractice(
  lying: CaseFiles,
  casesFolder: string,
  { today, pictures = 'sized' }: { readonly today: CalendarDay; readonly pictures?: PictureCare },
): PracticeReading {
  const { files, problems: unfinished } = asItWas(lying, casesFolder);
  const opened = openCasesFolder(files, casesFolder);
  if (opened.outcome === 'problem') return nothing([opened.problem]);
  const { root, folder, shown } = opened;
  const found = findFarms(root, folder, shown);
  const business = readBusiness(files, found.business, today);
  const readings = found.farms.map((farm) => ({
    slug: farm.slug,
    ...readFarm(files, farm, today, pictures),
  }));
  const sound = business.record
    ? readings.flatMap(({ record }): FarmRecord[] => (record ? [record] : []))
    : [];
  const between = checkBetweenFarms(sound);
  const told = (home: string): Problem[] => [unfinished.get(home) ?? []].flat();
  const common = {
    problems: [...found.problems, ...business.problems, ...told('')],
    filesRead: business.filesRead,
  };
  const farms = readings.map(({ slug, record, problems, filesRead }): FarmRead => {
    const own = new Set([record?.source.file, ...(record?.cases ?? []).map(({ source }) => source.file)]);
    const among = between.filter(({ file }) => own.has(file));
    return { slug, problems: [...problems, ...among, ...told(slug)], filesRead };
  });
  return {
    practice: { business: business.record ?? {}, narrative: business.narrative, farms: sound },
    problems: sortProblems([common, ...farms].flatMap(({ problems }) => problems)),
    filesRead: [common, ...farms].reduce((sum, { filesRead }) => sum + filesRead, 0),
    sealsOf: (slug) => readings.find((farm) => farm.slug === slug)?.seals(),
    farmsFound: readings.map(({ slug }) => slug),
    farmsRefused: readings.flatMap(({ slug }) => (sound.some((farm) => farm.slug === slug) ? [] : [slug])),
    parts: { folder: shown, common, farms },
  };
}

function nothing(problems: readonly Problem[]): PracticeReading {
  const practice = { business: {}, narrative: '', farms: [] };
  const parts = { folder: undefined, common: { problems, filesRead: 0 }, farms: [] };
  return {
    practice,
    problems,
    filesRead: 0,
    sealsOf: () => undefined,
    farmsFound: [],
    farmsRefused: [],
    parts,
  };
}
