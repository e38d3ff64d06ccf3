import { drawingId } from '../figure/drawing.js';
import type { DaySpan, TimelineInput } from '../figure/timeline-input.js';
import { blockTimeline } from '../healing/block-timeline.js';
import type { FixtureSpan } from '../healing/fixture-span.js';
import { wrapTimeline } from '../healing/wrap-timeline.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { withheldSpans } from '../schedule/withheld.js';
import type { Words } from '../words/words.js';
import type { PlacedCase } from './placed-case.js';

/** One animal over time: what her time line shows, up to today or to the end of her case. */
export function timelineInput(
  words: Words,
  farm: Farm,
  { record, growth, standing }: PlacedCase,
  today: CalendarDay,
): TimelineInput | undefined {
  const { animal, slug } = record;
  const visits = animal.visits.filter((visit) => visit.date <= today);
  const first = visits[0]?.date;
  if (first === undefined) return undefined;
  const scale = standing.gait.last?.scale;
  return {
    id: drawingId(slug, 'time'),
    from: first,
    to: standing.closed?.on ?? today,
    visits: visits.map(({ date, kind }) => ({
      date,
      kind: kind === 'report' || kind === 'missed' ? kind : ('visit' as const),
    })),
    gait: standing.gait.scores,
    ...(scale ? { gaitScale: words.say(`vocabulary.gait-scale.${scale}`) } : {}),
    blocks: blockTimeline(animal, today).spans.map((span) => ({
      ...daySpan(span),
      foot: span.foot,
      claw: span.claw,
    })),
    wraps: wrapTimeline(animal, today).map((span) => ({ ...daySpan(span), foot: span.foot })),
    withheld: withheldSpans(animal, farm, today).map(({ side: what, from, to }) => ({
      what,
      from,
      ...(to === undefined ? { endUnknown: true } : { to }),
    })),
    vet: visits.flatMap(({ date, vet, 'vet-answer': answer }) => [
      ...(vet ? [{ date: vet.asked, what: 'asked' as const }] : []),
      ...(answer ? [{ date, what: 'answered' as const }] : []),
    ]),
    ranUp: growth.lesions.flatMap(({ lesion, readings }) =>
      readings.filter(({ kind }) => kind === 'ran-up').map(({ date }) => ({ date, lesion })),
    ),
  };
}

function daySpan({ from, end }: FixtureSpan): DaySpan {
  return { from, ...(end ? { to: end.by, endUnknown: end.dayUnknown } : {}) };
}
