import type { Animal } from '../record/animal.js';
import { type CalendarDay, dayNumber } from '../record/calendar-day.js';
import type { RecordPath } from '../problem/problem.js';
import { feet, type Claw, type Foot, claws } from '../record/words.js';
import { cannotCarryOn, onceForAnimal } from './looks-at-lesion.js';
import { type FixtureSpan, type FixtureMoment, followFixture } from './fixture-span.js';

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
function questionsOfBlocks(
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
