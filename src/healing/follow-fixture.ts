import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { Claw, Foot } from '../record/words.js';
import type { FixtureMoment, FixtureSpan } from './fixture-span.js';

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
  place: { readonly foot: Foot; readonly claw?: Claw },
  moments: readonly FixtureMoment[],
  today: CalendarDay,
): readonly FixtureSpan[] {
  const spans: Open[] = [];
  for (const moment of moments) {
    const last = spans.at(-1);
    const on = last && !last.end ? last : undefined;
    if (moment.event === 'checked' || moment.event === 'worn' || (moment.event === 'already on' && on)) {
      const span = on ?? start(place, moment, false);
      put(spans, on, {
        ...span,
        lastKnownOn: moment.on,
        looks: moment.event === 'already on' ? span.looks : [...span.looks, moment.on],
        ...(moment.event === 'worn' ? { worn: moment.on } : {}),
      });
    } else if (moment.event === 'already on') spans.push(start(place, moment, false));
    else if (moment.event === 'fitted' || moment.event === 'replaced') {
      if (on) put(spans, on, ended(on, 'replaced', moment));
      else if (moment.event === 'replaced')
        spans.push(ended(start(place, moment, false), 'replaced', moment));
      spans.push(start(place, moment, true));
    } else put(spans, on, ended(on ?? start(place, moment, false), moment.event, moment));
  }
  return spans.map((span) => ({ ...span, days: daysOn(span, today) }));
}

function start(place: { foot: Foot; claw?: Claw }, moment: FixtureMoment, fitted: boolean): Open {
  return {
    ...place,
    from: moment.on,
    fitted,
    ...(moment.material ? { material: moment.material } : {}),
    looks: [],
    lastKnownOn: moment.on,
    visit: moment.visit,
    at: moment.at,
  };
}

function put(spans: Open[], on: Open | undefined, changed: Open): void {
  if (on) spans[spans.length - 1] = changed;
  else spans.push(changed);
}

function ended(span: Open, how: 'replaced' | 'lost' | 'removed', moment: FixtureMoment): Open {
  return {
    ...span,
    lastKnownOn: moment.dayUnknown ? span.lastKnownOn : moment.on,
    end: {
      how,
      by: moment.on,
      dayUnknown: moment.dayUnknown,
      ...(moment.carryingClaw ? { carryingClaw: moment.carryingClaw } : {}),
    },
  };
}

function daysOn(span: Open, today: CalendarDay): FixtureSpan['days'] {
  const most = daysBetween(span.from, span.end?.by ?? today);
  const atLeast = span.end?.dayUnknown ? daysBetween(span.from, span.lastKnownOn) : most;
  return span.fitted ? { atLeast, atMost: most } : { atLeast };
}
