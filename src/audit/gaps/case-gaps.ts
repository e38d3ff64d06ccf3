import type { Gap, GapId } from '../../schedule/gap.js';
import type { GapContext } from '../../schedule/gaps/gap-context.js';
import { productGaps, treatedGaps } from '../../schedule/gaps/product-gaps.js';
import { missedGaps, painReliefGaps, vetGaps } from '../../schedule/gaps/visit-gaps.js';
import { intervalsInForce } from '../../schedule/interval-in-force.js';
import { withoutProduct } from '../../schedule/withheld.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import type { RunInPeriod } from '../facts/run-in-period.js';
import type { GapInPack } from './audit-gap.js';

/**
 * The gaps the book lists for each case, as far as they belong to the period; and of runs that have ended, which the
 * book no longer lists, those an auditor still asks for: pain relief, the vet's answer, why she was not presented.
 *
 * The rule: a gap belongs where its visit is of a run that belongs, a product's where its days reach into the period, how
 * she left where that day lies in it, and none that came up after the period's last day. A recheck passed is left out
 * here: the pack has each missed recheck.
 */
export function caseGaps(facts: AuditFacts): GapInPack[] {
  const { farm, runs, worked, period, today } = facts;
  return worked.flatMap((work) => {
    const hers = runs.filter((run) => run.work === work);
    const ended = hers.filter(({ episode }) => episode.ended !== undefined);
    const belongs = ({ id, path: [of, visit], since }: Gap): boolean => {
      if (id === 'gap/recheck-passed' || (since !== undefined && since > period.to)) return false;
      if (of === 'episodes') return since !== undefined && since >= period.from;
      return hers.some(
        ({ visits }) => typeof visit !== 'number' || visits.some(([place]) => place === visit),
      );
    };
    const given = [
      ...productGaps(
        facts.medicines.filter(({ record }) => record === work.record),
        farm.farm,
      ),
      ...treatedGaps(
        withoutProduct(work.record.animal, today).filter(({ day }) => day >= period.from && day <= period.to),
      ),
    ];
    const ofCase = work.gaps.filter(({ id }) => !ofPeriod.has(id));
    return [
      ...[...ofCase, ...ended.flatMap((run) => gapsOfEnded(facts, run))].filter(belongs),
      ...given.filter(({ since = '' }) => since <= period.to),
    ].map((gap) => ({ ofCase: gap, record: work.record }));
  });
}

/** Gaps of what was given: worked out anew of what lies in the period. */
const ofPeriod: ReadonlySet<GapId> = new Set([
  'gap/product-without-batch',
  'gap/product-without-class',
  'gap/product-without-withdrawal',
  'gap/medicine-without-prescriber',
  'gap/treated-without-product',
]);

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
