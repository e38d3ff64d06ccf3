import type { OutsideWitness } from '../audit/facts/sealed-in-period.js';
import { mailedHeads } from '../post/posted.js';
import type { Effects } from '../run/effects.js';
import { postedOnDisk } from '../post/sending/post-run.js';

/** Mail that went to a farm and told the head of its ledger, as far as is remembered; what cannot be read tells of none. */
export function witnessesOf(effects: Effects, casesFolder: string, slug: string): OutsideWitness[] {
  return mailedHeads(postedOnDisk(effects, casesFolder, slug).read());
}
