import type { CaseFiles } from '../../src/casefile/source-text.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { asIf } from '../../src/casefile/as-if.js';
import type { Change, Keeping, Worked } from '../../src/keep/change.js';
import type { FarmRecord } from '../../src/record/practice.js';
import { type InMemory, caseFilesInMemory } from '../casefile/case-files-in-memory.js';
import { animalText, farmText } from '../casefile/generated-cases.js';

export const today = '2026-11-25';

/** Two farms in memory: Quernholt with one cow, Harrowmere with none but what is given. */
export function keepingOf(more: Readonly<Record<string, InMemory>> = {}): Keeping {
  const files = caseFilesInMemory({
    'cases/quernholt/farm.md': farmText,
    'cases/quernholt/2086.md': animalText,
    'cases/harrowmere/farm.md': farmText.replace('Quernholt', 'Harrowmere'),
    ...more,
  });
  return { files, cases: 'cases', today };
}

/** The change; a refusal or a request that cannot be met fails the test with its words. */
export function changeOf(worked: Worked): Change {
  if (worked.outcome !== 'change') throw new Error(JSON.stringify(worked, null, 2));
  return worked.change;
}

export function messageOf(worked: Worked): string {
  if (worked.outcome === 'change') throw new Error(`not refused: ${worked.change.what}`);
  return worked.outcome === 'cannot'
    ? worked.message
    : worked.problems.map(({ id, message }) => `${id}: ${message}`).join('\n');
}

/** The case files as the change leaves them. */
export function after(
  keeping: Keeping,
  worked: Worked,
): Keeping & { readonly text: (path: string) => string } {
  const files: CaseFiles = asIf(keeping.files, changeOf(worked).files);
  return { ...keeping, files, text: (path) => new TextDecoder().decode(files.read(path)) };
}

export function farmIn({ files, cases }: Keeping, slug: string): FarmRecord | undefined {
  return readPractice(files, cases, { today }).practice.farms.find((farm) => farm.slug === slug);
}
