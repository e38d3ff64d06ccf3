import { boundsInWords } from '../../words/percent.js';
import type { RoundInPeriod } from '../facts/round-in-period.js';
import { sealed, type SealedTable } from '../table/column.js';

/** Whole-herd gait rounds: by whom and with what training, and how many were lame of how many scored. */
export function gaitRoundsTable(rounds: readonly RoundInPeriod[]): SealedTable {
  return sealed<RoundInPeriod>({
    name: 'gait-rounds',
    rows: rounds,
    columns: [
      { name: 'date', kind: 'day', of: ({ round }) => round.date },
      {
        name: 'scale',
        kind: 'word',
        words: 'vocabulary.gait-scale',
        beneath: true,
        of: ({ scored }) => scored?.scale,
      },
      { name: 'scored_by', kind: 'text', of: ({ round }) => round.by },
      {
        name: 'training_standing',
        kind: 'word',
        words: 'audit.training',
        beneath: true,
        of: ({ training }) => training.standing,
      },
      { name: 'training', kind: 'text', beneath: true, of: ({ training }) => training.training },
      { name: 'training_valid_to', kind: 'day', beneath: true, of: ({ training }) => training.validTo },
      {
        name: 'lame',
        kind: 'share',
        of: ({ scored }) => scored && { count: scored.lame, of: scored.cows },
      },
      {
        name: 'lame_range',
        kind: 'text',
        csvOnly: true,
        of: ({ scored }, words) => scored?.range && boundsInWords(words, scored.range),
      },
      {
        name: 'severe',
        kind: 'share',
        beneath: true,
        of: ({ scored }) => scored && { count: scored.severe, of: scored.cows },
      },
      {
        name: 'scored',
        kind: 'share',
        of: ({ scored, herd }) =>
          scored && herd !== undefined ? { count: scored.cows, of: herd } : undefined,
      },
      {
        name: 'cows_by_score',
        kind: 'lines',
        of: ({ round }, words) =>
          Object.entries(round.counts)
            .toSorted(([a], [b]) => Number(a) - Number(b))
            .map(([score, count]) => words.say('audit.by-score', { score, count })),
      },
    ],
  });
}
