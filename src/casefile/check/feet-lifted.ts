import type { RecordPath } from '../../problem/problem.js';
import type { Animal } from '../../record/animal.js';
import type { FixtureEvent, Foot } from '../../record/words.js';
import type { Finding } from '../finding.js';
import { warn, refuse } from './check-context.js';
import type { Found, Visit } from '../../record/visit.js';
import { isLiftingVisit } from '../../record/lifting.js';

interface Event {
  readonly event: FixtureEvent;
  readonly date: string;
  readonly on: string | undefined;
  readonly path: RecordPath;
  readonly what: 'block' | 'wrap';
  /** `LH inner claw` of a block, `LH` of a wrap. */
  readonly place: string;
}

/** Blocks and wraps, each place on its own: what goes on comes off, and nothing goes on twice. */
export function checkFixtures(animal: Animal): Finding[] {
  const on = new Map<string, 'on' | 'off' | 'unsure'>();
  return events(animal).flatMap((event) => {
    const key = `${event.what} ${event.place}`;
    const before = on.get(key) ?? 'off';
    on.set(key, after(event.event));
    const odd = unknownDay(event);
    if (event.event === 'fitted' && before === 'on')
      odd.push(
        warn(
          `${event.what}-fitted-twice`,
          [...event.path, 'event'],
          `a ${event.what} is fitted on ${event.place} on ${event.date}, and the one before has no end`,
          'write `replaced` where the old one was still on, or add when it was lost or removed',
        ),
      );
    if (before === 'off' && event.event !== 'fitted' && event.event !== 'already on')
      odd.push(
        warn(
          `${event.what}-not-on`,
          [...event.path, 'event'],
          `the ${event.what} on ${event.place} is ${event.event} on ${event.date}, and none was on`,
          "add the visit at which it was fitted; somebody else's is `already on`",
        ),
      );
    return odd;
  });
}

function events(animal: Animal): Event[] {
  return animal.visits.flatMap(({ date, blocks, wraps }, i) => [
    ...(blocks ?? []).map(({ foot, claw, event, on }, at) => ({
      what: 'block' as const,
      place: `${foot} ${claw} claw`,
      path: ['visits', i, 'blocks', at],
      event,
      date,
      on,
    })),
    ...(wraps ?? []).map(({ foot, event, on }, at) => ({
      what: 'wrap' as const,
      place: foot,
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
  return [
    warn(
      'unknown-day-of-event',
      [...path, 'on'],
      `the day the ${what} was ${event} is unknown, expected a day: only a loss may be found later`,
      'write the day, or leave `on` out if it was the day of the visit',
    ),
  ];
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
    if (footDown && found.lifted)
      return [
        refuse(
          'lifted-both-ways',
          [...path, 'lifted'],
          `found.${name} says lifted, and feet.${foot} says it was not; expected one answer`,
          `correct \`lifted\` on ${name} or on ${foot}`,
        ),
      ];
    if (!footDown && found.lifted !== false) return [];
    return lengthKeys
      .filter((key) => found[key] !== undefined)
      .map((key) =>
        refuse(
          'length-on-foot-left-down',
          [...path, key],
          `found.${name}.${key} is measured, and ${footDown ? `feet.${foot}` : name} says lifted: false`,
          'take the length out, or correct `lifted`',
          'key',
        ),
      );
  });
}

function trimmed(visit: Visit, i: number): Finding[] {
  return (visit.trimmed ?? []).flatMap((foot, at) =>
    isDown(visit, foot)
      ? [
          refuse(
            'trimmed-foot-left-down',
            ['visits', i, 'trimmed', at],
            `${foot} is trimmed, and feet.${foot} says lifted: false`,
            'take the foot out of `trimmed`, or correct `lifted`',
          ),
        ]
      : [],
  );
}

function cutBack(animal: Animal, visit: Visit, i: number): Finding[] {
  return (visit['cut-back'] ?? []).flatMap((name, at) => {
    const foot = footOf(animal, name);
    if (!(foot && isDown(visit, foot)) && visit.found?.[name]?.lifted !== false) return [];
    return [
      refuse(
        'cut-back-foot-left-down',
        ['visits', i, 'cut-back', at],
        `${name} is cut back, and its foot was not lifted at this visit`,
        'take it out of `cut-back`, or correct `lifted`',
      ),
    ];
  });
}

function footOf(animal: Animal, name: string): Foot | undefined {
  if (Object.hasOwn(animal.lesions, name)) return animal.lesions[name]?.foot;
  return Object.hasOwn(animal.marks ?? {}, name) ? animal.marks?.[name]?.foot : undefined;
}

function isDown(visit: Visit, foot: Foot): boolean {
  return visit.feet?.[foot]?.lifted === false;
}
