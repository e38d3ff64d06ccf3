import type { GaitScore, GaitStanding } from '../healing/standing.js';
import { fixedDays } from '../reference/intervals.js';
import { gaitScale } from '../reference/scales.js';
import { dayInWords } from './day-in-words.js';
import { placeInWords } from './lesion-in-words.js';
import { paragraph } from './number-in-words.js';
import type { Values, Words } from './words.js';
import { given } from '../record/given.js';

/**
 * How she walks, in one or two sentences. On the block is told apart from off it, and nothing on it is called better
 * than easier.
 *
 * Checked: tests/words/situations.test.ts
 */
export function gaitSentence(words: Words, gait: GaitStanding): string {
  return paragraph(
    words.say(`gait.sentence.${variantOf(gait)}`, valuesOf(words, gait)),
    gait.standing === 'easier-on-block' && gait.blockNow === 'off'
      ? words.say('gait.no-longer-on')
      : undefined,
    gait.otherFoot ? words.say('gait.other-foot', { foot: placeInWords(words, gait.otherFoot) }) : undefined,
  );
}

/** The same as a clause for a list. Such as: lame off the block (2 on 2 June 2026). */
export function gaitInShort(words: Words, gait: GaitStanding): string {
  const variant = variantOf(gait).replace(/^(not-lame-not-proved\.too-soon).*$/, '$1');
  return words.say(`gait.short.${variant}`, valuesOf(words, gait));
}

function variantOf({ standing, last, daysOffBlock, blockNow }: GaitStanding): string {
  switch (standing) {
    case 'sound':
      return daysOffBlock === undefined ? 'sound.no-block' : 'sound.off-block';
    case 'lame-off-block':
      return daysOffBlock === undefined ? 'lame-off-block.no-block' : 'lame-off-block.off-block';
    case 'not-lame-not-proved':
      if (last?.block === 'on') return `${standing}.on-block`;
      if (last?.block === 'unclear') return `${standing}.unclear`;
      if (daysOffBlock === undefined || daysOffBlock >= fixedDays('off-block-counts') || blockNow === 'on')
        return `${standing}.block-since`;
      return daysOffBlock === 0 ? `${standing}.too-soon.0` : `${standing}.too-soon`;
    default:
      return standing;
  }
}

function valuesOf(words: Words, { last, lastOffBlock, daysOffBlock }: GaitStanding): Values {
  if (!last) return {};
  const tooSoon = daysOffBlock !== undefined && daysOffBlock > 0 ? { count: daysOffBlock } : {};
  return {
    word: words.say(`gait.word.${gaitScale[last.scale].word}`),
    score: last.score,
    day: dayInWords(words, last.date),
    lame: lameInWords(words, last),
    counts: fixedDays('off-block-counts'),
    ...given({ days: daysOffBlock }),
    ...tooSoon,
    ...(lastOffBlock ? { off: lastOffBlock.score, offDay: dayInWords(words, lastOffBlock.date) } : {}),
  };
}

/** @example lameInWords(words, { severe: true }) // → 'severely lame' */
export function lameInWords(words: Words, { severe }: Pick<GaitScore, 'severe'>): string {
  return words.say(severe ? 'gait.severe' : 'gait.lame');
}
