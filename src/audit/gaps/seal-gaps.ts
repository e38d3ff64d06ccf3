import { largest } from '../../statistics/extremes.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import { entriesWitnessed } from '../facts/outside-witness.js';
import { fixedDays } from '../../reference/intervals.js';
import type { AuditGap } from './audit-gap.js';

/** Gaps of the seals: nothing sealed, some not sealed, some written late, and no mail that bears witness to them. */
export function sealGaps({ seals, sealed, witnesses, period }: AuditFacts): AuditGap[] {
  const since = period.from;
  if (!seals.head)
    return [{ id: 'not-sealed', grade: 'worth closing', closable: 'in-the-record', since, values: {} }];
  const late = sealed.filter(({ isLate }) => isLate);
  const unsealed = sealed.filter(({ firstSealed }) => firstSealed === undefined);
  const inLedger = sealed.flatMap(({ seal }) => seal.sealed?.first.number ?? []);
  const last = largest(inLedger, 0);
  const witnessed = largest(
    witnesses.map((one) => entriesWitnessed(seals, one) ?? 0),
    0,
  );
  const lost = witnesses.filter((one) => entriesWitnessed(seals, one) === undefined);
  return [
    ...gap('head-lost', 'serious', 'no-longer', lost.length > 0, {
      list: lost.map(({ day }) => day),
    }),
    ...gap('unsealed', 'worth closing', 'in-the-record', unsealed.length > 0, {
      count: unsealed.length,
      of: sealed.length,
    }),
    ...gap('written-late', 'worth closing', 'no-longer', late.length > 0, {
      count: late.length,
      of: sealed.length - unsealed.length,
      days: fixedDays('written-late'),
    }),
    ...gap('no-witness', 'minor', 'in-the-record', inLedger.length > 0 && witnessed < last, {}),
  ];

  function gap(
    id: AuditGap['id'],
    grade: AuditGap['grade'],
    closable: AuditGap['closable'],
    holds: boolean,
    values: AuditGap['values'],
  ): AuditGap[] {
    return holds ? [{ id, grade, closable, since, values }] : [];
  }
}
