import type { CalendarDay } from '../record/calendar-day.js';
import type { Posted } from './posted.js';

/** Mail that told the head of the farm's ledger, and whose mail box holds it. */
export interface MailedHead {
  readonly day: CalendarDay;
  readonly to: readonly string[];
  /** SHA-256, 64 hexadecimal digits. */
  readonly head: string;
}

/** Every mail a server has taken that told a head, oldest first. A draft sent by hand is not known of here. */
export function mailedHeads({ lines }: Posted): MailedHead[] {
  return lines.flatMap(({ what, day, to, head }) =>
    what === 'sent' && head !== undefined ? [{ day, to, head }] : [],
  );
}
