import { holdsHead } from '../../ledger/head-of.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { CalendarDay } from '../../record/calendar-day.js';

/** Mail that told the head of the farm's ledger: somebody else's mailbox holds it, and nobody here can change it. */
export interface OutsideWitness {
  readonly day: CalendarDay;
  readonly to: readonly string[];
  /** SHA-256, 64 hexadecimal digits. */
  readonly head: string;
}

/** How many entries a witness stands for; undefined where the ledger no longer holds that head: it was cut or written anew. */
export function entriesWitnessed({ ledger }: FarmSeals, { head }: OutsideWitness): number | undefined {
  return /^[0-9a-f]{16,64}$/i.test(head) ? holdsHead(ledger, head)?.entries : undefined;
}
