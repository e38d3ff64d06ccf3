import type { CaseWork, StopWork } from '../schedule/case-work.js';
import { dayInWords } from './day-in-words.js';
import { paragraph } from './number-in-words.js';
import type { Words } from './words.js';

/** What stands first on everything of a farm where work stands still. */
export interface StopInWords {
  readonly title: string;
  readonly text: string;
}

/**
 * Why work stands still, what stays where it is, how the asking stands and what is suspended.
 *
 * Checked: tests/schedule/stop-work.test.ts
 */
export function stopInWords(words: Words, cases: readonly Pick<CaseWork, 'stop'>[]): StopInWords | undefined {
  const stop = cases.find((one) => one.stop)?.stop;
  if (!stop) return undefined;
  return {
    title: words.say('stop.title'),
    text: paragraph(
      words.say(`stop.why.${stop.rule}`, {
        animals: stop.animals.join(', '),
        day: dayInWords(words, stop.since),
      }),
      words.say('stop.stay'),
      askedInWords(words, stop),
      words.say('stop.suspended', { count: stop.suspended }),
    ),
  };
}

function askedInWords(words: Words, { asked, answered }: StopWork): string {
  if (answered)
    return words.say('stop.answered', {
      day: dayInWords(words, answered.on),
      by: answered.by,
      reply: answered.reply,
    });
  return asked === undefined
    ? words.say('stop.not-asked')
    : words.say('stop.asked', { day: dayInWords(words, asked) });
}
