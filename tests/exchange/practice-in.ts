import { fileURLToPath } from 'node:url';
import { readPractice } from '../../src/casefile/read-practice.js';
import type { Practice } from '../../src/record/practice.js';
import { filesUnder } from '../casefile/files-under.js';

const project = fileURLToPath(new URL('../../', import.meta.url));

/** A cases folder of this project, read; one with an error fails the test. */
export function practiceIn(folder: string, today = '2026-11-25'): Practice {
  const { practice, problems } = readPractice(filesUnder(`${project}${folder}`), 'cases', { today });
  const errors = problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new Error(JSON.stringify(errors, null, 2));
  return practice;
}
