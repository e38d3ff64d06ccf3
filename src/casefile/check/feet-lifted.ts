import type { Finding, RecordPath } from '../../problem/problem.js';
import type { Animal } from '../../record/animal.js';
import type { Claw, FixtureEvent, Foot } from '../../record/words.js';
import { warn, refuse } from './check-context.js';
import type { Found, Visit } from '../../record/visit.js';
import { isLiftingVisit } from '../../record/lifting.js';

interface Event {
  readonly event: FixtureEvent;
  readonly date: string;
  readonly on: string | undefined;
  readonly path: RecordPath;
  readonly what: 'block' | 'wrap';
  readonly foot: Foot;
  /** Of a block. */
  readonly claw?: Claw;
}

/** Blocks and wraps, each place on its own: what goes on comes off, and nothing goes on twice. */
export function checkFixtures(animal: Animal): Finding[] {
  const on = new Map<string, 'on' | 'off' | 'unsure'>();
  return events(animal).flatMap((event) => {
    const { what, foot, claw = '', date: day } = event;
    const key = `${what} ${foot} ${claw}`;
    const before = on.get(key) ?? 'off';
    on.set(key, after(event.event));
    const odd = unknownDay(event);
    if (event.event === 'fitted' && before === 'on')
      odd.push(warn(`${what}-fitted-twice`, [...event.path, 'event'], { foot, claw, day }));
    if (before === 'off' && event.event !== 'fitted' && event.event !== 'already on')
      odd.push(warn(`${what}-not-on`, [...event.path, 'event'], { foot, claw, event: event.event, day }));
    return odd;
  });
}

function events(animal: Animal): Event[] {
  return animal.visits.flatMap(({ date, blocks, wraps }, i) => [
    ...(blocks ?? []).map(({ foot, claw, event, on }, at) => ({
      what: 'block' as const,
      foot,
      claw,
      path: ['visits', i, 'blocks', at],
      event,
      date,
      on,
    })),
    ...(wraps ?? []).map(({ foot, event, on }, at) => ({
      what: 'wrap' as const,
      foot,
      path: ['visits', i, 'wraps', at],
      event,
      date,
      on,
    })),
  ]);
}

function after(event: FixtureEvent): 'on' | 'off' | 'unsure' {
  if (event === 'lost' || event === 'removed') return 'off';
  // Worn may be worn thin or worn away: the record does not tell.
  return event === 'worn' ? 'unsure' : 'on';
}

function unknownDay({ event, on, what, path }: Event): Finding[] {
  if (on !== 'unknown' || event === 'lost' || event === 'already on' || event === 'removed') return [];
  return [warn('unknown-day-of-event', [...path, 'on'], { event }, { way: what })];
}

const lengthKeys = ['top', 'wall', 'length', 'width', 'depth', 'distance'] as const satisfies (keyof Found)[];

/** Where a foot stayed on the ground at a visit that lifted others, nothing of it is measured, trimmed or cut back. */
export function checkFootLeftDown(animal: Animal): Finding[] {
  return animal.visits.flatMap((visit, i) =>
    isLiftingVisit(visit)
      ? [...lengths(animal, visit, i), ...trimmed(visit, i), ...cutBack(animal, visit, i)]
      : [],
  );
}

function lengths(animal: Animal, visit: Visit, i: number): Finding[] {
  return Object.entries(visit.found ?? {}).flatMap(([name, found]) => {
    const foot = footOf(animal, name);
    const footDown = foot !== undefined && isDown(visit, foot);
    const path = ['visits', i, 'found', name];
    if (footDown && found.lifted) return [refuse('lifted-both-ways', [...path, 'lifted'], { name, foot })];
    if (!footDown && found.lifted !== false) return [];
    return lengthKeys
      .filter((key) => found[key] !== undefined)
      .map((key) =>
        footDown
          ? refuse(
              'length-on-foot-left-down',
              [...path, key],
              { name, key, foot },
              { way: 'foot', at: 'key' },
            )
          : refuse('length-on-foot-left-down', [...path, key], { name, key }, { at: 'key' }),
      );
  });
}

function trimmed(visit: Visit, i: number): Finding[] {
  return (visit.trimmed ?? []).flatMap((foot, at) =>
    isDown(visit, foot) ? [refuse('trimmed-foot-left-down', ['visits', i, 'trimmed', at], { foot })] : [],
  );
}

function cutBack(animal: Animal, visit: Visit, i: number): Finding[] {
  return (visit['cut-back'] ?? []).flatMap((name, at) => {
    const foot = footOf(animal, name);
    if (!(foot && isDown(visit, foot)) && visit.found?.[name]?.lifted !== false) return [];
    return [refuse('cut-back-foot-left-down', ['visits', i, 'cut-back', at], { name })];
  });
}

function footOf(animal: Animal, name: string): Foot | undefined {
  if (Object.hasOwn(animal.lesions, name)) return animal.lesions[name]?.foot;
  return Object.hasOwn(animal.marks ?? {}, name) ? animal.marks?.[name]?.foot : undefined;
}

function isDown(visit: Visit, foot: Foot): boolean {
  return visit.feet?.[foot]?.lifted === false;
}
