import type { GaitScore } from '../healing/standing.js';
import type { Words } from '../words/words.js';
import type { PlacedCase } from './placed-case.js';
import { signed, type Change } from './change.js';

/** Her walk at the last two scores. On the block and off it, or on two scales, no change is worked out: they do not compare. */
export function gaitChange(words: Words, one: PlacedCase): Change[] {
  const [before, last] = one.standing.gait.scores.slice(-2);
  if (!before || !last) return [];
  const alike = before.scale === last.scale && before.block === last.block && last.block !== 'unclear';
  return [
    {
      what: words.say('book.changes.gait', { scale: words.say(`vocabulary.gait-scale.${last.scale}`) }),
      before: { date: before.date, said: scoreInWords(words, before) },
      last: { date: last.date, said: scoreInWords(words, last) },
      ...(alike ? { change: signed(last.score - before.score) } : {}),
      readsAs: [
        words.say(`book.changes.${last.severe ? 'severe' : last.lame ? 'lame' : 'not-lame'}`),
        ...(alike ? [] : [words.say('book.changes.do-not-compare')]),
        ...(last.block === 'on' && !last.lame ? [words.say('book.changes.not-counted')] : []),
      ].join('; '),
    },
  ];
}

function scoreInWords(words: Words, score: GaitScore): string {
  return words.say(`book.changes.score-${score.block}`, { score: score.score });
}
