import type { Animal } from '../record/animal.js';
import { type CalendarDay, dayNumber } from '../record/calendar-day.js';
import { claws, feet, type Claw, type Foot } from '../record/words.js';
import { questionsOfBlocks, type BlockQuestion } from './block-question.js';
import { type FixtureMoment, type FixtureSpan, followFixture } from './fixture-span.js';
import { onceForAnimal } from './looks-at-lesion.js';

/** A block's span: one block under one claw. */
export interface BlockSpan extends FixtureSpan {
  readonly claw: Claw;
}

/** All blocks of an animal as the events tell them, by their own days. */
export interface BlockTimeline {
  /** Oldest first. */
  readonly spans: readonly BlockSpan[];
  /** On her on the day asked about, as far as is recorded. */
  readonly on: readonly BlockSpan[];
  /** Days on blocks in all, one foot at a time, refits added up; a day with two blocks counts once. */
  readonly daysByFoot: readonly {
    readonly foot: Foot;
    readonly atLeast: number;
    readonly certain: boolean;
  }[];
  readonly questions: readonly BlockQuestion[];
}

/**
 * The blocks of an animal up to a day.
 *
 * Why here: whether a walk was scored on a block decides what the score means, so the timeline stands with
 * healing and the schedule reads it.
 *
 * Shape:   block events of all visits → spans from fitting to end, per claw
 * Unit:    calendar days; whole days
 * Checked: tests/healing/block-timeline.test.ts
 */
export const blockTimeline = onceForAnimal((animal: Animal, today: CalendarDay): BlockTimeline => {
  const spans = placesWithBlocks(animal)
    .flatMap(({ foot, claw }) =>
      followFixture({ foot, claw }, momentsOf(animal, foot, claw, today), today).map((span) => ({
        ...span,
        claw,
      })),
    )
    .sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));
  return {
    spans,
    on: spans.filter(({ end }) => !end),
    daysByFoot: feet
      .map((foot) => ({
        foot,
        ...daysOnFixtures(
          spans.filter((span) => span.foot === foot),
          today,
        ),
      }))
      .filter(({ atLeast, certain }) => atLeast > 0 || !certain),
    questions: questionsOfBlocks(animal, spans, today),
  };
});

/** Claws that any event names. */
function placesWithBlocks(animal: Animal): { foot: Foot; claw: Claw }[] {
  const named = new Set(
    animal.visits.flatMap(({ blocks }) => blocks?.map(({ foot, claw }) => `${foot} ${claw}`) ?? []),
  );
  if (named.size === 0) return [];
  return feet
    .flatMap((foot) => claws.map((claw) => ({ foot, claw })))
    .filter(({ foot, claw }) => named.has(`${foot} ${claw}`));
}

function momentsOf(animal: Animal, foot: Foot, claw: Claw, today: CalendarDay): FixtureMoment[] {
  const moments = [...animal.visits.entries()].flatMap(([visit, { date, blocks }]) =>
    [...(blocks ?? []).entries()]
      .filter(([, block]) => block.foot === foot && block.claw === claw)
      .map(([at, block]): FixtureMoment => ({
        event: block.event,
        on: block.on === undefined || block.on === 'unknown' ? date : block.on,
        dayUnknown: block.on === 'unknown',
        visit,
        at,
        ...(block.material ? { material: block.material } : {}),
        ...(block['carrying-claw'] ? { carryingClaw: block['carrying-claw'] } : {}),
      })),
  );
  return moments.filter(({ on }) => on <= today).sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
}

/**
 * Whole days covered by spans, each day once; `certain` is false where a start or an end is not known, and the
 * number is then the fewest it can be.
 */
function daysOnFixtures(
  spans: readonly FixtureSpan[],
  today: CalendarDay,
): { readonly atLeast: number; readonly certain: boolean } {
  const stretches = spans
    .map((span) => ({
      from: dayNumber(span.from),
      to: dayNumber(span.end?.dayUnknown ? span.lastKnownOn : (span.end?.by ?? today)),
    }))
    .sort((a, b) => a.from - b.from);
  let reached = -Infinity;
  let atLeast = 0;
  for (const { from, to } of stretches) {
    atLeast += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  return { atLeast, certain: spans.every((span) => span.fitted && !span.end?.dayUnknown) };
}
