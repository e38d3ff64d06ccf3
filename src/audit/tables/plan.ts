import { daysBetween } from '../../record/calendar-day.js';
import type { Farm } from '../../record/farm.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import { sealed, type SealedTable } from '../table/column.js';

/** The written foot-health plan on file; no row without one. */
export function planTable({ farm, period }: AuditFacts): SealedTable {
  const { plan } = farm.farm;
  return sealed<NonNullable<Farm['plan']>>({
    name: 'plan',
    rows: plan ? [plan] : [],
    columns: [
      { name: 'date', kind: 'day', of: ({ date }) => date },
      { name: 'agreed_with', kind: 'text', of: (one) => one.with },
      { name: 'file', kind: 'text', of: ({ file }) => file },
      {
        name: 'days_before_period_end',
        kind: 'number',
        of: ({ date }) => (date <= period.to ? daysBetween(date, period.to) : undefined),
      },
    ],
  });
}
