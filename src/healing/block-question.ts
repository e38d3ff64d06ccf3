import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { RecordPath } from '../problem/problem.js';
import { feet, type Claw, type Foot } from '../record/words.js';
import { cannotCarryOn } from './looks-at-lesion.js';
import type { FixtureSpan } from './fixture-span.js';

/**
 * Something about the blocks that should be looked at again: two blocks on one foot at a time, a block under
 * the claw with the open lesion, or both claws of a foot open, so that no sound claw is left to carry one.
 */
export interface BlockQuestion {
  readonly what: 'two-blocks-on-one-foot' | 'block-on-the-sore-claw' | 'no-sound-claw';
  /** Since when it holds. */
  readonly date: CalendarDay;
  readonly foot: Foot;
  readonly claw?: Claw;
  /** The open lesions it is about. */
  readonly lesions: readonly string[];
  readonly path: RecordPath;
}

/** The questions as they stand on a day; what is over is not asked any more. */
export function questionsOfBlocks(
  animal: Animal,
  spans: readonly (FixtureSpan & { readonly claw: Claw })[],
  today: CalendarDay,
): readonly BlockQuestion[] {
  const open = cannotCarryOn(animal, today);
  return feet.flatMap((foot): BlockQuestion[] => {
    const on = spans.filter((span) => span.foot === foot && !span.end);
    const sore = open.filter((lesion) => lesion.foot === foot);
    const questions: BlockQuestion[] = [];
    const [first, second] = on;
    if (first && second) {
      const later = first.from > second.from ? first : second;
      const path = ['visits', later.visit, 'blocks', later.at];
      questions.push({ what: 'two-blocks-on-one-foot', date: later.from, foot, lesions: [], path });
    }
    for (const span of on) {
      const under = sore.filter(({ claw }) => claw === span.claw).map(({ name }) => name);
      const path = ['visits', span.visit, 'blocks', span.at];
      if (under.length > 0)
        questions.push({
          what: 'block-on-the-sore-claw',
          date: span.from,
          foot,
          claw: span.claw,
          lesions: under,
          path,
        });
    }
    const since = openOnBothClaws(sore);
    if (since)
      questions.push({
        what: 'no-sound-claw',
        date: since.date,
        foot,
        lesions: sore.map(({ name }) => name),
        path: ['visits', since.visit, 'found'],
      });
    return questions;
  });
}

/** The later of the days on which the two claws were first found open. */
function openOnBothClaws(
  sore: readonly { claw: Claw | undefined; since: CalendarDay; visit: number }[],
): { date: CalendarDay; visit: number } | undefined {
  const first = (claw: Claw) =>
    sore.filter((lesion) => lesion.claw === claw).sort((a, b) => (a.since < b.since ? -1 : 1))[0];
  const inner = first('inner');
  const outer = first('outer');
  if (!inner || !outer) return undefined;
  const later = inner.since > outer.since ? inner : outer;
  return { date: later.since, visit: later.visit };
}
