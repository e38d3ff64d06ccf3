import { dayInWords } from '../words/day-in-words.js';
import type { HandoverOf } from './handover-of.js';
import type { HandoverPage } from './handover-page.js';
import { cutName } from './left-out.js';

/** Room for the vet's answer, how to send it, and how it gets into her record. */
export function replyPart(of: HandoverOf): HandoverPage['reply'] {
  const { words, business, farm, work, today, leftOut } = of;
  const say = (key: string, values = {}) => words.say(`handover.reply.${key}`, values);
  const address = business['reply-to'] ?? business.email;
  const ways = [
    ...(address ? [say('mail', { address: cutName(leftOut, address) })] : []),
    ...(business.phone ? [say('phone', { phone: cutName(leftOut, business.phone) })] : []),
  ];
  const [one, other] = ways;
  const asked = openQuestion(of);
  const note = say(asked === undefined ? 'note-asked' : 'note-to', {
    farm: cutName(leftOut, farm.farm.farm),
    day: today,
    animal: cutName(leftOut, work.record.animal.animal),
    trimmer: business.trimmer ? cutName(leftOut, business.trimmer) : say('your-name'),
    asked: asked ?? '',
  });
  return {
    heading: say('heading'),
    lead:
      one === undefined
        ? say('lead-no-ways')
        : say('lead', { ways: other === undefined ? one : say('or', { one, other }) }),
    mail: say('mail-lead'),
    blanks: [say('seen'), say('by'), say('again')],
    how: say('how', { command: 'growdown take', note }),
  };
}

/** The latest question in her record that has no answer, by the day it was asked. */
function openQuestion({ work, today }: HandoverOf): string | undefined {
  const visits = work.record.animal.visits.filter(({ date }) => date <= today);
  const answered = new Set(visits.flatMap((visit) => visit['vet-answer']?.to ?? []));
  return visits.flatMap(({ vet }) => (vet && !answered.has(vet.asked) ? [vet.asked] : [])).at(-1);
}

/** That this is a copy of a day, and no diagnosis. */
export function footSentence({ words, today }: Pick<HandoverOf, 'words' | 'today'>): string {
  return words.say('handover.foot', { day: dayInWords(words, today) });
}
