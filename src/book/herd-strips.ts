import { smallStrip } from '../figure/small-strip.js';
import { wallStripInput } from '../figure/wall-strip-input.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { Words } from '../words/words.js';
import type { HerdStrips } from './first-pages-data.js';
import type { PlacedCase } from './placed-case.js';
import { nextLift } from '../schedule/next-lift.js';
import { caseChip, standingChip } from '../words/compose-standing.js';
import { animalCell } from './animal-cell.js';

const over = new Set(['healed', 'joined']);

/** The open wall gaps of the herd side by side, worst first, so that the whole farm is seen together; open cases without one are named. */
export function composeHerdStrips(
  words: Words,
  farm: Farm,
  open: readonly PlacedCase[],
  today: CalendarDay,
): HerdStrips {
  const strips = open.flatMap((one) => {
    const next = nextLift(farm, one, today);
    return one.growth.lesions
      .filter(({ readings }) => readings.length > 0)
      .flatMap((gap) => {
        const standing = one.standing.lesions.find(({ lesion }) => lesion === gap.lesion);
        if (!standing || over.has(standing.standing)) return [];
        const input = wallStripInput(
          gap,
          one.record.animal,
          next === undefined ? [] : [next],
          `herd-${one.record.slug}`,
          today,
        );
        return [
          {
            href: `#${one.id}`,
            number: one.record.animal.animal,
            place: words.say('jobs.case', { place: one.place }),
            standing: standingChip(words, standing),
            svg: smallStrip(input, words).svg,
          },
        ];
      });
  });
  const shown = new Set(strips.map(({ href }) => href));
  const others = open.filter((one) => !shown.has(`#${one.id}`));
  return {
    heading: words.say('book.herd.heading'),
    lead: words.say(strips.length > 0 ? 'book.herd.lead' : 'book.herd.none'),
    strips,
    ...(others.length > 0 ? { othersLead: words.say('book.herd.others') } : {}),
    others: others.map((one) => ({ ...animalCell(words, one), standing: caseChip(words, one.standing) })),
  };
}
