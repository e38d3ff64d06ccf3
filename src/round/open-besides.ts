import { smallest } from '../statistics/extremes.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { urgencies } from '../reference/notices.js';
import type { CaseWork } from '../schedule/case-work.js';
import { type DueItem, type DueWhat, isJob } from '../schedule/due-item.js';
import type { Notice } from '../schedule/notice.js';
import { isOpen } from '../schedule/open-due.js';
import { isWithheld } from '../schedule/withheld.js';

/** What stands open of an animal besides what the trimmer lifts her for. */
export interface OpenBesides {
  readonly notices: readonly Notice[];
  /** Position of her most urgent notice among the urgencies. */
  readonly urgency?: number;
  readonly isWithheld: boolean;
  /** Asked of the farm or of the vet and not reported done, by day. */
  readonly notReported: readonly DueItem[];
  readonly any: boolean;
}

/** A standing notice says itself whether it was asked and answered. */
const saidByNotice: ReadonlySet<DueWhat> = new Set(['vet-ask', 'vet-answer']);

/** What stands open of an animal besides lifting her, as far as it is due by a day. */
export function openBesides(
  { due, notices: all, withheld }: Pick<CaseWork, 'due' | 'notices' | 'withheld'>,
  until: CalendarDay,
): OpenBesides {
  const notices = all.filter(({ standing }) => standing);
  const open = due.filter(isOpen);
  const notReported = open.filter(
    ({ who, what, by }) =>
      who !== 'trimmer' &&
      by <= until &&
      isJob({ what }) &&
      what !== 'withdrawal-not-recorded' &&
      !(notices.length > 0 && saidByNotice.has(what)),
  );
  const isHeld = isWithheld(withheld);
  return {
    notices,
    ...(notices.length > 0
      ? { urgency: smallest(notices.map(({ urgency }) => urgencies.indexOf(urgency))) }
      : {}),
    isWithheld: isHeld,
    notReported,
    any: notices.length > 0 || isHeld || notReported.length > 0,
  };
}
