import type { LedgerFault } from '../ledger/read-ledger.js';
import type { SealedAnimal } from '../ledger/sealed-animals.js';
import type { Problem } from '../problem/problem.js';

const ids: Record<LedgerFault['what'], string> = {
  'not-json': 'ledger/not-an-entry',
  'not-an-entry': 'ledger/not-an-entry',
  'unknown-version': 'ledger/unknown-version',
  edited: 'ledger/edited',
  'not-behind': 'ledger/out-of-order',
  'refers-wrong': 'ledger/out-of-order',
};

/** A broken chain proves nothing: each fault of it, at its line. */
export function ledgerProblem(fault: LedgerFault, file: string): Problem {
  return {
    id: ids[fault.what],
    severity: 'error',
    file,
    place: { line: fault.line, column: 1 },
    message: fault.said,
    mend:
      fault.what === 'unknown-version'
        ? 'get the newer version of growdown, then run this again'
        : 'put the file back as the program left it, from a copy; without one, move it away: a new chain then begins and proves nothing of the time before. Until then no command writes on this farm',
  };
}

/** A ledger that is there and cannot be opened: told, since without it nothing can be held against a seal. */
export function ledgerUnreadable(file: string, reason: string): Problem {
  return {
    id: 'ledger/unreadable',
    severity: 'error',
    file,
    message: `the ledger could not be read (${reason})`,
    mend: 'close it in other programs, look whether you may open it, then run this again',
  };
}

/** A sealed animal without a file. */
export function animalMissing(
  { file, number, records }: SealedAnimal,
  folder: string,
  farmSlug: string,
): Problem {
  const visits = records.filter(({ first }) => first.kind === 'visit').length;
  return {
    id: 'seal/animal-missing',
    severity: 'error',
    file: `${folder}/${file}.md`,
    message: `the file of ${number ?? file} is missing, and her records are sealed (${visits} ${visits === 1 ? 'visit' : 'visits'}), expected her file in the farm's folder, under any name`,
    mend: `put the file back; if she bears another number now, write the old one under \`earlier\`; if the file was taken away on purpose, say so in the open: \`growdown seal --taken-out ${farmSlug}/${file} --why REASON\``,
  };
}
