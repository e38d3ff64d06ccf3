import type { Problem } from '../problem/problem.js';
import { sortProblems } from '../problem/sort-problems.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import type { CaseFiles } from './case-files.js';
import { checkBetweenFarms } from './check/check-between-farms.js';
import { findFarms } from './find-farms.js';
import { nearestWord } from './nearest-word.js';
import { openCasesFolder } from './open-cases-folder.js';
import { readBusiness } from './read-business.js';
import { readFarm } from './read-farm.js';

export interface PracticeQuestion {
  readonly today: CalendarDay;
  /** Read this farm alone, by its slug. */
  readonly farm?: string;
}

/** All that was read, and all that is wrong with it. */
export interface PracticeReading {
  /** Only the farms without an error. */
  readonly practice: Practice;
  /** By file, then place. */
  readonly problems: readonly Problem[];
  /** Case files opened: business, farms, animals. */
  readonly filesRead: number;
  /** Slugs of all farms found, sorted. */
  readonly farmsFound: readonly string[];
  /** Slugs of the farms with an error, sorted: no book may be written of these. */
  readonly farmsRefused: readonly string[];
}

/**
 * Reads the trimmer's whole cases folder: every farm and animal, every problem in one run.
 *
 * One bad file refuses its farm and no other. An error in `business.md` refuses every farm: its name, its intervals
 * and its prices stand in every book, and none may be written on a guess. The farms are still read and checked, so
 * that all problems are told at once.
 *
 * Error:   never throws on what the folder holds; every trouble is a `Problem`
 * Checked: tests/casefile/
 */
export function readPractice(
  files: CaseFiles,
  casesFolder: string,
  question: PracticeQuestion,
): PracticeReading {
  const opened = openCasesFolder(files, casesFolder);
  if (opened.outcome === 'problem') return nothing([opened.problem]);
  const { root, folder, shown } = opened;
  const found = findFarms(root, folder, shown);
  const business = readBusiness(files, found.business, question.today);
  const problems = [...found.problems, ...business.problems];
  const wanted = found.farms.filter(({ slug }) => question.farm === undefined || slug === question.farm);
  if (question.farm !== undefined && wanted.length === 0) {
    problems.push(
      noSuchFarm(
        shown,
        question.farm,
        found.farms.map(({ slug }) => slug),
      ),
    );
  }
  const farms: FarmRecord[] = [];
  const farmsRefused: string[] = [];
  let filesRead = business.filesRead;
  for (const farm of wanted) {
    const reading = readFarm(files, farm, question.today);
    problems.push(...reading.problems);
    filesRead += reading.filesRead;
    if (reading.record && business.record) farms.push(reading.record);
    else farmsRefused.push(farm.slug);
  }
  problems.push(...checkBetweenFarms(farms));
  return {
    practice: { business: business.record ?? {}, narrative: business.narrative, farms },
    problems: sortProblems(problems),
    filesRead,
    farmsFound: wanted.map(({ slug }) => slug),
    farmsRefused,
  };
}

function nothing(problems: readonly Problem[]): PracticeReading {
  const practice = { business: {}, narrative: '', farms: [] };
  return { practice, problems, filesRead: 0, farmsFound: [], farmsRefused: [] };
}

function noSuchFarm(shown: string, farm: string, slugs: readonly string[]): Problem {
  const meant = nearestWord(farm, slugs);
  const list = slugs.map((slug) => `\`${slug}\``).join(', ');
  return {
    id: 'folder/no-such-farm',
    severity: 'error',
    file: shown,
    message: `there is no farm \`${farm}\` here${meant === undefined ? ', expected the name of a folder' : `: did you mean \`${meant}\`?`}`,
    mend: slugs.length === 0 ? 'the cases folder holds no farm yet' : `the farms are ${list}`,
  };
}
