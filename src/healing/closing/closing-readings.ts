import type { ReadingKind } from '../../growth/animal-growth.js';
import type { Judged, LineCourse } from '../../growth/follow-lines.js';
import { daysBetween } from '../../record/calendar-day.js';
import { marginAdvance } from './margin-advance.js';
import type { ClosingKind, ClosingReading } from './ulcer-closing.js';
import type { WidthReading } from './ulcer-history.js';

/** The filter's words for a gap in the wall, as they read of an ulcer. */
const kinds: Partial<Record<ReadingKind, ClosingKind>> = {
  first: 'first',
  grew: 'as-expected',
  doubtful: 'doubtful',
  'ran-up': 'opening-up',
  held: 'held',
  'opened-further': 'opened-further',
  'lower-than-growth': 'smaller-than-closing',
};

/**
 * The widths of an ulcer as they are shown.
 *
 * Valid:   the first width after it was found closed reads `came-back`; the margin's advance is told within one run only
 * Checked: tests/healing/closing/closing-of-ulcer.test.ts
 */
export function closingReadings({ judged, used }: LineCourse): ClosingReading[] {
  const readings: ClosingReading[] = [];
  let before: ClosingReading | undefined;
  let hasClosed = false;
  for (const one of judged) {
    const { reading } = one;
    if (!isWidth(reading)) {
      before = undefined;
      hasClosed = true;
      continue;
    }
    const shown = closingReading(one, reading, !used.has(reading), hasClosed);
    const marginMmPerDay = advanceSince(before, shown);
    before = shown;
    readings.push({ ...shown, ...(marginMmPerDay === undefined ? {} : { marginMmPerDay }) });
  }
  return readings;
}

function isWidth(reading: Judged['reading']): reading is WidthReading {
  return 'widthMm' in reading;
}

function closingReading(
  { kind, expected, ranUp }: Judged,
  { date, visit, by, tool, widthMm, lengthMm, sigmaMm }: WidthReading,
  unused: boolean,
  hasClosed: boolean,
): ClosingReading {
  return {
    date,
    visit,
    by,
    ...(tool === undefined ? {} : { tool }),
    widthMm,
    ...(lengthMm === undefined ? {} : { lengthMm }),
    sigmaMm: 2 * sigmaMm,
    kind: kind === 'first' && hasClosed ? 'came-back' : (kinds[kind] ?? 'as-expected'),
    ...(expected === undefined
      ? {}
      : { expectedMm: Math.max(0, -2 * expected.mm), sdMm: 2 * expected.sdMm, z: expected.z }),
    ...(ranUp === undefined ? {} : { widerByMm: 2 * ranUp.mm }),
    unused,
  };
}

function advanceSince(before: ClosingReading | undefined, now: ClosingReading): number | undefined {
  if (before?.lengthMm === undefined || now.lengthMm === undefined) return undefined;
  const days = daysBetween(before.date, now.date);
  if (days <= 0 || before.lengthMm + now.lengthMm === 0) return undefined;
  return marginAdvance(
    { lengthMm: before.lengthMm, widthMm: before.widthMm },
    { lengthMm: now.lengthMm, widthMm: now.widthMm },
    days,
  );
}
