import type { Found } from '../record/found.js';
import type { LesionCode } from '../record/words.js';
import { wallGapKeys } from '../reference/finding-keys.js';
import { lesionKinds, measures } from '../reference/lesions.js';

const markKeys: ReadonlySet<string> = new Set([
  'distance',
  'tool',
  'lifted',
  'note',
] satisfies (keyof Found)[]);

/**
 * Whether a key of `found` has its place on a lesion of this code, as the checks of the reader hold it; without a code,
 * on some lesion.
 *
 * Checked: tests/form/fits-finding.test.ts, against those checks
 */
export function fitsLesion(key: string, code: LesionCode | undefined): boolean {
  if (key === 'distance') return false;
  if (code === undefined) return true;
  const { family, measures: measured } = lesionKinds[code];
  const measure = measures.find((one) => one === key);
  if (measure) return measured.has(measure);
  if (key === 'tool') return measured.size > 0;
  if (key === 'infected') return family !== 'dermatitis';
  return !wallGapKeys.has(key) || family === 'wall';
}

/** The same for a growth mark. */
export function fitsMark(key: string): boolean {
  return markKeys.has(key);
}
