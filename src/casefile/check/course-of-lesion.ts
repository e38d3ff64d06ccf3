import type { Animal } from '../../record/animal.js';
import { familyOf, lesionKinds } from '../../reference/lesions.js';
import type { Finding } from '../finding.js';
import { refuse, remark, warn } from './finding-at.js';
import { lesionLooks, markLooks, type LesionLook } from './look.js';

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
