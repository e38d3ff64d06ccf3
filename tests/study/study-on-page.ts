import { readFileSync, writeFileSync } from 'node:fs';
import { format } from 'prettier';
import type { StudyResults } from '../../src/reference/study-results.js';
import { studyInTables } from './study-in-tables.js';

const page = new URL('README.md', import.meta.url);
const [begin, end] = ['<!-- study: written by `npm run study` -->', '<!-- end of study -->'];

/** The study's tables as its page should show them, formatted as every page is. */
export async function tablesOf(study: StudyResults): Promise<string> {
  return (await format(studyInTables(study), { parser: 'markdown' })).trim();
}

/** What is on the page between the marks. */
export function tablesOnPage(): string {
  const [, after = ''] = readFileSync(page, 'utf8').split(begin);
  return after.split(end)[0]!.trim();
}

/** Puts the study's tables on the page, all else as it was. */
export async function writeTables(study: StudyResults): Promise<void> {
  const text = readFileSync(page, 'utf8');
  const [before, after] = [text.indexOf(begin) + begin.length, text.indexOf(end)];
  writeFileSync(page, `${text.slice(0, before)}\n\n${await tablesOf(study)}\n\n${text.slice(after)}`);
}
