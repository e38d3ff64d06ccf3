import type { JudgedReading, LesionGrowth } from '../growth/animal-growth.js';
import type { Animal } from '../record/animal.js';
import type { Found } from '../record/found.js';
import type { WallBar } from './drawn-wall.js';

/** Standard deviations either side that hold 80 %. */
const eightyPercent = 1.2816;

/** One bar for every visit at which this gap was looked at, with or without a length. */
export function wallBars(growth: LesionGrowth, animal: Animal): WallBar[] {
  const readings = new Map(growth.readings.map((reading) => [reading.visit, reading]));
  let bareFromMm: number | undefined;
  return animal.visits.flatMap((visit, at): WallBar[] => {
    const found = visit.found?.[growth.lesion];
    const reading = readings.get(at);
    if (!reading && !looked(found)) return [];
    bareFromMm = bareFrom(bareFromMm, reading, visit['cut-back']?.includes(growth.lesion) ?? false);
    const lowered = found?.['wall-lowered'] === true;
    return [
      {
        date: visit.date,
        unused: reading?.unused ?? false,
        wallMm: found?.wall ?? growth.wall.mm,
        wallMeasured: found?.wall !== undefined,
        lowered,
        ...(found?.state !== undefined && { state: found.state }),
        ...(found?.joined !== undefined && { joined: found.joined }),
        ...(bareFromMm !== undefined && { bareFromMm }),
        ...(reading && ofReading(reading)),
      },
    ];
  });
}

function looked(found: Found | undefined): boolean {
  return found?.lifted !== false && (found?.state !== undefined || found?.joined !== undefined);
}

function ofReading(reading: JudgedReading): Partial<WallBar> {
  const { kind, topMm, expectedMm, sdMm, ranUpMm, lostMonths, tool } = reading;
  return {
    kind,
    ...(topMm !== undefined && { topMm }),
    ...(expectedMm !== undefined && { expectedMm }),
    ...(sdMm !== undefined && { expectedHalfRangeMm: eightyPercent * sdMm }),
    ...(ranUpMm !== undefined && { ranUpMm }),
    ...(lostMonths !== undefined && { lostMonths }),
    ...(tool !== undefined && { tool }),
  };
}

/**
 * Wall once taken off stays off while horn grows down over it. Where the gap has run further up and nothing was cut
 * back that day, the loose wall between the new top and where the old one has come to is still standing.
 */
function bareFrom(before: number | undefined, reading: JudgedReading | undefined, cutBack: boolean) {
  const top = reading?.kind === 'not-reached' ? undefined : reading?.topMm;
  if (top === undefined) return before;
  if (cutBack) return top;
  if (before === undefined) return undefined;
  return Math.max(top, reading?.kind === 'ran-up' ? (reading.expectedMm ?? before) : top);
}
