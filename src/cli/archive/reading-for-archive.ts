import { type FarmsChosen, chooseFarm } from '../../casefile/choose-farm.js';
import type { CaseFiles } from '../../casefile/case-files.js';
import { openCasesFolder } from '../../casefile/open-cases-folder.js';
import { readPractice } from '../../casefile/read-practice.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { withoutContacts } from './without-contacts.js';

/** Records, and the very bytes they were read from: a file saved while the archive is written does not come between. */
export interface ArchiveReading extends FarmsChosen {
  readonly files: CaseFiles;
  /** The cases folder as `files` takes it. */
  readonly cases: string;
}

/** Reads all case files, remembers them as they were read, and hashes every sealed picture. */
export function readForArchive(
  files: CaseFiles,
  typed: string,
  { farm, today, contacts }: { farm: string | undefined; today: CalendarDay; contacts: boolean },
): ArchiveReading {
  const remembered = remembering(files);
  const opened = openCasesFolder(files, typed);
  const cases = opened.outcome === 'open' ? opened.folder : typed;
  const read = (from: CaseFiles): FarmsChosen =>
    chooseFarm(readPractice(from, cases, { today, pictures: 'hashed' }), farm);
  const reading = read(remembered);
  if (contacts) return { ...reading, files: remembered, cases };
  const blanked = withoutContacts(
    remembered,
    cases,
    reading.farms.map(({ slug }) => slug),
  );
  return { ...read(blanked), files: blanked, cases };
}

/** Case files and ledgers are small, and each is read from the disk once. Pictures are not remembered. */
function remembering(files: CaseFiles): CaseFiles {
  const seen = new Map<string, Uint8Array>();
  return {
    ...files,
    read: (path) => {
      if (!/\.(?:md|jsonl)$/.test(path)) return files.read(path);
      const bytes = seen.get(path) ?? files.read(path);
      seen.set(path, bytes);
      return bytes;
    },
  };
}
