import type { Problem } from '../problem/problem.js';
import { business } from '../record/business.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseFiles } from './case-files.js';
import { checkBusiness } from './check/check-business.js';
import type { FolderEntry } from './folder-entries.js';
import { readRecordFile } from './read-record-file.js';

export interface BusinessReading {
  /** Undefined where the file has an error; empty where there is no file, since it is optional. */
  readonly record: Business | undefined;
  readonly narrative: string;
  readonly problems: readonly Problem[];
  readonly filesRead: number;
}

export function readBusiness(
  files: CaseFiles,
  entry: FolderEntry | undefined,
  today: CalendarDay,
): BusinessReading {
  if (!entry) return { record: {}, narrative: '', problems: [], filesRead: 0 };
  const file = readRecordFile(files, entry, business, 'business');
  if (file.outcome === 'refused')
    return { record: undefined, narrative: '', problems: file.problems, filesRead: 1 };
  const problems = checkBusiness(file.record, { today }).map(file.problemOf);
  const sound = problems.every(({ severity }) => severity !== 'error');
  return { record: sound ? file.record : undefined, narrative: file.narrative, problems, filesRead: 1 };
}
