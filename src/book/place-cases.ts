import { smallest } from '../statistics/estimate.js';
import { worstFirst } from '../healing/worst-first.js';
import { urgencies } from '../reference/notices.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { PlacedCase } from './animal-page-data.js';

/** Cases in the order of the book, worst first and closed after open, each with its place. */
export function placeCases(cases: readonly CaseWork[]): PlacedCase[] {
  const ordered = cases.map((one) => {
    const urgent = one.notices
      .filter((notice) => notice.standing)
      .map((notice) => urgencies.indexOf(notice.urgency));
    return {
      ...one,
      slug: one.record.slug,
      ...(urgent.length > 0 ? { urgency: smallest(urgent) } : {}),
    };
  });
  return worstFirst(ordered).map((one, at) => ({
    ...one,
    id: `animal-${one.slug}`,
    place: at + 1,
    of: cases.length,
  }));
}
