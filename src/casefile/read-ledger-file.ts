import { emptyLedger, type Ledger, readLedger, type LedgerFault } from '../ledger/read-ledger.js';
import type { CaseFiles } from './source-text.js';
import type { FolderEntry } from './folder-entries.js';
import { reasonOf } from './read-text.js';
import type { SealedAnimal } from '../ledger/sealed-records.js';
import { problemIn } from '../problem/message.js';
import type { Problem } from '../problem/problem.js';

/** Where a farm's ledger lies, seen from its folder. */
export const ledgerFile = '.growdown/ledger.jsonl';

type LedgerFile =
  | { readonly outcome: 'ledger'; readonly ledger: Ledger; readonly text: string }
  | { readonly outcome: 'unreadable'; readonly reason: string };

/** A farm's ledger; an empty one where none is there. */
export function readLedgerFile(files: CaseFiles, { path }: Pick<FolderEntry, 'path'>): LedgerFile {
  try {
    const at = `${path}/${ledgerFile}`;
    if (!files.look(at)) return { outcome: 'ledger', ledger: emptyLedger, text: '' };
    const text = new TextDecoder().decode(files.read(at));
    return { outcome: 'ledger', ledger: readLedger(text), text };
  } catch (error) {
    return { outcome: 'unreadable', reason: reasonOf(error) };
  }
}

const ids: Record<LedgerFault['what'], string> = {
  'not-json': 'ledger/not-an-entry',
  'not-an-entry': 'ledger/not-an-entry',
  'unknown-version': 'ledger/unknown-version',
  edited: 'ledger/edited',
  'not-behind': 'ledger/out-of-order',
  'refers-wrong': 'ledger/out-of-order',
  'not-looked-at': 'ledger/out-of-order',
};

/** A broken chain proves nothing: each fault of it, at its line. */
export function ledgerProblem({ line, what, values }: LedgerFault, file: string): Problem {
  const { id, severity, message, mend } = problemIn(file, ids[what], values, { way: what });
  return { id, severity, file, place: { line, column: 1 }, message, mend };
}

/** A ledger that is there and cannot be opened: told, since without it nothing can be checked against a seal. */
export function ledgerUnreadable(file: string, reason: string): Problem {
  return problemIn(file, 'ledger/unreadable', { reason });
}

/** A sealed animal without a file. */
export function animalMissing(
  { file, number, records }: SealedAnimal,
  folder: string,
  farmSlug: string,
): Problem {
  const count = records.filter(({ first }) => first.kind === 'visit').length;
  const values = { animal: number ?? file, count, named: `${farmSlug}/${file}` };
  return problemIn(`${folder}/${file}.md`, 'seal/animal-missing', values);
}
