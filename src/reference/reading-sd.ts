import type { Tool } from '../record/words.js';
import { growthNumbers } from './growth-numbers.js';

/**
 * How far a reading may be off, one standard deviation, by the tool it was taken with.
 *
 * Shape:   tool and length → mm; no tool stated counts as a ruler
 * Unit:    mm
 * Source:  shared/growth.json, `reading`
 * Checked: tests/reference/reading-sd.test.ts
 * @example readingSd('calliper', 40) // → 1
 */
export function readingSd(tool: Tool | undefined, lengthMm: number): number {
  const { reading } = growthNumbers;
  if (tool === undefined) return reading.notStated.value;
  if (tool !== 'eye') return reading[tool].value;
  return Math.max(reading.eye.value, reading.eyeShare.value * lengthMm);
}
