import { blockTimeline } from '../healing/block-timeline.js';
import { wrapTimeline } from '../healing/fixture-span.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { Practice } from '../record/practice.js';
import { urgencies, urgencyOf, type NoticeRuleId } from '../reference/notices.js';
import { standingWords } from '../reference/standing-words.js';
import { dayInWords, placeInWords } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import type { ActionBox, PlacedCase } from './animal-page-data.js';

/** What the farm does if her block comes off early, and whom it tells; only while one is on. */
export function composeBlockEarly(
  words: Words,
  { business }: Practice,
  { record, standing }: PlacedCase,
  today: CalendarDay,
): ActionBox | undefined {
  const { on } = blockTimeline(record.animal, today);
  if (on.length === 0 || standing.closed) return undefined;
  const blocks = on.map(({ foot, claw, from }) =>
    words.say('book.animal.block-on', {
      place: placeInWords(words, foot, claw),
      day: dayInWords(words, from),
    }),
  );
  return {
    heading: words.say('book.animal.block-early'),
    items: [
      ...blocks.map((text) => ({ text })),
      ...standingWords.blockEarly.map(({ key }) => ({ text: words.say(`caution.${key}`) })),
      ...call(words, business.trimmer ?? business.business, business.phone),
    ],
  };
}

/**
 * The signs on which the farm rings the vet, by how soon. A prompt, never a diagnosis; a wrap's sign only while one is on.
 *
 * Only what anybody may come to see on any cow: what was found on this one stands in her own box, and on no other's page.
 *
 * Checked: tests/book/farm-watch.test.ts
 */
export function composeCallVet(
  words: Words,
  farm: Farm,
  { record, standing }: PlacedCase,
  today: CalendarDay,
): ActionBox | undefined {
  if (standing.closed) return undefined;
  const isWrapped = wrapTimeline(record.animal, today).some(({ end }) => !end);
  const signs = standingWords.farmSigns.filter((id) => isWrapped || id !== 'swollen-above-wrap');
  return {
    heading: words.say('book.animal.call-vet'),
    items: [
      ...urgencies.flatMap((urgency) => {
        const seen = signs.filter((id) => urgencyOf(id) === urgency);
        const lead = `${words.say(`notice.urgency.${urgency}`)}:`;
        return seen.length === 0 ? [] : [{ lead, text: signsInWords(words, seen) }];
      }),
      ...call(words, farm.vet?.practice ?? farm.vet?.name, farm.vet?.phone),
    ],
  };
}

function signsInWords(words: Words, [first, ...others]: readonly NoticeRuleId[]): string {
  const inRow = others.map((id) => words.say(`notice.in-row.${id}`));
  const signs = [words.say(`notice.rule.${first!}.title`), ...inRow];
  return words.say('book.animal.call-signs', { signs: words.semicolons(signs) });
}

function call(words: Words, name: string | undefined, phone: string | undefined) {
  return name && phone
    ? [{ text: words.say('book.animal.call', { name: told(name), phone: told(phone) }) }]
    : [];
}
