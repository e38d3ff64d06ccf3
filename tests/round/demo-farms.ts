import { fileURLToPath } from 'node:url';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import type { CalendarDay } from '../../src/record/calendar-day.js';
import type { Practice } from '../../src/record/practice.js';
import { type FarmWork, workOfFarms } from '../../src/round/round-of.js';

export function readDemoPractice(today: CalendarDay): Practice {
  const folder = fileURLToPath(new URL('../../cases', import.meta.url));
  return readPractice(nodeCaseFiles, folder, { today }).practice;
}

/** The farms of the demo, worked out for a day. */
export function readDemo(today: CalendarDay): FarmWork[] {
  const practice = readDemoPractice(today);
  const { priors } = pooledOn(practice, today);
  return workOfFarms(practice.farms, { business: practice.business, today, priors });
}
