import type { Period } from '../record/period.js';
import type { FarmRecord } from '../record/practice.js';
import type { GapGrade } from '../schedule/gap.js';
import { wordsOf } from '../words/words.js';
import { composeAudit } from './compose-audit.js';
import { dictionaryText } from './dictionary.js';
import { type AuditKnown, auditOfFarm } from './facts/audit-of-farm.js';
import { gapsInPack, gradeOf } from './gaps/gaps-in-pack.js';
import { renderAudit } from './render-audit.js';
import { csvTable } from './table/csv-table.js';
import { tablesOfPack } from './tables/tables-of-pack.js';

/** One farm's audit pack. */
export interface AuditFiles {
  /** Name → text: `audit.html`, a CSV file a table, `dictionary.txt`. The same input gives the same bytes. */
  readonly files: Readonly<Record<string, string>>;
  readonly runs: number;
  readonly visits: number;
  readonly gaps: Readonly<Record<GapGrade, number>>;
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
  const gaps = gapsInPack(facts);
  const tables = tablesOfPack(facts, gaps);
  const count = (grade: GapGrade) => gaps.filter((gap) => gradeOf(gap) === grade).length;
  return {
    files: {
      'audit.html': renderAudit(composeAudit(words, facts, gaps, tables)),
      ...Object.fromEntries(tables.map((table) => [`${table.name}.csv`, csvTable(words, table)])),
      'dictionary.txt': dictionaryText(words, facts, tables),
    },
    runs: facts.runs.length,
    visits: facts.visits.length,
    gaps: {
      serious: count('serious'),
      'worth closing': count('worth closing'),
      minor: count('minor'),
    },
  };
}
