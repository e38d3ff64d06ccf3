import type { Gap } from '../../schedule/gap.js';
import type { GapContext } from '../../schedule/gaps/gap-context.js';
import { missedGaps, painReliefGaps, vetGaps } from '../../schedule/gaps/visit-gaps.js';
import { intervalsInForce } from '../../schedule/interval-in-force.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import type { RunInPeriod } from '../facts/run-in-period.js';
import type { GapInPack } from './audit-gap.js';

/**
 * The gaps the book lists for each case, as far as they belong to the period; and of runs that have ended, which the
 * book no longer lists, those an auditor still asks for: pain relief, the vet's answer, why she was not presented.
 *
 * The rule: a gap belongs where its visit is of a run that belongs, a product's where its days reach into the period, and
 * none that came up after the period's last day. A recheck passed is left out here: the pack has each missed recheck.
 */
export function caseGaps(facts: AuditFacts): GapInPack[] {
  const { runs, worked, period } = facts;
  return worked.flatMap((work) => {
    const hers = runs.filter((run) => run.work === work);
    const ended = hers.filter(({ episode }) => episode.ended !== undefined);
    const used = facts.medicines.filter(({ record }) => record === work.record);
    const belongs = ({ id, path: [, visit, , at], since }: Gap): boolean => {
      if (id === 'gap/recheck-passed' || (since !== undefined && since > period.to)) return false;
      if (id.startsWith('gap/product-')) return used.some((use) => use.visit === visit && use.at === at);
      return hers.some(
        ({ visits }) => typeof visit !== 'number' || visits.some(([place]) => place === visit),
      );
    };
    return [...work.gaps, ...ended.flatMap((run) => gapsOfEnded(facts, run))]
      .filter(belongs)
      .map((ofCase) => ({ ofCase, record: work.record }));
  });
}

function gapsOfEnded({ farm: { farm }, business, today }: AuditFacts, run: RunInPeriod): Gap[] {
  const { standing, record } = run.work;
  const context: GapContext = {
    animal: record.animal,
    farm,
    standing: { ...standing, gait: { ...standing.gait, scores: run.scores } },
    interval: intervalsInForce(farm, business),
    open: run.visits,
    today,
  };
  return [...painReliefGaps(context), ...vetGaps(context), ...missedGaps(context)];
}
