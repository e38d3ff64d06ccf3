import { readFileSync, writeFileSync } from 'node:fs';
import { format } from 'prettier';
import type { StudyResults } from '../../src/reference/study-results.js';
import { studyInTables } from './study-in-tables.js';

const guide = new URL('../../DEVELOPERS.md', import.meta.url);
const [begin, end] = ['<!-- study: written by `npm run study` -->', '<!-- end of study -->'];

/** The study's tables as the guide should show them, formatted as all of the guide is. */
export async function guideTables(study: StudyResults): Promise<string> {
  return (await format(studyInTables(study), { parser: 'markdown' })).trim();
}

/** What stands in the guide between the marks. */
export function tablesInGuide(): string {
  const [, after = ''] = readFileSync(guide, 'utf8').split(begin);
  return after.split(end)[0]!.trim();
}

/** Puts the study's tables into the guide, all else as it was. */
export async function writeGuideTables(study: StudyResults): Promise<void> {
  const text = readFileSync(guide, 'utf8');
  const [before, after] = [text.indexOf(begin) + begin.length, text.indexOf(end)];
  writeFileSync(guide, `${text.slice(0, before)}\n\n${await guideTables(study)}\n\n${text.slice(after)}`);
}
