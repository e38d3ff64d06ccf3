import { isHealed } from '../../record/visit.js';
import type { Animal } from '../../record/animal.js';
import { familyOf, lesionKinds } from '../../reference/lesions.js';
import { inRow } from '../../problem/message.js';
import type { Finding } from '../../problem/problem.js';
import { refuse, remark, warn, lesionLooks, markLooks, type LesionLook } from './check-context.js';
import { isLeftDown } from '../../record/lifting.js';
import type { DdStage, LesionState } from '../../record/words.js';
import type { Lesion } from '../../record/lesion.js';
import { declaredIn } from './lesions-declared.js';

/** From look to look a lesion takes a course that its kind can take. */
export function checkCourseOfLesion(animal: Animal): Finding[] {
  const looks = lesionLooks(animal);
  const marksSeen = new Set(
    markLooks(animal).flatMap(({ name, found }) =>
      found.lifted === false && found.distance === undefined ? [] : [name],
    ),
  );
  // What an animal brought from another farm was found there, and is in the file that stayed there.
  const cameWithThem = animal.visits.length === 0 && animal.earlier?.some(({ farm }) => farm !== undefined);
  return [
    ...Object.keys(animal.lesions).flatMap((name) => {
      const own = looks.filter((look) => look.name === name && look.found.state !== undefined);
      return own.flatMap((look, i) => afterHealed(look, own[i - 1]));
    }),
    ...Object.entries(animal.lesions).flatMap(([name, lesion]) => {
      let code = lesion.code;
      return looks
        .filter((look) => look.name === name)
        .flatMap((look) => {
          const before = code;
          code = look.code;
          return renamed(look, before);
        });
    }),
    ...Object.keys(animal.lesions)
      .filter((name) => !cameWithThem && !looks.some((look) => look.name === name))
      .map((name) => remark('lesion-never-found', ['lesions', name], { name }, { at: 'key' })),
    ...Object.keys(animal.marks ?? {})
      .filter((name) => !cameWithThem && !marksSeen.has(name))
      .map((name) => remark('mark-never-measured', ['marks', name], { name }, { at: 'key' })),
  ];
}

function afterHealed(
  { name, found, code, path, visit }: LesionLook,
  before: LesionLook | undefined,
): Finding[] {
  const was = before?.found.state;
  const { state } = found;
  const at = [...path, 'state'];
  if (was === 'lasting' && state === 'healed')
    return [refuse('lasting-then-healed', at, { name, day: visit.date, before: before!.visit.date })];
  if (was !== 'healed' || (state !== 'open' && state !== 'covered')) return [];
  const family = familyOf(code);
  if (family === 'dermatitis') return [];
  const values = { name, state, day: visit.date, before: before!.visit.date };
  return family === 'wall'
    ? [refuse('healed-then-open', at, values)]
    : [warn('ulcer-open-again', at, values)];
}

/** Families whose looks share words, so that a lesion may be renamed between them as it is better seen. */
const soleFamilies = new Set(['ulcer', 'double sole', 'toe necrosis', 'present']);

function renamed({ name, code, path }: LesionLook, before: LesionLook['code']): Finding[] {
  if (familyOf(code) === familyOf(before)) return [];
  const at = [...path, 'code'];
  const values = {
    name,
    before: lesionKinds[before].name,
    codeBefore: before,
    lesion: lesionKinds[code].name,
    code,
  };
  return soleFamilies.has(familyOf(code)) && soleFamilies.has(familyOf(before))
    ? [warn('code-of-another-kind', at, values)]
    : [refuse('code-of-another-family', at, values)];
}

/** Every look at a lifted foot says how the lesion stands, in a word its code has, and says it once. */
export function checkStateOfLesion(animal: Animal): Finding[] {
  return lesionLooks(animal).flatMap((look) => [
    ...missing(look),
    ...wordOfAnotherCode(look),
    ...againstStage(look),
  ]);
}

function missing({ name, found, visit, declared, code, path }: LesionLook): Finding[] {
  // Joined says it: the gap is followed under the other name from here on.
  if (found.state ?? found.stage ?? found.joined) return [];
  if (isLeftDown(visit, declared.foot, found)) return [];
  const kind = lesionKinds[code];
  const values = { name, day: visit.date, expected: inRow('or', kind.states) };
  const [key, way] = kind.measures.has('stage') ? (['stage', 'stage'] as const) : (['state'] as const);
  return [refuse('state-missing', [...path, key], values, { way, at: 'key' })];
}

function wordOfAnotherCode({ name, found, code, path }: LesionLook): Finding[] {
  const kind = lesionKinds[code];
  if (found.state === undefined || kind.states.has(found.state)) return [];
  return [
    refuse('state-not-for-code', [...path, 'state'], {
      name,
      state: found.state,
      expected: inRow('or', kind.states),
      lesion: kind.name,
      code,
    }),
  ];
}

/** What may be written beside a stage: active is open, quiet is open or covered, M0 is healed. */
const statesBeside: Readonly<Record<DdStage, readonly LesionState[]>> = {
  M0: ['healed'],
  M1: ['open'],
  M2: ['open'],
  'M4.1': ['open'],
  M3: ['open', 'covered'],
  M4: ['open', 'covered'],
};

function againstStage({ name, found, code, path }: LesionLook): Finding[] {
  if (!found.stage || !found.state || lesionKinds[code].family !== 'dermatitis') return [];
  const fitting = statesBeside[found.stage];
  if (fitting.includes(found.state) || !lesionKinds[code].states.has(found.state)) return [];
  return [
    refuse('state-against-stage', [...path, 'state'], {
      name,
      state: found.state,
      stage: found.stage,
      expected: inRow('or', fitting),
    }),
  ];
}

/** `again-of`: the same place broke down again, after it had healed. */
export function checkLesionsAgain(animal: Animal): Finding[] {
  return Object.entries(animal.lesions).flatMap(([name, lesion]) => {
    const of = lesion['again-of'];
    return of === undefined ? [] : [...wrongPlace(animal, name, lesion, of), ...notHealed(animal, name, of)];
  });
}

function wrongPlace(animal: Animal, name: string, lesion: Lesion, of: string): Finding[] {
  const path = ['lesions', name, 'again-of'];
  const earlier = Object.hasOwn(animal.lesions, of) ? animal.lesions[of] : undefined;
  if (of === name) return [refuse('again-of-itself', path, { name })];
  const { listed, way } = declaredIn(animal.lesions);
  if (!earlier) return [refuse('again-of-undeclared', path, { name, earlier: of, listed }, { way })];
  if (earlier.foot !== lesion.foot)
    return [
      refuse('again-of-other-foot', path, { name, foot: lesion.foot, earlier: of, otherFoot: earlier.foot }),
    ];
  const circle = circleOf(animal, name);
  // Told once, at the one declared last.
  if (circle.length > 0 && Object.keys(animal.lesions).findLast((each) => circle.includes(each)) !== name)
    return [];
  if (circle.length > 0) return [refuse('again-of-in-a-circle', path, { name, earlier: of })];
  if (earlier.claw && lesion.claw && earlier.claw !== lesion.claw)
    return [
      warn('again-of-other-claw', path, { name, claw: lesion.claw, earlier: of, otherClaw: earlier.claw }),
    ];
  return [];
}

/** The lesions that follow on from a lesion and lead back to it; empty where none do. */
function circleOf(animal: Animal, name: string): string[] {
  const passed: string[] = [];
  let next = animal.lesions[name]?.['again-of'];
  while (next !== undefined && !passed.includes(next)) {
    passed.push(next);
    if (next === name) return passed;
    next = Object.hasOwn(animal.lesions, next) ? animal.lesions[next]?.['again-of'] : undefined;
  }
  return [];
}

/** The earlier lesion should have been seen healed before the later one was first found. */
function notHealed(animal: Animal, name: string, of: string): Finding[] {
  if (!Object.hasOwn(animal.lesions, of) || circleOf(animal, name).length > 0) return [];
  const looks = lesionLooks(animal);
  const first = looks.find((look) => look.name === name);
  if (!first) return [];
  const last = looks.findLast(
    ({ name: looked, visitAt, found }) =>
      looked === of && visitAt <= first.visitAt && (found.state !== undefined || found.stage !== undefined),
  );
  if (isHealed(last?.found)) return [];
  return [
    warn('again-of-not-healed', ['lesions', name, 'again-of'], { name, earlier: of, day: first.visit.date }),
  ];
}
