import { z } from 'zod';
import { calendarDay } from '../record/calendar-day.js';
import { readShared } from './read-shared.js';
import { address, sourcedNumber } from './sourced.js';

const lineNumbers = z.strictObject({
  rate: sourcedNumber,
  deviation: sourcedNumber,
  wall: sourcedNumber,
  wallSd: sourcedNumber,
});

const growthTable = z.strictObject({
  month: sourcedNumber,
  year: sourcedNumber,
  lines: z.strictObject({ dorsal: lineNumbers, abaxial: lineNumbers, heel: lineNumbers, axial: lineNumbers }),
  cow: z.strictObject({ between: sourcedNumber, ofMean: sourcedNumber, mean: sourcedNumber }),
  claw: z.strictObject({ outer: sourcedNumber, inner: sourcedNumber }),
  foot: z.strictObject({ hind: sourcedNumber, front: sourcedNumber }),
  lactation: z.strictObject({
    first: sourcedNumber,
    second: sourcedNumber,
    later: sourcedNumber,
    unknown: sourcedNumber,
  }),
  season: z.strictObject({
    grazed: sourcedNumber,
    housed: sourcedNumber,
    mixed: sourcedNumber,
    unknown: sourcedNumber,
    peak: z.strictObject({ north: calendarDay, south: calendarDay, address }),
  }),
  uneven: sourcedNumber,
  reading: z.strictObject({
    calliper: sourcedNumber,
    ruler: sourcedNumber,
    tape: sourcedNumber,
    photo: sourcedNumber,
    eye: sourcedNumber,
    eyeShare: sourcedNumber,
    notStated: sourcedNumber,
    otherReader: sourcedNumber,
    beside: sourcedNumber,
    grooveStart: sourcedNumber,
  }),
  tests: z.strictObject({
    doubtfulBelow: sourcedNumber,
    standsBelow: sourcedNumber,
    lowerAbove: sourcedNumber,
    tellApart: sourcedNumber,
    heldBelow: sourcedNumber,
    heldCalledBelow: sourcedNumber,
    heldShortest: sourcedNumber,
    heldLongest: sourcedNumber,
    awayFromCoronet: sourcedNumber,
    fissureReadings: sourcedNumber,
  }),
  forecast: z.strictObject({
    early: sourcedNumber,
    best: sourcedNumber,
    late: sourcedNumber,
    horizon: sourcedNumber,
    rangeSds: sourcedNumber,
    step: sourcedNumber,
    lookAhead: sourcedNumber,
  }),
  week: sourcedNumber,
  archive: z.strictObject({ countsFrom: sourcedNumber }),
  trackRecord: z.strictObject({ few: sourcedNumber }),
  closing: z.strictObject({
    rate: sourcedNumber,
    between: sourcedNumber,
    mean: sourcedNumber,
    deviation: sourcedNumber,
    target: sourcedNumber,
    targetSd: sourcedNumber,
    rough: sourcedNumber,
  }),
  worthMeasuring: z.strictObject({
    atLeast: sourcedNumber,
    secondLook: sourcedNumber,
    notchMm: sourcedNumber,
  }),
  doubts: z.strictObject({
    wallAtLeast: sourcedNumber,
    bothBelow: sourcedNumber,
    topAtLeast: sourcedNumber,
    yearTold: sourcedNumber,
    yearPlanned: sourcedNumber,
    yearToCalving: sourcedNumber,
  }),
  smallBreeds: z.strictObject({ names: z.array(z.string()), address }),
});

/** Every number that the growth of horn is worked out with, each with its address; `shared/growth.json`. */
export const growthNumbers: z.infer<typeof growthTable> = readShared('growth.json', growthTable);
