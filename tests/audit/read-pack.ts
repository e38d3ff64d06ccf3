import Papa from 'papaparse';
import { readPractice } from '../../src/casefile/read-practice.js';
import { auditFiles, type AuditFiles } from '../../src/audit/audit-files.js';
import type { OutsideWitness } from '../../src/audit/facts/sealed-in-period.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { readPeriod } from '../../src/record/period.js';
import { caseFilesInMemory, type InMemory } from '../casefile/case-files-in-memory.js';

/** One CSV file as an independent reader gives it: a record a row, by its headings. */
export function rowsOf({ files }: Pick<AuditFiles, 'files'>, table: string): Record<string, string>[] {
  const text = files[`${table}.csv`];
  if (text === undefined) throw new Error(`no ${table}.csv`);
  const { data, errors } = Papa.parse<Record<string, string>>(text.replace(/^\ufeff/, ''), {
    header: true,
    skipEmptyLines: true,
  });
  if (errors.length > 0) throw new Error(`${table}.csv: ${errors[0]!.message}`);
  return data;
}

/** The pack of one farm of some case files. */
export function packOf(
  contents: Readonly<Record<string, InMemory>>,
  farm: string,
  written: string,
  today: string,
  witnesses: readonly OutsideWitness[] = [],
): AuditFiles {
  const reading = readPractice(caseFilesInMemory(contents), 'cases', { today });
  const errors = reading.problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new Error(errors.map(({ file, message }) => `${file}: ${message}`).join('\n'));
  const read = readPeriod(written);
  if ('wrong' in read) throw new Error(read.wrong);
  const { practice } = reading;
  const seals = reading.sealsOf(farm);
  return auditFiles(
    practice.farms.find(({ slug }) => slug === farm)!,
    read.period,
    {
      business: practice.business,
      today,
      priors: pooledOn(practice, today).priors,
      witnesses,
      ...(seals ? { seals } : {}),
    },
  );
}

/** The page's text without its tags, spaces as one. */
export function textOf(html: string): string {
  return html
    .replace(/<style>[^]*?<\/style>/, ' ')
    .replaceAll(/<\/?bdi>/g, '')
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll('&amp;', '&')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll(/[\s\u00a0]+/g, ' ');
}
