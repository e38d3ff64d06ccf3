import { type FarmsChosen, chooseFarm } from '../../casefile/choose-farm.js';
import type { CaseFiles } from '../../casefile/case-files.js';
import { openCasesFolder } from '../../casefile/open-cases-folder.js';
import { readPractice } from '../../casefile/read-practice.js';
import { asItWas } from '../../casefile/unfinished.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { withoutContacts } from './without-contacts.js';
import { withoutFormerFarms } from './without-former-farms.js';

/** Records, and the very bytes they were read from: a file saved while the archive is written does not come between. */
export interface ArchiveReading extends FarmsChosen {
  readonly files: CaseFiles;
  /** The cases folder as `files` takes it. */
  readonly cases: string;
}

/**
 * Reads all case files, remembers them as they were read, and hashes the sealed pictures of the farms asked for.
 *
 * They are read twice: first to know whose pictures to hash and which files to leave contacts and former farms out of.
 */
export function readForArchive(
  files: CaseFiles,
  typed: string,
  { farm, today, contacts }: { farm: string | undefined; today: CalendarDay; contacts: boolean },
): ArchiveReading {
  const remembered = remembering(asItWas(files, typed).files);
  const opened = openCasesFolder(files, typed);
  const cases = opened.outcome === 'open' ? opened.folder : typed;
  const { farms } = chooseFarm(readPractice(remembered, typed, { today }), farm);
  const slugs = farms.map(({ slug }) => slug);
  const own = withoutFormerFarms(remembered, cases, farms);
  const kept = contacts ? own : withoutContacts(own, cases, slugs);
  const pictures = new Set(farms.flatMap((one) => one.cases.map(({ slug }) => slug)));
  const reading = chooseFarm(readPractice(kept, typed, { today, pictures }), farm);
  return { ...reading, files: kept, cases };
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
