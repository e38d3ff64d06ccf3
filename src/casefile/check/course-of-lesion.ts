import type { Animal } from '../../record/animal.js';
import { familyOf, lesionKinds } from '../../reference/lesions.js';
import type { Finding } from '../finding.js';
import { refuse, remark, warn, lesionLooks, markLooks, type LesionLook, oneOf } from './check-context.js';
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
      .map((name) =>
        unseen('lesion-never-found', ['lesions', name], `lesion ${name} is declared and no visit found it`),
      ),
    ...Object.keys(animal.marks ?? {})
      .filter((name) => !cameWithThem && !marksSeen.has(name))
      .map((name) =>
        unseen('mark-never-measured', ['marks', name], `mark ${name} is declared and no visit measured it`),
      ),
  ];
}

function unseen(id: string, path: string[], message: string): Finding {
  return remark(id, path, message, 'add what was found to a visit, or take the declaration out', 'key');
}

function afterHealed(
  { name, found, code, path, visit }: LesionLook,
  before: LesionLook | undefined,
): Finding[] {
  const was = before?.found.state;
  const { state } = found;
  const at = [...path, 'state'];
  if (was === 'lasting' && state === 'healed')
    return [
      refuse(
        'lasting-then-healed',
        at,
        `found.${name} is healed on ${visit.date} and was lasting on ${before?.visit.date}; a lasting fault re-forms and does not heal`,
        'correct the state of one of the two visits',
      ),
    ];
  if (was !== 'healed' || (state !== 'open' && state !== 'covered')) return [];
  const family = familyOf(code);
  if (family === 'dermatitis') return [];
  const message = `found.${name} is ${state} on ${visit.date} and was healed on ${before?.visit.date}`;
  const mend = `declare a new lesion with \`again-of: ${name}\` and write it there; if it was not healed, correct the earlier state`;
  return family === 'wall'
    ? [refuse('healed-then-open', at, `${message}, expected a new lesion`, mend)]
    : [warn('ulcer-open-again', at, `${message}: the same hole, or a new one?`, mend)];
}

/** Families whose looks share words, so that a lesion may be renamed between them as it is better seen. */
const soleFamilies = new Set(['ulcer', 'double sole', 'toe necrosis', 'present']);

function renamed({ name, code, path }: LesionLook, before: LesionLook['code']): Finding[] {
  if (familyOf(code) === familyOf(before)) return [];
  const at = [...path, 'code'];
  const message = `lesion ${name} was ${lesionKinds[before].name} (${before}) and is now ${lesionKinds[code].name} (${code})`;
  const mend = 'declare it as a lesion of its own, or correct the code';
  return soleFamilies.has(familyOf(code)) && soleFamilies.has(familyOf(before))
    ? [warn('code-of-another-kind', at, `${message}: the same lesion?`, mend)]
    : [
        refuse(
          'code-of-another-family',
          at,
          `${message}, expected a code that is measured in the same way`,
          mend,
        ),
      ];
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
  const wanted = kind.measures.has('stage') ? '`stage`' : `\`state\` (${oneOf(kind.states)})`;
  return [
    refuse(
      'state-missing',
      path,
      `found.${name} of ${visit.date} has no ${kind.measures.has('stage') ? 'stage' : 'state'}, expected ${wanted}`,
      'say how it stands; if the foot was not lifted, write `lifted: false`',
      'key',
    ),
  ];
}

function wordOfAnotherCode({ name, found, code, path }: LesionLook): Finding[] {
  const kind = lesionKinds[code];
  if (found.state === undefined || kind.states.has(found.state)) return [];
  return [
    refuse(
      'state-not-for-code',
      [...path, 'state'],
      `found.${name}.state is ${found.state}, expected ${oneOf(kind.states)} for ${kind.name} (${code})`,
      'use a word of this code, or correct the code',
    ),
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
    refuse(
      'state-against-stage',
      [...path, 'state'],
      `found.${name}.state is ${found.state} beside stage ${found.stage}, expected ${oneOf(fitting)}`,
      'leave `state` out: it follows from the stage',
    ),
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
  if (of === name)
    return [
      refuse(
        'again-of-itself',
        path,
        `${name} is again-of itself, expected the lesion that healed before`,
        'name the lesion that healed before, or leave `again-of` out',
      ),
    ];
  if (!earlier)
    return [
      refuse(
        'again-of-undeclared',
        path,
        `${name} is again-of ${of}, which is no lesion of this file; ${declaredIn(animal.lesions, 'lesion')}`,
        'name the lesion that healed before, as it is declared',
      ),
    ];
  if (earlier.foot !== lesion.foot)
    return [
      refuse(
        'again-of-other-foot',
        path,
        `${name} on ${lesion.foot} is again-of ${of} on ${earlier.foot}, expected the same foot`,
        'correct the foot, or leave `again-of` out: on another foot it is a new lesion',
      ),
    ];
  const circle = circleOf(animal, name);
  // Told once, at the one declared last.
  if (circle.length > 0 && Object.keys(animal.lesions).findLast((each) => circle.includes(each)) !== name)
    return [];
  if (circle.length > 0)
    return [
      refuse(
        'again-of-in-a-circle',
        path,
        `${name} is again-of ${of}, and by that again-of itself, expected the earlier one last`,
        'keep `again-of` on the later lesion only',
      ),
    ];
  if (earlier.claw && lesion.claw && earlier.claw !== lesion.claw)
    return [
      warn(
        'again-of-other-claw',
        path,
        `${name} on the ${lesion.claw} claw is again-of ${of} on the ${earlier.claw} claw, expected the same place`,
        'correct the claw, or leave `again-of` out',
      ),
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
  if (last?.found.state === 'healed' || last?.found.stage === 'M0') return [];
  return [
    warn(
      'again-of-not-healed',
      ['lesions', name, 'again-of'],
      `${name} is again-of ${of}, which was not seen healed before ${first.visit.date}`,
      `write the visit at which ${of} was healed, or follow it on under ${of}`,
    ),
  ];
}
