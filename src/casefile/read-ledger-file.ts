import { emptyLedger, type Ledger, readLedger } from '../ledger/read-ledger.js';
import type { CaseFiles } from './source-text.js';
import type { FolderEntry } from './folder-entries.js';
import { reasonOf } from './read-text.js';

/** Where a farm's ledger lies, seen from its folder. */
export const ledgerFile = '.growdown/ledger.jsonl';

export type LedgerFile =
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
