import { dayInWords } from '../words/day-and-place.js';
import { type Words, wordsOf } from '../reference/words.js';
import { type AuditFacts, type AuditKnown, auditOfFarm } from './facts/audit-facts.js';
import {
  rulesInWords,
  type ColumnName,
  type SealedTable,
  columnWords,
  csvHeads,
  csvTable,
} from './table/column.js';
import type { Period } from '../record/period.js';
import type { FarmRecord } from '../record/practice.js';
import type { MissingGrade } from '../schedule/missing-on-farm.js';
import { composeAudit, type AuditPage } from './compose-audit.js';
import { countByGrade, missingInPack } from './missing/missing-in-pack.js';
import { tablesOfPack } from './tables/tables-of-pack.js';
import { pageStyle } from '../book/book-style.js';
import { renderPage } from '../book/render-page.js';

/** What the files of a pack are, and what each column means: plain text beside the CSV files. */
function dictionaryText(words: Words, facts: AuditFacts, tables: readonly SealedTable[]): string {
  const { farm, period, today } = facts;
  const lines = [
    words.say('audit.dictionary.heading', {
      farm: farm.farm.farm,
      from: dayInWords(words, period.from),
      to: dayInWords(words, period.to),
      day: dayInWords(words, today),
    }),
    '',
    words.say('audit.dictionary.what'),
    words.say('audit.dictionary.form'),
    words.say(facts.seals.head ? 'audit.about.2' : 'audit.sealed-lead.none'),
    '',
    ...tables.flatMap((table) => [
      `${table.name}.csv (${words.say('audit.dictionary.rows', { count: table.rowCount })}): ${words.say(`audit.table.${table.name}.caption`)}`,
      ...table.columns.flatMap((column) => columnLines(words, table.name, column)),
      '',
    ]),
    words.say('audit.dictionary.rules'),
    ...rulesInWords(words, facts).map((rule) => `- ${rule}`),
  ];
  return lines.map((line) => `${line}\r\n`).join('');
}

function columnLines(words: Words, table: string, column: ColumnName): string[] {
  const [name, of, percent] = csvHeads(column);
  const means = columnWords(words, 'means', table, column.name);
  return [
    `  ${name}: ${of === undefined ? means : words.say('audit.dictionary.share', { means, of, percent: percent! })}`,
    ...(column.words === undefined ? [] : wordLines(words, column.words)),
  ];
}

/** A closed word as the CSV has it, then as the page says it. */
function wordLines(words: Words, list: string): string[] {
  return words.keys
    .filter((key) => key.startsWith(`${list}.`))
    .map((key) => [key.slice(list.length + 1), words.template(key)] as const)
    .map(([word, said]) => `    ${word}${word === said ? '' : ` = ${said}`}`);
}

/** One farm's audit pack. */
export interface AuditFiles {
  /** Name → text: `audit.html`, a CSV file a table, `dictionary.txt`. The same input gives the same bytes. */
  readonly files: Readonly<Record<string, string>>;
  readonly runs: number;
  readonly visits: number;
  readonly gaps: Readonly<Record<MissingGrade, number>>;
}

/**
 * The files of one farm's audit pack for a period, as known on a day.
 *
 * Shape:   farm, period, what is known beside them → texts by name, nothing written
 * Checked: tests/audit
 */
export function auditFiles(farm: FarmRecord, period: Period, known: AuditKnown): AuditFiles {
  const words = wordsOf(farm.farm.language ?? known.business.language ?? 'en-GB');
  const facts = auditOfFarm(farm, period, known);
  const missing = missingInPack(facts);
  const tables = tablesOfPack(facts, missing);
  return {
    files: {
      'audit.html': renderAudit(composeAudit(words, facts, missing, tables)),
      ...Object.fromEntries(tables.map((table) => [`${table.name}.csv`, csvTable(words, table)])),
      'dictionary.txt': dictionaryText(words, facts, tables),
    },
    runs: facts.runs.length,
    visits: facts.visits.length,
    gaps: countByGrade(missing),
  };
}

/** A pack's page data as one self-contained HTML file: no script, nothing asked for from outside. */
function renderAudit(page: AuditPage): string {
  // Tables as wide as these are on the sheet's long side.
  const style = `${pageStyle(page, 'audit.css')}\n@page{size:${page.paper} landscape;margin:13mm 14mm 15mm}`;
  return renderPage('audit.njk', page, style);
}
