import { type CalendarDay, compareDays, daysBetween } from '../record/calendar-day.js';
import {
  type BlockMaterial,
  type CarryingClaw,
  type Claw,
  type FixtureEvent,
  type Foot,
  feet,
} from '../record/words.js';
import type { Animal } from '../record/animal.js';
import { given } from '../record/given.js';
import type { BlockEvent } from '../record/visit.js';
import { onceForAnimal } from './looks-at-lesion.js';

/** One event of a block or a wrap with its own day, taken out of its visit. */
export interface FixtureMoment {
  readonly event: FixtureEvent;
  /** The day it happened; for a loss on an unknown day, the day it was found. */
  readonly on: CalendarDay;
  /** The day of the happening is not known, only the day it was found. */
  readonly dayUnknown: boolean;
  /** Position in `animal.visits`, and in that visit's list. */
  readonly visit: number;
  readonly at: number;
  readonly material?: BlockMaterial;
  readonly carryingClaw?: CarryingClaw;
}

/** From one fitting to its end: one block under one claw, or one wrap on one foot. */
export interface FixtureSpan {
  readonly foot: Foot;
  /** The claw that carries the block; absent on a wrap. */
  readonly claw?: Claw;
  /** First day known on. */
  readonly from: CalendarDay;
  /** Fitted by us on that day; else it was there already, since a day that is not known. */
  readonly fitted: boolean;
  readonly material?: BlockMaterial;
  /** Days it was looked at (`checked` or `worn`), oldest first. */
  readonly looks: readonly CalendarDay[];
  readonly worn?: CalendarDay;
  /** Last day it was certainly on. */
  readonly lastKnownOn: CalendarDay;
  /** How it ended; absent while it is on. With a loss on an unknown day, `by` is the day it was found gone. */
  readonly end?: {
    readonly how: 'replaced' | 'lost' | 'removed';
    readonly by: CalendarDay;
    readonly dayUnknown: boolean;
    readonly carryingClaw?: CarryingClaw;
  };
  /** Days on, counted to the end or to the day asked about; the fewest and the most they can have been. */
  readonly days: { readonly atLeast: number; readonly atMost?: number };
  /** Where its first event is. */
  readonly visit: number;
  readonly at: number;
}

type Open = Omit<FixtureSpan, 'days'>;

/**
 * Follows the events of one place, in the order of their own days, into spans from fitting to end.
 *
 * Why this way: a block first heard of through `checked`, `worn`, `lost` or `replaced` was on before, since a
 * day nobody wrote; its span then starts at that event and its length has no upper bound. A second `fitted`
 * while one is on is read as a replacement: two blocks are never under one claw.
 *
 * Checked: tests/healing/block-timeline.test.ts
 */
export function followFixture(
  place: Pick<Open, 'foot' | 'claw'>,
  moments: readonly FixtureMoment[],
  today: CalendarDay,
): readonly FixtureSpan[] {
  const spans: Open[] = [];
  for (const moment of moments) {
    const last = spans.at(-1);
    const on = last && !last.end ? last : undefined;
    const { event } = moment;
    const before = on ?? start(place, moment, false);
    if (event === 'already on' || event === 'checked' || event === 'worn') {
      const looks = event === 'already on' ? before.looks : [...before.looks, moment.on];
      const worn = event === 'worn' ? { worn: moment.on } : {};
      put(spans, on, { ...before, lastKnownOn: moment.on, looks, ...worn });
    } else if (event === 'fitted' || event === 'replaced') {
      if (on || event === 'replaced') put(spans, on, ended(before, 'replaced', moment));
      spans.push(start(place, moment, true));
    } else put(spans, on, ended(before, event, moment));
  }
  return spans.map((span) => ({ ...span, days: daysOn(span, today) }));
}

function start(
  place: Pick<Open, 'foot' | 'claw'>,
  { on, material, visit, at }: FixtureMoment,
  fitted: boolean,
): Open {
  return { ...place, from: on, fitted, ...given({ material }), looks: [], lastKnownOn: on, visit, at };
}

function put(spans: Open[], on: Open | undefined, changed: Open): void {
  if (on) spans[spans.length - 1] = changed;
  else spans.push(changed);
}

function ended(span: Open, how: 'replaced' | 'lost' | 'removed', moment: FixtureMoment): Open {
  const { on: by, dayUnknown, carryingClaw } = moment;
  const end = { how, by, dayUnknown, ...given({ carryingClaw }) };
  return { ...span, lastKnownOn: dayUnknown ? span.lastKnownOn : by, end };
}

function daysOn(span: Open, today: CalendarDay): FixtureSpan['days'] {
  const most = daysBetween(span.from, span.end?.by ?? today);
  const atLeast = span.end?.dayUnknown ? daysBetween(span.from, span.lastKnownOn) : most;
  return span.fitted ? { atLeast, atMost: most } : { atLeast };
}

/** An event of a visit by its own day. */
export function momentOf(
  { event, on, material, ...block }: Pick<BlockEvent, 'event' | 'on' | 'material' | 'carrying-claw'>,
  date: CalendarDay,
  visit: number,
  at: number,
): FixtureMoment {
  const dayUnknown = on === 'unknown';
  const own = given({ material, carryingClaw: block['carrying-claw'] });
  return { event, on: on === undefined || dayUnknown ? date : on, dayUnknown, visit, at, ...own };
}

/**
 * The wraps of an animal up to a day, per foot, oldest first.
 *
 * A farm's report that the wrap is off (`farm-did: wrap off`) ends the wraps on her, since the task names no foot.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export const wrapTimeline = onceForAnimal((animal: Animal, today: CalendarDay): readonly FixtureSpan[] => {
  const wrapped = new Set(animal.visits.flatMap(({ wraps }) => wraps?.map(({ foot }) => foot) ?? []));
  return feet
    .filter((foot) => wrapped.has(foot))
    .flatMap((foot) => {
      const moments = animal.visits.flatMap(({ date, wraps = [], 'farm-did': did = [] }, visit) => [
        ...wraps.flatMap((wrap, at) => (wrap.foot === foot ? momentOf(wrap, date, visit, at) : [])),
        ...did
          .filter(({ what }) => what === 'wrap off')
          .map(({ on }): FixtureMoment => ({ event: 'removed', on, dayUnknown: false, visit, at: -1 })),
      ]);
      const known = moments.filter(({ on }) => on <= today).sort((a, b) => compareDays(a.on, b.on));
      return followFixture({ foot }, withoutStrayReports(known), today);
    });
});

/** A farm's word that the wrap is off says nothing of a foot that had none. */
function withoutStrayReports(moments: readonly FixtureMoment[]): readonly FixtureMoment[] {
  let on = false;
  return moments.filter((moment) => {
    if (moment.at < 0 && !on) return false;
    on = !['lost', 'removed'].includes(moment.event);
    return true;
  });
}
