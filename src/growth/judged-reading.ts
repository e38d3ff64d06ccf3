import type { JudgedReading } from './animal-growth.js';
import type { Judged } from './follow-lines.js';
import type { LineFollowed } from './held-slowly.js';
import { given } from '../record/given.js';

/** The readings of a line as they are shown. */
export function judgedReadings({ shown, used }: LineFollowed): JudgedReading[] {
  return shown.map((one) => judgedReading(one, !used.has(one.reading)));
}

function judgedReading({ reading, kind, expected, ranUp }: Judged, unused: boolean): JudgedReading {
  const { date, visit, by, mm, topFound, tool, sigmaMm, asked } = reading;
  const isInDoubt = asked !== undefined && kind === 'ran-up';
  return {
    date,
    visit,
    by,
    ...(mm === undefined ? {} : { topMm: mm, sigmaMm }),
    ...given({ topFound, tool }),
    ...(isInDoubt ? { kind: 'doubtful', takenAs: kind } : { kind }),
    ...given({ asked }),
    ...(expected === undefined ? {} : { expectedMm: expected.mm, sdMm: expected.sdMm, z: expected.z }),
    ...(ranUp === undefined || isInDoubt ? {} : { ranUpMm: ranUp.mm }),
    ...(ranUp?.months === undefined || isInDoubt ? {} : { lostMonths: ranUp.months }),
    unused,
  };
}
