import type { TableSection, TextList, Fact, Cell, DataTable } from '../book/page-parts.js';
import type { CoveredPage } from '../book/layout-css.js';
import { fact } from '../book/animal-page-data.js';
import { withHead } from '../book/seals/corrections-table.js';
import { cowsOn } from '../herd/cow-years.js';
import { shortHead } from '../ledger/read-ledger.js';
import { dayInWords } from '../words/day-and-place.js';
import { shareInWords } from '../words/percent.js';
import { told, untold, type Words } from '../reference/words.js';
import type { AuditFacts } from './facts/audit-facts.js';
import { countByGrade, type MissingInPack } from './missing/missing-in-pack.js';
import {
  rulesInWords,
  type SealedTable,
  type CellValue,
  type ColumnName,
  columnWords,
} from './table/column.js';
import { scalesInWords } from './tables/animals.js';

/** A farm's pack as page data: every string worded, every number formatted. */
export interface AuditPage extends CoveredPage {
  readonly about: readonly string[];
  readonly contents: {
    readonly heading: string;
    readonly lines: readonly { readonly href: string; readonly text: string }[];
  };
  readonly sections: readonly TableSection[];
  readonly rules: TextList;
}

/** A value as the page says it, a line each. */
function cellInWords(
  words: Words,
  column: Pick<ColumnName, 'words' | 'whole'>,
  cell: CellValue,
): readonly string[] {
  if (cell === undefined) return [];
  switch (cell.kind) {
    case 'lines':
      return cell.value;
    case 'day':
      return [unbroken(dayInWords(words, cell.value))];
    case 'share': {
      const { count, of, animals } = cell.value;
      return [words.semicolons(shareInWords(words, count, of, animals).map(unbroken))];
    }
    case 'word':
      return [words.say(`${column.words}.${cell.value}`)];
    case 'number':
      return [String(cell.value)];
    case 'text':
      return [column.whole && untold(cell.value).length <= longestWhole ? unbroken(cell.value) : cell.value];
  }
}

/** A longer text is broken all the same: it would push its column past the sheet. */
const longestWhole = 24;

/** A day, a share or its bounds are not torn apart at a line's end. */
function unbroken(text: string): string {
  return text.replaceAll(' ', '\u00a0');
}

/** A table of the pack as the page shows it: columns that are below another share its cell. */
function pageTable(words: Words, table: SealedTable): DataTable {
  const groups = grouped(table.columns);
  return {
    id: `${table.name}-table`,
    caption: words.say(`audit.table.${table.name}.caption`),
    columns: groups.map(([main]) => ({
      head: columnWords(words, 'head', table.name, main.column.name),
      number: main.column.kind === 'number',
    })),
    rows: table.values(words).map((values) => ({
      cells: groups.map((group) => cellOf(words, table.name, group, values)),
    })),
  };
}

interface Placed {
  readonly column: ColumnName;
  /** Position among the table's columns. */
  readonly at: number;
}
type Group = readonly [Placed, ...Placed[]];

function grouped(columns: readonly ColumnName[]): Group[] {
  const groups: [Placed, ...Placed[]][] = [];
  for (const [at, column] of columns.entries()) {
    if (column.csvOnly) continue;
    const last = groups.at(-1);
    if (column.beneath && last) last.push({ column, at });
    else groups.push([{ column, at }]);
  }
  return groups;
}

function cellOf(words: Words, table: string, [main, ...beneath]: Group, values: readonly CellValue[]): Cell {
  const value = values[main.at];
  const [text = main.column.blank ? '' : '–', ...more] = cellInWords(words, main.column, value);
  const under = beneath.map(({ column, at }) => ({ column, said: cellInWords(words, column, values[at]) }));
  const items = under
    .filter(({ column, said }) => said.length > 0 && !column.unlabelled)
    .map(({ column, said }) => ({
      lead: columnWords(words, 'head', table, column.name),
      text: words.semicolons(said),
    }));
  const lines = [...more, ...under.flatMap(({ column, said }) => (column.unlabelled ? said : []))];
  const isStrong = value?.kind === 'word' && main.column.strongWhen?.includes(value.value);
  const isNothing = value === undefined && items.length + lines.length === 0;
  return {
    text,
    ...(isStrong ? { strong: true } : {}),
    ...(isNothing ? { nothing: true } : {}),
    ...(lines.length > 0 ? { lines } : {}),
    ...(items.length > 0 ? { items } : {}),
  };
}

/**
 * A farm's pack as page data, of the tables the CSV files are made of.
 *
 * Checked: tests/audit/page-and-csv.test.ts
 */
export function composeAudit(
  words: Words,
  facts: AuditFacts,
  missing: readonly MissingInPack[],
  tables: readonly SealedTable[],
): AuditPage {
  const { farm, business, period, today } = facts;
  const values = {
    farm: told(farm.farm.farm),
    from: dayInWords(words, period.from),
    to: dayInWords(words, period.to),
    day: dayInWords(words, today),
  };
  const sections = tables.map((table) => sectionOf(words, facts, missing, table));
  const isEmpty = facts.runs.length + facts.visits.length + facts.rounds.length === 0;
  const rules = words.say('audit.rules.heading');
  return {
    language: words.language,
    paper: farm.farm.paper ?? 'A4',
    title: words.say('audit.title', values),
    running: withHead(words, words.say('audit.running', values), facts.seals),
    pageWord: words.say('book.page'),
    skip: words.say('audit.skip'),
    kicker: words.say('audit.kicker'),
    heading: told(farm.farm.farm),
    by: words.semicolons([business.business, business.trimmer, business.phone].map(told)),
    facts: headFacts(words, facts, missing),
    about: [
      ...(isEmpty ? [words.say('audit.about.empty')] : []),
      words.say('audit.about.1'),
      words.say('audit.about.2'),
      sealedSentence(words, facts),
    ],
    contents: {
      heading: words.say('audit.contents'),
      lines: [
        ...sections.map(({ id, heading, table }) => ({
          href: `#${id}`,
          text: words.say('audit.table-count', { heading, count: table?.rows.length ?? 0 }),
        })),
        { href: '#rules', text: rules },
      ],
    },
    sections,
    rules: { heading: rules, items: rulesInWords(words, facts) },
  };
}

function headFacts(words: Words, facts: AuditFacts, missing: readonly MissingInPack[]): Fact[] {
  const { farm, period, today, runs, visits } = facts;
  const { holding, address, vet } = farm.farm;
  const said = {
    from: dayInWords(words, period.from),
    to: dayInWords(words, period.to),
    day: dayInWords(words, today),
  };
  const cows = cowsOn(farm.farm, period.to < today ? period.to : today);
  return [
    { label: words.say('audit.fact.period'), value: words.say('audit.fact.period-value', said) },
    {
      label: words.say('audit.fact.day'),
      value: words.say(`audit.fact.day-${period.to > today ? 'running' : 'value'}`, said),
    },
    ...fact(words, 'audit.fact.holding', told(holding)),
    ...fact(words, 'audit.fact.address', told(address)),
    ...fact(words, 'audit.fact.vet', words.semicolons([vet?.practice, vet?.name, vet?.phone].map(told))),
    ...fact(
      words,
      'audit.fact.herd',
      cows === undefined ? undefined : words.say('audit.fact.herd-value', { count: cows }),
    ),
    {
      label: words.say('audit.fact.held'),
      value: words.say('audit.fact.held-value', {
        runs: words.say('audit.fact.runs', { count: runs.length }),
        visits: words.say('audit.fact.visits', { count: visits.length }),
      }),
    },
    { label: words.say('audit.fact.missing'), value: words.say('audit.fact.missing-value', graded(missing)) },
  ];
}

function graded(missing: readonly MissingInPack[]) {
  const { 'worth closing': worth, ...others } = countByGrade(missing);
  return { worth, ...others };
}

/** What the seals can prove, said plainly where they prove nothing. */
function sealedSentence(words: Words, { seals: { head } }: AuditFacts): string {
  return head
    ? words.say('audit.sealed-lead.head', { entries: head.entries, head: shortHead(head) })
    : words.say('audit.sealed-lead.none');
}

const scored = new Set(['gait-rounds', 'lame-animals', 'visits']);

function sectionOf(
  words: Words,
  facts: AuditFacts,
  missing: readonly MissingInPack[],
  table: SealedTable,
): TableSection {
  const section = { id: table.name, heading: words.say(`audit.table.${table.name}.heading`) };
  const seals = ['written-late', 'witness'].includes(table.name) && !facts.seals.head;
  if (table.rowCount === 0)
    return {
      ...section,
      lead: [seals ? words.say('audit.sealed-lead.none') : words.say(`audit.table.${table.name}.none`)],
    };
  const lead = `audit.table.${table.name}.lead`;
  const scales = scored.has(table.name) ? scalesInWords(words, facts) : undefined;
  return {
    ...section,
    lead: [
      ...(words.has(lead) ? [words.say(lead)] : []),
      ...(scales === undefined ? [] : [scales]),
      ...(table.name === 'gaps' ? [words.say('audit.missing-lead', graded(missing))] : []),
    ],
    table: pageTable(words, table),
  };
}
