import type { CaseFiles } from '../../casefile/case-files.js';
import { readPractice } from '../../casefile/read-practice.js';
import type { ArchivePriors } from '../../growth/learning/priors-for.js';
import { archiveOn } from '../../herd/archive-on.js';
import type { Keeping } from '../../keep/change.js';
import { findFolder } from '../../keep/find-kept.js';
import type { Practice } from '../../record/practice.js';

/** All case files as they are now, and what they teach of growth. */
export interface YardReading {
  readonly practice: Practice;
  readonly farmsRefused: readonly string[];
  readonly priors: ArchivePriors;
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
    const reading = { practice, farmsRefused, priors: archiveOn(practice, now.today).priors };
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
