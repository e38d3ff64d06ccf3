import type { Tool } from '../record/words.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { healingNumbers } from '../reference/healing-numbers.js';

/**
 * SD of one reading of a width, by its tool; another person than the first reader adds his own.
 *
 * Unit:    mm
 * Source:  shared/growth.json, `reading`
 * Checked: tests/healing/ulcer-standing.test.ts
 */
export function readingErrorMm(widthMm: number, tool: Tool | undefined, otherReader: boolean): number {
  const { reading } = growthNumbers;
  const byTool =
    tool === undefined
      ? reading.notStated.value
      : tool === 'eye'
        ? Math.max(reading.eye.value, reading.eyeShare.value * widthMm)
        : reading[tool].value;
  return otherReader ? Math.hypot(byTool, reading.otherReader.value) : byTool;
}

/** The smallest change that two readings can tell apart, mm, from the SD of each. */
export function tellsApartMm(sigmaMm: number, otherSigmaMm: number): number {
  return healingNumbers.tellApart.value * Math.hypot(sigmaMm, otherSigmaMm);
}
