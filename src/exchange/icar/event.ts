import type { CalendarDay } from '../../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import type { Visit } from '../../record/visit.js';
import type { Foot } from '../../record/words.js';
import { icarExchange } from '../../reference/icar-exchange.js';

export interface Identifier {
  readonly id: string;
  readonly scheme: string;
}

export interface Position {
  readonly position: string;
}

/** What every event of the standard says, in the standard's own member names. */
export interface EventCore {
  readonly resourceType: string;
  readonly id: string;
  readonly meta: {
    readonly source: string;
    readonly sourceId: string;
    readonly modified: string;
    readonly creator: string;
  };
  readonly location: Identifier;
  readonly animal: Identifier;
  readonly eventDateTime: string;
  readonly responsible: string;
}

/** One visit of one animal, and what the receiver calls official tags. */
export interface VisitAt {
  readonly farm: FarmRecord;
  readonly one: CaseRecord;
  readonly visit: Visit;
  /** Tells visits of one day apart, from 1. */
  readonly number: number;
  readonly tagScheme: string | undefined;
}

/** The visits of a farm in the order of the records. */
export function visitsOf(farm: FarmRecord, tagScheme: string | undefined): VisitAt[] {
  return farm.cases.flatMap((one) =>
    one.animal.visits.map((visit, at, all) => ({
      farm,
      one,
      visit,
      number: all.slice(0, at + 1).filter(({ date }) => date === visit.date).length,
      tagScheme,
    })),
  );
}

/**
 * An event's name, whose animal it is of, where and when; `what` tells it from others of the visit.
 *
 * Last changed: on the day of the visit, or of the last correction of it, of the animal's identity or of a lesion.
 */
export function eventCore(
  resourceType: string,
  at: VisitAt,
  {
    what,
    day,
    responsible,
  }: { readonly what: string; readonly day: CalendarDay; readonly responsible: string },
): EventCore {
  const { farm, one, visit, number } = at;
  const id = `${farm.slug}/${one.slug}/${visit.date}.${number}/${what}`;
  const changed = lastChange(at);
  return {
    resourceType,
    id,
    meta: { source: icarExchange.source, sourceId: id, modified: noonOf(changed), creator: visit.by },
    location: locationOf(farm),
    animal: animalOf(at),
    eventDateTime: noonOf(day),
    responsible,
  };
}

function lastChange({ one, visit }: VisitAt): CalendarDay {
  const corrected = [visit, one.animal, ...Object.values(one.animal.lesions)];
  const days = corrected.flatMap(({ amended = [] }) => amended.map(({ date }) => date));
  return [visit.date, ...days].sort().at(-1) ?? visit.date;
}

/**
 * A day as the standard's moment in UTC. Case files know days where the farm is and no time zone: noon is within that
 * day nearly everywhere cows are kept.
 *
 * @example noonOf('2026-01-06') // → '2026-01-06T12:00:00Z'
 */
export function noonOf(day: CalendarDay): string {
  return `${day}T12:00:00Z`;
}

/** A foot as the standard names it. */
export function positionOf(foot: Foot): Position {
  return { position: icarExchange.positions[foot] };
}

/** The identity that reaches furthest: official tag, electronic number, number on the farm. */
function animalOf({ farm, one, tagScheme }: VisitAt): Identifier {
  const { tag, electronic, animal } = one.animal;
  const { schemes } = icarExchange;
  if (tag !== undefined) return { id: tag, scheme: tagScheme ?? schemes.tag };
  if (electronic !== undefined) return { id: electronic, scheme: schemes.electronic };
  return { id: `${farm.slug}/${animal}`, scheme: schemes.number };
}

function locationOf({ slug, farm }: FarmRecord): Identifier {
  const { schemes } = icarExchange;
  return farm.holding === undefined
    ? { id: slug, scheme: schemes.farm }
    : { id: farm.holding, scheme: schemes.holding };
}
