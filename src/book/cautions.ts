import { blockTimeline } from '../healing/block-timeline.js';
import { type FixtureSpan, wrapTimeline } from '../healing/fixture-span.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { given } from '../record/given.js';
import { fixedDays } from '../reference/intervals.js';
import type { CaseWork } from '../schedule/case-work.js';
import { calvingForbidsTravel } from '../schedule/calving.js';
import { isWithheld, mayBePainRelief, sides, usesOf } from '../schedule/withheld.js';
import { calvingInWords, blockQuestionInWords, withheldInWords } from '../words/compose-withheld.js';
import { dayInWords, placeInWords, sentenceCase } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import type { ActionBox, PlacedCase } from './animal-page-data.js';

/**
 * What the blocks leave in doubt, and the standing cautions that matter for her as she is now; of a closed case only what
 * bears on milk, meat and slaughter, and none of one that has left.
 *
 * Checked: tests/book/cautions.test.ts
 */
export function composeCautions(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay): string[] {
  const { standing, due, record, calvingNear } = one;
  const say = (...keys: string[]) => keys.map((key) => words.say(`caution.${key}`)).join(' ');
  const travel = travelCautions(one, today);
  const onTravel = travel.length > 0 ? [say(...travel, 'travel-ask')] : [];
  if (one.left) return [];
  if (standing.closed) return onTravel;
  const bathes = (farm.footbath ?? []).length > 0;
  const { questions } = blockTimeline(record.animal, today);
  return [
    ...(calvingNear ? [calvingInWords(words, calvingNear)] : []),
    ...questions.map((question) => blockQuestionInWords(words, question)),
    ...(bathes && due.some((item) => item.what === 'footbath-ask-vet') ? [say('bath-corium')] : []),
    ...onTravel,
  ];
}

/** Why she does not travel: lame, on a block or relieved of pain; near calving; under withdrawal to slaughter. */
function travelCautions({ standing, record: { animal }, withheld }: CaseWork, today: CalendarDay): string[] {
  const { gait, closed } = standing;
  const relief = [
    ...usesOf(animal, today).flatMap(({ use, last }) => (mayBePainRelief(use) ? [last] : [])),
    ...animal.visits.flatMap((visit) => (visit['pain-relief'] === 'given' ? [visit.date] : [])),
  ];
  const isRelieved = relief.some(
    (day) => day <= today && daysBetween(day, today) < fixedDays('pain-relief-acts'),
  );
  const isLame = !closed && gait.last?.lame === true;
  return [
    ...(isLame ? ['travel-fit'] : []),
    ...(isLame || isRelieved || gait.blockNow === 'on' ? ['travel-block'] : []),
    ...(calvingForbidsTravel(animal, today) ? ['travel-calving'] : []),
    ...(isWithheld(withheld) ? ['travel-withdrawal'] : []),
  ];
}

/** She left while milk or meat was withheld, or may have been: when, what was withheld then, what was still on her feet. */
export function leftBanner(
  words: Words,
  { left, record: { animal } }: CaseWork,
  today: CalendarDay,
): ActionBox | undefined {
  if (!left) return undefined;
  const { on, told, grade, result } = left;
  const fitted = (what: 'block' | 'wrap', spans: readonly FixtureSpan[]) =>
    spans
      .filter(({ end }) => !end)
      .map(({ foot, claw }) => ({
        text: words.say(`book.left.${what}`, { place: placeInWords(words, foot, claw) }),
      }));
  const text = words.say(`book.left.${grade === 'serious' && result === 'culled' ? 'culled' : grade}`, {
    result: sentenceCase(words.say(`vocabulary.result.${result}`)),
    day: dayInWords(words, on),
    ...given({ told: told && dayInWords(words, told) }),
  });
  return {
    heading: words.say('book.left.heading'),
    items: [
      { text },
      ...sides.flatMap((side) => {
        const held = withheldInWords(words, left[side], side, today);
        const lead = words.say(`jobs.withheld.${side}`);
        return held.isHeld ? [{ lead, text: [held.text, ...(held.note ? [held.note] : [])].join('. ') }] : [];
      }),
      ...fitted('block', blockTimeline(animal, on).spans),
      ...fitted('wrap', wrapTimeline(animal, on)),
    ],
  };
}
