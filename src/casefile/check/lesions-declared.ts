import type { Animal } from '../../record/animal.js';
import type { Found } from '../../record/visit.js';
import {
  wallGapKeys,
  lesionKinds,
  measures,
  type LesionFamily,
  type Measure,
  isWallGap,
  usualLine,
} from '../../reference/lesions.js';
import type { Finding } from '../finding.js';
import { refuse, lesionLooks, type LesionLook, oneOf, warn } from './check-context.js';
import type { Lesion } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import type { RecordPath } from '../../problem/problem.js';

/** A finding carries only keys that belong to its lesion's code. */
export function checkKeysOfLesion(animal: Animal): Finding[] {
  return lesionLooks(animal).flatMap((look) =>
    (Object.keys(look.found) as (keyof Found)[]).flatMap((key) => misplaced(look, key) ?? []),
  );
}

function misplaced(look: LesionLook, key: keyof Found): Finding | undefined {
  const { name, code, path } = look;
  const why = isMeasure(key) ? measureOff(look, key) : wordOff(look, key);
  if (!why) return undefined;
  const whose = key === 'distance' ? 'a lesion' : `${lesionKinds[code].name} (${code})`;
  return refuse(
    key === 'distance' ? 'distance-on-lesion' : `${key}-not-for-code`,
    [...path, key],
    `found.${name}.${key} does not belong to ${whose}: ${why.message}`,
    why.mend ?? `take \`${key}\` out, or correct the code of ${name}`,
    'key',
  );
}

interface Why {
  readonly message: string;
  readonly mend?: string;
}

const carries: Readonly<Record<LesionFamily, string>> = {
  wall: 'a wall gap carries `top`, `wall` and `width`',
  ulcer: 'an ulcer carries `length` and `width`',
  'double sole': 'a double sole carries `length` and `width`',
  'toe necrosis': 'no wall line and no size is read on it',
  dermatitis: 'it carries `stage`, and may carry `length` and `width`',
  present: 'it is only said to be `present` or `healed`',
};

function isMeasure(key: string): key is Measure {
  return (measures as readonly string[]).includes(key);
}

function measureOff({ code }: LesionLook, key: Measure): Why | undefined {
  const { family, measures: measured } = lesionKinds[code];
  if (measured.has(key)) return undefined;
  const repeats = key === 'length' && family === 'wall';
  return { message: repeats ? 'on a wall gap it only repeats wall − top' : carries[family] };
}

function wordOff({ code, found }: LesionLook, key: keyof Found): Why | undefined {
  const { family, measures: measured, states } = lesionKinds[code];
  if (key === 'distance')
    return {
      message: 'it is the length of a mark',
      mend: 'write the length of a wall gap as `top`; declare a growth mark under `marks`',
    };
  if (key === 'tool' && measured.size === 0)
    return { message: `nothing is measured on it; its state is ${oneOf(states)}` };
  if (key === 'infected' && found.infected && family === 'dermatitis')
    return {
      message: 'it says that dermatitis got into another lesion',
      mend: 'write `infected: true` on the lesion in the horn; on the skin the `stage` says it',
    };
  if (wallGapKeys.has(key) && found[key] !== false && family !== 'wall')
    return { message: 'only a gap in the wall has it' };
  return undefined;
}

/** Where a lesion is: enough to read a wall length by, and a place its code is found at. */
export function checkPlaceOfLesion(animal: Animal): Finding[] {
  const looks = lesionLooks(animal);
  return Object.entries(animal.lesions).flatMap(([name, lesion]) => {
    const own = looks.filter((look) => look.name === name);
    const codes = [lesion.code, ...own.map(({ code }) => code)];
    const first = own.find(({ found, code }) => isWallGap(code) && found.top !== undefined);
    return [
      ...(first ? lineOfTop(name, lesion, first.visit.date) : []),
      ...lineOffWall(name, lesion, codes),
      ...siteOfCode(name, lesion),
      ...lineOfSite(name, lesion),
    ];
  });
}

function lineOfTop(name: string, lesion: Lesion, date: string): Finding[] {
  return (['claw', 'line'] as const)
    .filter((key) => lesion[key] === undefined)
    .map((key) =>
      refuse(
        `${key}-missing`,
        ['lesions', name],
        `lesion ${name} has a top on ${date} and no ${key}, expected ${
          key === 'claw' ? 'inner or outer' : 'dorsal, abaxial, heel or axial'
        }`,
        key === 'claw' ? 'write the claw it is on' : 'write the line the lengths are read on',
        'key',
      ),
    );
}

function lineOffWall(name: string, { line }: Lesion, codes: readonly LesionCode[]): Finding[] {
  const code = codes.find((each) => !isWallGap(each));
  if (!line || code === undefined || codes.some(isWallGap)) return [];
  return [
    refuse(
      'line-not-for-code',
      ['lesions', name, 'line'],
      `lesion ${name} has the line ${line}, which does not belong to ${lesionKinds[code].name} (${code}): no wall length is read on it`,
      'take `line` out, or correct the code',
      'key',
    ),
  ];
}

function siteOfCode(name: string, { site, code }: Lesion): Finding[] {
  const { sites, name: fullName } = lesionKinds[code];
  if (!site || !sites || sites.has(site)) return [];
  return [
    warn(
      'site-unusual',
      ['lesions', name, 'site'],
      `lesion ${name} is ${fullName} (${code}) at the ${site}, expected ${oneOf(sites)}`,
      'correct the site or the code; if it is so, leave it',
    ),
  ];
}

function lineOfSite(name: string, { site, line, code }: Lesion): Finding[] {
  const usual = site && usualLine(site);
  if (!line || !usual || usual === line || !isWallGap(code)) return [];
  return [
    warn(
      'line-unusual',
      ['lesions', name, 'line'],
      `lesion ${name} at the ${site} is read on the ${line} line, expected the ${usual} line`,
      'correct the line; if its lengths run there, leave it',
    ),
  ];
}

/** Every lesion or mark that is named must be declared, and each name stands for one thing. */
export function checkDeclaredNames(animal: Animal): Finding[] {
  const marks = animal.marks ?? {};
  return [
    ...Object.keys(marks)
      .filter((name) => Object.hasOwn(animal.lesions, name))
      .map((name) =>
        refuse(
          'name-twice',
          ['marks', name],
          `${name} is declared as a lesion and as a mark, expected one of the two`,
          'give the mark a short name of its own, here and in the visits',
          'key',
        ),
      ),
    ...animal.visits.flatMap((visit, i) => [
      ...Object.keys(visit.found ?? {}).flatMap((name) =>
        Object.hasOwn(animal.lesions, name) || Object.hasOwn(marks, name)
          ? []
          : [
              refuse(
                'found-undeclared',
                ['visits', i, 'found', name],
                `found names ${name}, which is not declared; ${declaredIn({ ...animal.lesions, ...marks }, 'lesion or mark')}`,
                `declare ${name} under \`lesions\` or \`marks\` (\`growdown visit\` takes it as \`--lesions "${name}: …"\`), or correct the name`,
                'key',
              ),
            ],
      ),
      ...(visit['cut-back'] ?? []).flatMap((name, at) =>
        lesionNamed(animal, name, 'cut-back', ['visits', i, 'cut-back', at]),
      ),
      ...(visit.products ?? []).flatMap(({ lesion }, at) =>
        lesion === undefined
          ? []
          : lesionNamed(animal, lesion, 'product-lesion', ['visits', i, 'products', at, 'lesion']),
      ),
    ]),
  ];
}

function lesionNamed(
  animal: Animal,
  name: string,
  id: 'cut-back' | 'product-lesion',
  path: RecordPath,
): Finding[] {
  if (Object.hasOwn(animal.lesions, name)) return [];
  const key = id === 'cut-back' ? 'cut-back' : "the product's lesion";
  return [
    refuse(
      `${id}-undeclared`,
      path,
      Object.hasOwn(animal.marks ?? {}, name)
        ? `${key} names ${name}, which is a mark, expected a lesion`
        : `${key} names ${name}, which is not declared; ${declaredIn(animal.lesions, 'lesion')}`,
      `declare ${name} under \`lesions\`, or correct the name`,
    ),
  ];
}

/** What could have been meant. */
export function declaredIn(names: Readonly<Record<string, unknown>>, what: string): string {
  const all = Object.keys(names);
  return all.length > 0 ? `declared are ${all.join(', ')}` : `no ${what} is declared`;
}

/** `joined`: a wall gap that ran into another on the same claw is followed there and nowhere else. */
export function checkJoinedLesions(animal: Animal): Finding[] {
  const looks = lesionLooks(animal);
  const joinedTo = new Map<string, string>();
  return looks.flatMap((look) => {
    const into = look.found.joined;
    if (into === undefined) return followedOn(look, joinedTo.get(look.name));
    joinedTo.set(look.name, into);
    const wrong = wrongPartner(animal, look, into) ?? circle(look, into, joinedTo);
    return wrong ? [wrong] : [];
  });
}

function wrongPartner(
  animal: Animal,
  { name, declared, path }: LesionLook,
  into: string,
): Finding | undefined {
  const at = [...path, 'joined'];
  if (into === name)
    return refuse(
      'joined-itself',
      at,
      `${name} is joined to itself, expected another lesion`,
      'name the lesion it ran into',
    );
  const other = Object.hasOwn(animal.lesions, into) ? animal.lesions[into] : undefined;
  if (!other)
    return refuse(
      'joined-undeclared',
      at,
      `${name} is joined to ${into}, which is no lesion of this file; ${declaredIn(animal.lesions, 'lesion')}`,
      'name the lesion it ran into as it is declared under `lesions`',
    );
  if (other.foot !== declared.foot)
    return refuse(
      'joined-other-foot',
      at,
      `${name} on ${declared.foot} is joined to ${into} on ${other.foot}, expected a lesion on the same foot`,
      'name the lesion it ran into, or correct the foot',
    );
  if (other.claw && declared.claw && other.claw !== declared.claw)
    return refuse(
      'joined-other-claw',
      at,
      `${name} on the ${declared.claw} claw is joined to ${into} on the ${other.claw} claw, expected the same claw`,
      'name the lesion it ran into, or correct the claw',
    );
  return undefined;
}

function circle(
  { name, path }: LesionLook,
  into: string,
  joinedTo: ReadonlyMap<string, string>,
): Finding | undefined {
  const passed = new Set([name]);
  for (let next: string | undefined = into; next !== undefined; next = joinedTo.get(next)) {
    if (next === name)
      return refuse(
        'joined-in-a-circle',
        [...path, 'joined'],
        `${name} is joined to ${into}, which was joined to ${name} before, expected one that is followed on`,
        'keep `joined` on the lesion that is no longer followed, and take it off the other',
      );
    if (passed.has(next)) return undefined;
    passed.add(next);
  }
  return undefined;
}

function followedOn({ name, found, path }: LesionLook, into: string | undefined): Finding[] {
  if (into === undefined || (found.top === undefined && found.wall === undefined)) return [];
  return [
    warn(
      'measured-after-joined',
      path,
      `${name} is measured after it was joined to ${into}, expected its lengths under ${into}`,
      `write the lengths under ${into}, or take \`joined\` off if the two are still apart`,
      'key',
    ),
  ];
}
