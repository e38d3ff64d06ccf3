import { dayInWords } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import type { AuditFacts } from './facts/audit-facts.js';
import { rulesInWords, type ColumnName, type SealedTable, columnMeaning, csvHeads } from './table/column.js';

/** What the files of a pack are, and what each column means: plain text beside the CSV files. */
export function dictionaryText(words: Words, facts: AuditFacts, tables: readonly SealedTable[]): string {
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
  const means = columnMeaning(words, table, column.name);
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
