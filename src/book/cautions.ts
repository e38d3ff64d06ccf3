import { blockTimeline } from '../healing/block-timeline.js';
import { openHornLesionsOn } from '../healing/open-horn-lesions.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { calvingInWords } from '../words/compose-calving.js';
import { blockQuestionInWords } from '../words/compose-block-question.js';
import type { Words } from '../words/words.js';
import type { PlacedCase } from './placed-case.js';

const withheld = new Set(['milk-clear', 'meat-clear', 'withdrawal-not-recorded']);

/** What the blocks leave in doubt, and the standing cautions that matter for her as she is now; none for a closed case. */
export function composeCautions(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay): string[] {
  const { standing, due, notices, record, calvingNear } = one;
  if (standing.closed) return [];
  const say = (...keys: string[]) => keys.map((key) => words.say(`caution.${key}`)).join(' ');
  const isOpen = openHornLesionsOn(record.animal, today).length > 0;
  const isHeld = due.some((item) => withheld.has(item.what) && item.standing !== 'done');
  const { gait } = standing;
  const bathes = (farm.footbath ?? []).length > 0;
  const { questions } = blockTimeline(record.animal, today);
  return [
    ...(calvingNear ? [calvingInWords(words, calvingNear)] : []),
    ...questions.map((question) => blockQuestionInWords(words, question)),
    ...(isOpen || notices.some((notice) => notice.standing) ? [say('live-tissue', 'vet-only')] : []),
    ...(gait.last?.block === 'on' || gait.blockNow === 'on' ? [say('block-walk')] : []),
    ...(bathes && due.some((item) => item.what === 'footbath-ask-vet') ? [say('bath-corium')] : []),
    ...(isHeld ? [say('withdrawal', 'register')] : []),
    ...(gait.last?.lame || isHeld
      ? [say('travel-fit', 'travel-block', ...(isHeld ? ['travel-withdrawal'] : []), 'travel-ask')]
      : []),
  ];
}
