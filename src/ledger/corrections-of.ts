import { type Amendment, amended } from '../record/measures.js';
import { type ContentDifference, contentDifferences, type Content } from './ledger-entry.js';
import type { RecordSeal } from './record-seal.js';

/** One correction made in the open, with what the record said before and says since. */
export interface Correction {
  readonly amendment: Amendment;
  /** Empty where nothing was sealed before the correction, so that nobody can tell. */
  readonly changes: readonly ContentDifference[];
}

/** The corrections a record owns, oldest first. Two made between two seals cannot be told apart: what changed is said of the later one. */
export function correctionsOf(seal: RecordSeal): Correction[] {
  const { sealed, now, state } = seal;
  if (now.content['amended'] === undefined) return [];
  const known = (sealed?.standing ?? []).map(({ content }) => content);
  const versions = state === 'sealed' ? known : [...known, now.content];
  return amendmentsIn(now.content).map((amendment, at) => {
    const after = versions.findIndex((version) => amendmentsIn(version).length > at);
    const [before, since] = [versions[after - 1], versions[after]];
    const told = before && since && amendmentsIn(since).length === at + 1;
    return { amendment, changes: told ? contentDifferences(before, since) : [] };
  });
}

function amendmentsIn(content: Content): readonly Amendment[] {
  return amended.safeParse(content['amended']).data ?? [];
}
