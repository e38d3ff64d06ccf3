import type { RecordPath } from '../../problem/problem.js';
import type { Animal } from '../../record/animal.js';
import type { Foot } from '../../record/words.js';
import { type Findings, declaredAs, entriesOf, warn, refuse } from './check-context.js';
import type { Found, Visit } from '../../record/visit.js';
import { isLiftingVisit } from '../../record/lifting.js';

/** Blocks and wraps, each place on its own: what goes on comes off, and nothing goes on twice. */
export function* checkFixtures({ visits }: Animal): Findings {
  const last = new Map<string, string>();
  for (const what of ['block', 'wrap'] as const)
    for (const { entry, visit, path } of entriesOf(visits, `${what}s` as const)) {
      const { foot, event, on } = entry;
      const claw = 'claw' in entry ? entry.claw : '';
      const place = `${what} ${foot} ${claw}`;
      const before = last.get(place) ?? 'removed';
      last.set(place, event);
      const values = { foot, claw, event, day: visit.date };
      // Worn may be worn thin or worn away: the record does not tell.
      const wasOn = !['worn', 'lost', 'removed'].includes(before);
      const wasOff = before === 'lost' || before === 'removed';
      if (on === 'unknown' && !['lost', 'already on', 'removed'].includes(event))
        yield warn('unknown-day-of-event', [...path, 'on'], { event }, { way: what });
      if (event === 'fitted' && wasOn) yield warn(`${what}-fitted-twice`, [...path, 'event'], values);
      if (wasOff && event !== 'fitted' && event !== 'already on')
        yield warn(`${what}-not-on`, [...path, 'event'], values);
    }
}

const lengthKeys = ['top', 'wall', 'length', 'width', 'depth', 'distance'] as const satisfies (keyof Found)[];

/** Where a foot stayed on the ground at a visit that lifted others, nothing of it is measured, trimmed or cut back. */
export function* checkFootLeftDown(animal: Animal): Findings {
  for (const [i, visit] of animal.visits.entries())
    if (isLiftingVisit(visit))
      for (const [name, found] of Object.entries(visit.found ?? {}))
        yield* lengthsLeftDown(name, found, footDown(animal, visit, name), ['visits', i, 'found', name]);
  for (const { entry: foot, visit, path } of entriesOf(animal.visits, 'trimmed'))
    if (isLiftingVisit(visit) && isDown(visit, foot)) yield refuse('trimmed-foot-left-down', path, { foot });
  for (const { entry: name, visit, path } of entriesOf(animal.visits, 'cut-back'))
    if (isLiftingVisit(visit) && (footDown(animal, visit, name) || visit.found?.[name]?.lifted === false))
      yield refuse('cut-back-foot-left-down', path, { name });
}

function* lengthsLeftDown(name: string, found: Found, foot: Foot | undefined, path: RecordPath): Findings {
  if (foot && found.lifted) yield refuse('lifted-both-ways', [...path, 'lifted'], { name, foot });
  else if (foot || found.lifted === false)
    for (const key of lengthKeys)
      if (found[key] !== undefined)
        yield refuse(
          'length-on-foot-left-down',
          [...path, key],
          { name, key, foot: foot ?? '' },
          { way: foot && 'foot', at: 'key' },
        );
}

/** The foot a lesion or mark is on, where it stayed down. */
function footDown({ lesions, marks }: Animal, visit: Visit, name: string): Foot | undefined {
  const foot = (declaredAs(lesions, name) ?? declaredAs(marks, name))?.foot;
  return foot && isDown(visit, foot) ? foot : undefined;
}

function isDown(visit: Visit, foot: Foot): boolean {
  return visit.feet?.[foot]?.lifted === false;
}

/** A report or a missed visit lifts no foot: nothing is measured, trimmed or cut back. */
export function* checkVisitWithoutLifting({ visits }: Animal): Findings {
  for (const [i, visit] of visits.entries()) {
    if (isLiftingVisit(visit)) continue;
    const { kind, found = {}, feet = {} } = visit;
    for (const [name, one] of Object.entries(found))
      for (const key of lengthKeys.filter((each) => one[each] !== undefined))
        yield refuse(
          'length-without-lifting',
          ['visits', i, 'found', name, key],
          { name, key, kind },
          { at: 'key' },
        );
    for (const key of ['trimmed', 'cut-back'] as const)
      if (visit[key]?.length)
        yield refuse(`${key}-without-lifting`, ['visits', i, key], { kind }, { at: 'key' });
    for (const [foot, one] of Object.entries(feet))
      if (one.lifted)
        yield warn('lifted-without-lifting', ['visits', i, 'feet', foot, 'lifted'], { foot, kind });
  }
}
