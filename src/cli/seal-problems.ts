import { headOf, holdsHead } from '../ledger/head-of.js';
import { openSeals } from '../ledger/open-seals.js';
import type { FarmSeals } from '../ledger/seals-of-farm.js';
import type { Problem } from '../problem/problem.js';
import { WrongUse } from './exit-code.js';

/** Where a farm's ledger is, as the user would type it. */
interface LedgerShown {
  readonly file: string;
  readonly farm: string;
}

/** Of a farm that is sealed at all: how much is not yet. */
export function unsealedNote(seals: FarmSeals | undefined, { file, farm }: LedgerShown): Problem[] {
  if (!seals?.head) return [];
  const open = openSeals(seals).length;
  if (open === 0) return [];
  return [
    {
      id: 'seal/unsealed',
      severity: 'note',
      file,
      message: `${open} ${open === 1 ? 'record is' : 'records are'} not sealed as written, expected each sealed soon after it was made`,
      mend: `\`growdown seal --farm ${farm}\` seals them; a seal counts from the day it is made`,
    },
  ];
}

/**
 * A head printed in a book or a mail, looked for in a farm's ledger: one that is not in it tells that the ledger was cut
 * off before it, or written anew.
 */
export function headProblem(
  seals: FarmSeals | undefined,
  printed: string,
  { file, farm }: LedgerShown,
): Problem[] {
  let found: unknown;
  try {
    found = seals && holdsHead(seals.ledger, printed);
  } catch {
    throw new WrongUse(
      `--head ${printed}: expected the head as it was printed, 16 to 64 of the digits 0-9 a-f`,
    );
  }
  if (found) return [];
  const head = seals && headOf(seals.ledger);
  return [
    {
      id: 'ledger/head-unknown',
      severity: 'error',
      file,
      message: `no entry of ${farm}'s ledger has the head ${printed}, expected it among the ${head?.entries ?? 0} entries: the ledger was cut off before it, or written anew`,
      mend: 'look whether the head is of this farm and typed as printed; else put the ledger back from a copy made after it was printed',
    },
  ];
}
