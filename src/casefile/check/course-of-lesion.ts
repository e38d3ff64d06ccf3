import { isHealed } from '../../record/visit.js';
import type { Animal } from '../../record/animal.js';
import { familyOf, lesionKinds } from '../../reference/lesions.js';
import { inRow } from '../../problem/message.js';
import {
  type Findings,
  type LesionLook,
  declaredAs,
  lesionLooks,
  markLooks,
  refuse,
  remark,
  warn,
} from './check-context.js';
import { isLeftDown } from '../../record/lifting.js';
import type { DdStage, LesionCode, LesionState } from '../../record/words.js';
import type { Lesion } from '../../record/lesion.js';
import { declaredIn } from './lesions-declared.js';

/** From look to look a lesion takes a course that its kind can take. */
export function* checkCourseOfLesion(animal: Animal): Findings {
  const codes = new Map<string, LesionCode>();
  const stated = new Map<string, LesionLook>();
  for (const look of lesionLooks(animal)) {
    const { name, declared, code, found } = look;
    yield* renamed(look, codes.get(name) ?? declared.code);
    codes.set(name, code);
    if (found.state === undefined) continue;
    yield* afterHealed(look, stated.get(name));
    stated.set(name, look);
  }
  // What an animal brought from another farm was found there, and is in the file that stayed there.
  if (animal.visits.length === 0 && animal.earlier?.some(({ farm }) => farm !== undefined)) return;
  for (const name of Object.keys(animal.lesions))
    if (!codes.has(name)) yield remark('lesion-never-found', ['lesions', name], { name }, { at: 'key' });
  const seen = markLooks(animal).filter(
    ({ found }) => found.lifted !== false || found.distance !== undefined,
  );
  for (const mark of Object.keys(animal.marks ?? {}))
    if (!seen.some(({ name }) => name === mark))
      yield remark('mark-never-measured', ['marks', mark], { name: mark }, { at: 'key' });
}

function* afterHealed(
  { name, found, code, path, visit }: LesionLook,
  last: LesionLook | undefined,
): Findings {
  if (!last) return;
  const { state = '' } = found;
  const values = { name, state, day: visit.date, before: last.visit.date };
  const at = [...path, 'state'];
  if (last.found.state === 'lasting' && state === 'healed') yield refuse('lasting-then-healed', at, values);
  if (last.found.state !== 'healed' || !['open', 'covered'].includes(state)) return;
  const family = familyOf(code);
  if (family === 'wall') yield refuse('healed-then-open', at, values);
  else if (family !== 'dermatitis') yield warn('ulcer-open-again', at, values);
}

/** Families whose looks share words, so that a lesion may be renamed between them as it is better seen. */
const soleFamilies = new Set(['ulcer', 'double sole', 'toe necrosis', 'present']);

function* renamed({ name, code, path }: LesionLook, codeBefore: LesionCode): Findings {
  const families = [familyOf(code), familyOf(codeBefore)];
  if (families[0] === families[1]) return;
  const before = lesionKinds[codeBefore].name;
  const values = { name, before, codeBefore, lesion: lesionKinds[code].name, code };
  yield families.every((family) => soleFamilies.has(family))
    ? warn('code-of-another-kind', [...path, 'code'], values)
    : refuse('code-of-another-family', [...path, 'code'], values);
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

/** Every look at a lifted foot says the status of the lesion, in a word its code has, and says it once. */
export function* checkStateOfLesion(animal: Animal): Findings {
  for (const { name, found, visit, declared, code, path } of lesionLooks(animal)) {
    const { states, measures, family, name: lesion } = lesionKinds[code];
    const { state, stage, joined } = found;
    const expected = (): string => inRow('or', states);
    // Joined says it: the gap is followed under the other name from here on.
    if (!(state ?? stage ?? joined) && !isLeftDown(visit, declared.foot, found)) {
      const way = measures.has('stage') ? 'stage' : undefined;
      const values = { name, day: visit.date, expected: expected() };
      yield refuse('state-missing', [...path, way ?? 'state'], values, { way, at: 'key' });
    }
    if (state === undefined) continue;
    if (!states.has(state))
      yield refuse('state-not-for-code', [...path, 'state'], {
        name,
        state,
        lesion,
        code,
        expected: expected(),
      });
    else if (stage && family === 'dermatitis' && !statesBeside[stage].includes(state))
      yield refuse('state-against-stage', [...path, 'state'], {
        name,
        state,
        stage,
        expected: inRow('or', statesBeside[stage]),
      });
  }
}

/** `again-of`: the same place broke down again, after it had healed. */
export function* checkLesionsAgain(animal: Animal): Findings {
  for (const [name, lesion] of Object.entries(animal.lesions)) {
    const earlier = lesion['again-of'];
    if (earlier === undefined) continue;
    yield* wrongPlace(animal, name, lesion, earlier);
    yield* notHealed(animal, name, earlier);
  }
}

function* wrongPlace({ lesions }: Animal, name: string, lesion: Lesion, earlier: string): Findings {
  const path = ['lesions', name, 'again-of'];
  const other = declaredAs(lesions, earlier);
  const circle = circleOf(lesions, name);
  const values = { name, earlier };
  if (earlier === name) yield refuse('again-of-itself', path, values);
  else if (!other) {
    const { listed, way } = declaredIn(lesions);
    yield refuse('again-of-undeclared', path, { ...values, listed }, { way });
  } else if (other.foot !== lesion.foot)
    yield refuse('again-of-other-foot', path, { ...values, foot: lesion.foot, otherFoot: other.foot });
  else if (circle.length > 0) {
    // Told once, at the one declared last.
    if (Object.keys(lesions).findLast((each) => circle.includes(each)) === name)
      yield refuse('again-of-in-a-circle', path, values);
  } else if (other.claw && lesion.claw && other.claw !== lesion.claw)
    yield warn('again-of-other-claw', path, { ...values, claw: lesion.claw, otherClaw: other.claw });
}

/** The lesions that follow on from a lesion and lead back to it; empty where none do. */
function circleOf(lesions: Animal['lesions'], name: string): string[] {
  const passed: string[] = [];
  let next = lesions[name]?.['again-of'];
  while (next !== undefined && !passed.includes(next)) {
    passed.push(next);
    if (next === name) return passed;
    next = declaredAs(lesions, next)?.['again-of'];
  }
  return [];
}

/** The earlier lesion should have been seen healed before the later one was first found. */
function* notHealed(animal: Animal, name: string, earlier: string): Findings {
  if (!declaredAs(animal.lesions, earlier) || circleOf(animal.lesions, name).length > 0) return;
  const looks = lesionLooks(animal);
  const first = looks.find((look) => look.name === name);
  if (!first) return;
  const last = looks.findLast(
    ({ name: looked, visitAt, found }) =>
      looked === earlier && visitAt <= first.visitAt && (found.state ?? found.stage) !== undefined,
  );
  if (!isHealed(last?.found))
    yield warn('again-of-not-healed', ['lesions', name, 'again-of'], {
      name,
      earlier,
      day: first.visit.date,
    });
}
