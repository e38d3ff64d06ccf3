import { gapsOfFarm } from '../../schedule/gaps-of-farm.js';
import type { GapGrade } from '../../schedule/gap.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import type { GapInPack } from './audit-gap.js';
import { caseGaps } from './case-gaps.js';
import { farmGaps } from './farm-gaps.js';
import { recordGaps } from './record-gaps.js';
import { sealGaps } from './seal-gaps.js';
import { runGaps } from './run-gaps.js';

const order: readonly GapGrade[] = ['serious', 'worth closing', 'minor'];

/** What the records of the period do not hold and an audit asks for: serious first, the farm's before the animals', then by day. */
export function gapsInPack(facts: AuditFacts): GapInPack[] {
  const { farm, period, today } = facts;
  const ownFarm = gapsOfFarm(farm, today)
    .filter(({ since = '' }) => since <= period.to)
    .map((ofCase): GapInPack => ({ ofCase, record: undefined }));
  const own = [...farmGaps(facts), ...runGaps(facts), ...recordGaps(facts), ...sealGaps(facts)]
    .filter(({ since = '', id }) => since <= period.to || id === 'plan-later' || id === 'training-run-out')
    .map((gap): GapInPack => ({ own: gap }));
  return [...ownFarm, ...own, ...caseGaps(facts)].sort(
    (a, b) => order.indexOf(gradeOf(a)) - order.indexOf(gradeOf(b)) || compare(animalOf(a), animalOf(b)),
  );
}

/** How much a gap of the pack costs. */
export function gradeOf(gap: GapInPack): GapGrade {
  return 'own' in gap ? gap.own.grade : gap.ofCase.grade;
}

function animalOf(gap: GapInPack): string {
  return ('own' in gap ? gap.own.record : gap.record)?.slug ?? '';
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
