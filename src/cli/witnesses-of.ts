import type { OutsideWitness } from '../audit/facts/outside-witness.js';
import { mailedHeads } from '../post/witnesses.js';
import type { Effects } from '../run/effects.js';
import { postedOnDisk } from '../post/sending/posted-on-disk.js';

/** Mail that went to a farm and told the head of its ledger, as far as is remembered; what cannot be read tells of none. */
export function witnessesOf(effects: Effects, casesFolder: string, slug: string): OutsideWitness[] {
  return mailedHeads(postedOnDisk(effects, casesFolder, slug).read());
}
