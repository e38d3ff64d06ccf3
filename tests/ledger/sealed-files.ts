import { findFolder } from '../../src/keep/kept-file.js';
import { type SealAsked, type Sealing, workOutSealing } from '../../src/keep/disk/seal-farm.js';
import { type InMemory, caseFilesInMemory } from '../casefile/case-files-in-memory.js';

export type Files = Readonly<Record<string, InMemory>>;

export const ledgerPath = 'cases/quernholt/.growdown/ledger.jsonl';

/** What sealing Quernholt comes to, all of it unless said. */
export function sealing(
  files: Files,
  day: string,
  asked: Partial<SealAsked> = {},
): Extract<Sealing, { outcome: 'sealed' }> {
  const all = caseFilesInMemory(files);
  const found = findFolder({ files: all, cases: 'cases', today: '2026-11-25' });
  if (found.outcome !== 'found') throw new Error(JSON.stringify(found));
  const farm = found.farms.find(({ slug }) => slug === 'quernholt');
  if (!farm) throw new Error('no quernholt');
  const worked = workOutSealing(
    all,
    farm,
    { today: '2026-11-25', day },
    { animals: undefined, farmFile: true, ...asked },
  );
  if (worked.outcome !== 'sealed') throw new Error(JSON.stringify(worked));
  return worked;
}

/** The files with Quernholt's ledger sealed on a day. */
export function sealedFiles(files: Files, day = '2026-02-10', asked: Partial<SealAsked> = {}): Files {
  return { ...files, [ledgerPath]: sealing(files, day, asked).text };
}

export function ledgerOf(files: Files): string {
  const text = files[ledgerPath];
  return typeof text === 'string' ? text : '';
}
