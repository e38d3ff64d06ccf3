import type { Animal } from '../record/animal.js';
import { type CalendarDay, compareDays, dayNumber } from '../record/calendar-day.js';
import type { RecordPath } from '../problem/problem.js';
import { feet, type Claw, type Foot, claws } from '../record/words.js';
import { cannotCarryOn, onceForAnimal } from './looks-at-lesion.js';
import { type FixtureSpan, type FixtureMoment, followFixture, momentOf } from './fixture-span.js';

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

/** The questions as of a day; what is over is not asked any more. */
function questionsOfBlocks(
  animal: Animal,
  spans: readonly BlockSpan[],
  today: CalendarDay,
): readonly BlockQuestion[] {
  const open = cannotCarryOn(animal, today);
  return feet.flatMap((foot): BlockQuestion[] => {
    const on = spans.filter((span) => span.foot === foot && !span.end);
    const sore = open.filter((lesion) => lesion.foot === foot);
    const questions: BlockQuestion[] = [];
    const ask = (
      what: BlockQuestion['what'],
      { from, visit, at }: BlockSpan,
      more: Partial<BlockQuestion> = {},
    ) =>
      questions.push({ what, date: from, foot, lesions: [], path: ['visits', visit, 'blocks', at], ...more });
    const [first, second] = on;
    if (first && second) ask('two-blocks-on-one-foot', first.from > second.from ? first : second);
    for (const span of on) {
      const lesions = sore.filter(({ claw }) => claw === span.claw).map(({ name }) => name);
      if (lesions.length > 0) ask('block-on-the-sore-claw', span, { claw: span.claw, lesions });
    }
    const since = openOnBothClaws(sore);
    if (since) {
      const lesions = sore.map(({ name }) => name);
      const path = ['visits', since.visit, 'found'];
      questions.push({ what: 'no-sound-claw', date: since.since, foot, lesions, path });
    }
    return questions;
  });
}

/** The later of the looks at which the two claws were first found open. */
function openOnBothClaws(sore: ReturnType<typeof cannotCarryOn>) {
  const [inner, outer] = claws.map(
    (claw) => sore.filter((lesion) => lesion.claw === claw).sort((a, b) => (a.since < b.since ? -1 : 1))[0],
  );
  return inner && outer && (inner.since > outer.since ? inner : outer);
}

/** A block's span: one block under one claw. */
interface BlockSpan extends FixtureSpan {
  readonly claw: Claw;
}

/** All blocks of an animal as the events tell them, by their own days. */
export interface BlockTimeline {
  /** Oldest first. */
  readonly spans: readonly BlockSpan[];
  /** On her on the day asked about, as far as is recorded. */
  readonly on: readonly BlockSpan[];
  /** Days on blocks in all, one foot at a time, refits added up; a day with two blocks counts once. */
  readonly daysByFoot: readonly ({ readonly foot: Foot } & ReturnType<typeof daysOnFixtures>)[];
  readonly questions: readonly BlockQuestion[];
}

/**
 * The blocks of an animal up to a day.
 *
 * Why here: whether a walk was scored on a block decides what the score means, so the timeline is with
 * healing and the schedule reads it.
 *
 * Shape:   block events of all visits → spans from fitting to end, per claw
 * Unit:    calendar days; whole days
 * Checked: tests/healing/block-timeline.test.ts
 */
export const blockTimeline = onceForAnimal((animal: Animal, today: CalendarDay): BlockTimeline => {
  const spans = feet
    .flatMap((foot) =>
      claws.flatMap((claw) =>
        followFixture({ foot, claw }, momentsOf(animal, foot, claw, today), today).map((span) => ({
          ...span,
          claw,
        })),
      ),
    )
    .sort((a, b) => compareDays(a.from, b.from));
  const daysOn = (foot: Foot) =>
    daysOnFixtures(
      spans.filter((span) => span.foot === foot),
      today,
    );
  return {
    spans,
    on: spans.filter(({ end }) => !end),
    daysByFoot: feet
      .map((foot) => ({ foot, ...daysOn(foot) }))
      .filter(({ atLeast, certain }) => atLeast > 0 || !certain),
    questions: questionsOfBlocks(animal, spans, today),
  };
});

function momentsOf(animal: Animal, foot: Foot, claw: Claw, today: CalendarDay): FixtureMoment[] {
  return animal.visits
    .flatMap(({ date, blocks = [] }, visit) =>
      blocks.flatMap((block, at) =>
        block.foot === foot && block.claw === claw ? momentOf(block, date, visit, at) : [],
      ),
    )
    .filter(({ on }) => on <= today)
    .sort((a, b) => compareDays(a.on, b.on));
}

/**
 * Whole days covered by spans, each day once; `certain` is false where a start or an end is not known, and the
 * number is then the fewest it can be.
 */
function daysOnFixtures(spans: readonly FixtureSpan[], today: CalendarDay) {
  let reached = -Infinity;
  let atLeast = 0;
  for (const { from, end, lastKnownOn } of spans.toSorted((a, b) => compareDays(a.from, b.from))) {
    const to = dayNumber(end?.dayUnknown ? lastKnownOn : (end?.by ?? today));
    atLeast += Math.max(0, to - Math.max(dayNumber(from), reached));
    reached = Math.max(reached, to);
  }
  return { atLeast, certain: spans.every((span) => span.fitted && !span.end?.dayUnknown) };
}
