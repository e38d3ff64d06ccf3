import type { Tool } from '../record/words.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { healingNumbers } from '../reference/healing-numbers.js';
import { readingSd } from '../reference/reading-sd.js';

/**
 * SD of one reading of a width, by its tool; another person than the first reader adds his own.
 *
 * Unit:    mm
 * Source:  shared/growth.json, `reading`
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function readingErrorMm(widthMm: number, tool: Tool | undefined, otherReader: boolean): number {
  const byTool = readingSd(tool, widthMm);
  return otherReader ? Math.hypot(byTool, growthNumbers.reading.otherReader.value) : byTool;
}

/** The smallest change that two readings can tell apart, mm, from the SD of each. */
export function tellsApartMm(sigmaMm: number, otherSigmaMm: number): number {
  return healingNumbers.tellApart.value * Math.hypot(sigmaMm, otherSigmaMm);
}
