import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';
import type { Words } from '../../words/words.js';
import type { AuditFacts } from '../facts/audit-facts.js';

/** The scales the pack's scores are of, each with its lame and severe mark; undefined where nothing was scored. */
export function scalesInWords(words: Words, { farm, runs, rounds, visits }: AuditFacts): string | undefined {
  const used = new Set([
    ...runs.flatMap(({ scores }) => scores.map(({ scale }) => scale)),
    ...rounds.flatMap(({ scored }) => scored?.scale ?? []),
    ...visits.flatMap(({ visit }) =>
      visit.gait === undefined ? [] : (gaitScaleOn(farm.farm, visit.date) ?? []),
    ),
  ]);
  if (used.size === 0) return undefined;
  const scales = [...used]
    .sort()
    .map((scale) =>
      words.say('audit.scale-used', {
        scale: words.say(`vocabulary.gait-scale.${scale}`),
        lame: gaitScale[scale].lameFrom,
        severe: gaitScale[scale].severeFrom,
      }),
    )
    .join('; ');
  return words.say('audit.scales-used', { scales });
}
