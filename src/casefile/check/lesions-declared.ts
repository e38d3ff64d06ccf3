import type { Animal } from '../../record/animal.js';
import type { Found } from '../../record/visit.js';
import {
  wallGapKeys,
  lesionKinds,
  measures,
  type Measure,
  isWallGap,
  usualLine,
} from '../../reference/lesions.js';
import { refuse, lesionLooks, type LesionLook, warn } from './check-context.js';
import type { Lesion } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import { inRow } from '../../problem/message.js';
import type { Finding, RecordPath } from '../../problem/problem.js';

/** A finding carries only keys that belong to its lesion's code. */
export function checkKeysOfLesion(animal: Animal): Finding[] {
  return lesionLooks(animal).flatMap((look) =>
    (Object.keys(look.found) as (keyof Found)[]).flatMap((key) => misplaced(look, key) ?? []),
  );
}

function misplaced(look: LesionLook, key: keyof Found): Finding | undefined {
  const { name, code, path } = look;
  const way = isMeasure(key) ? measureOff(look, key) : wordOff(look, key);
  if (!way) return undefined;
  const { states, name: lesion } = lesionKinds[code];
  const at = [...path, key];
  if (key === 'distance') return refuse('distance-on-lesion', at, { name }, { at: 'key' });
  const values = { name, key, lesion, code, states: inRow('or', states) };
  return refuse(`${key}-not-for-code`, at, values, { way, at: 'key', wordsOf: 'top-not-for-code' });
}

function isMeasure(key: string): key is Measure {
  return (measures as readonly string[]).includes(key);
}

/** Which words say why a length or stage is not of the code: by what its family carries. */
function measureOff({ code }: LesionLook, key: Measure): string | undefined {
  const { family, measures: measured } = lesionKinds[code];
  if (measured.has(key)) return undefined;
  return key === 'length' && family === 'wall' ? 'wall-length' : family.replace(' ', '-');
}

function wordOff({ code, found }: LesionLook, key: keyof Found): string | undefined {
  const { family, measures: measured } = lesionKinds[code];
  if (key === 'distance') return 'distance';
  if (key === 'tool' && measured.size === 0) return 'tool';
  if (key === 'infected' && found.infected && family === 'dermatitis') return 'infected';
  return wallGapKeys.has(key) && found[key] !== false && family !== 'wall' ? 'only-wall' : undefined;
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
    .map((key) => refuse(`${key}-missing`, ['lesions', name], { name, day: date }, { at: 'key' }));
}

function lineOffWall(name: string, { line }: Lesion, codes: readonly LesionCode[]): Finding[] {
  const code = codes.find((each) => !isWallGap(each));
  if (!line || code === undefined || codes.some(isWallGap)) return [];
  return [
    refuse(
      'line-not-for-code',
      ['lesions', name, 'line'],
      { name, line, lesion: lesionKinds[code].name, code },
      { at: 'key' },
    ),
  ];
}

function siteOfCode(name: string, { site, code }: Lesion): Finding[] {
  const { sites, name: fullName } = lesionKinds[code];
  if (!site || !sites || sites.has(site)) return [];
  return [
    warn('site-unusual', ['lesions', name, 'site'], {
      name,
      lesion: fullName,
      code,
      site,
      expected: inRow('or', sites),
    }),
  ];
}

function lineOfSite(name: string, { site, line, code }: Lesion): Finding[] {
  const usual = site && usualLine(site);
  if (!line || !usual || usual === line || !isWallGap(code)) return [];
  return [warn('line-unusual', ['lesions', name, 'line'], { name, site, line, expected: usual })];
}

/** Every lesion or mark that is named must be declared, and each name stands for one thing. */
export function checkDeclaredNames(animal: Animal): Finding[] {
  const marks = animal.marks ?? {};
  const { listed, way } = declaredIn({ ...animal.lesions, ...marks });
  return [
    ...Object.keys(marks)
      .filter((name) => Object.hasOwn(animal.lesions, name))
      .map((name) => refuse('name-twice', ['marks', name], { name }, { at: 'key' })),
    ...animal.visits.flatMap((visit, i) => [
      ...Object.keys(visit.found ?? {}).flatMap((name) =>
        Object.hasOwn(animal.lesions, name) || Object.hasOwn(marks, name)
          ? []
          : [refuse('found-undeclared', ['visits', i, 'found', name], { name, listed }, { way, at: 'key' })],
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
  if (Object.hasOwn(animal.marks ?? {}, name))
    return [refuse(`${id}-undeclared`, path, { name }, { way: 'mark' })];
  const { listed, way } = declaredIn(animal.lesions);
  return [refuse(`${id}-undeclared`, path, { name, listed }, { way })];
}

/** What could have been meant, and which words say so. */
export function declaredIn(names: Readonly<Record<string, unknown>>): {
  readonly listed: string;
  readonly way: 'none-declared' | undefined;
} {
  const all = Object.keys(names);
  return { listed: all.join(', '), way: all.length > 0 ? undefined : 'none-declared' };
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
  if (into === name) return refuse('joined-itself', at, { name });
  const other = Object.hasOwn(animal.lesions, into) ? animal.lesions[into] : undefined;
  const { listed, way } = declaredIn(animal.lesions);
  if (!other) return refuse('joined-undeclared', at, { name, other: into, listed }, { way });
  if (other.foot !== declared.foot)
    return refuse('joined-other-foot', at, { name, foot: declared.foot, other: into, otherFoot: other.foot });
  if (other.claw && declared.claw && other.claw !== declared.claw)
    return refuse('joined-other-claw', at, { name, claw: declared.claw, other: into, otherClaw: other.claw });
  return undefined;
}

function circle(
  { name, path }: LesionLook,
  into: string,
  joinedTo: ReadonlyMap<string, string>,
): Finding | undefined {
  const passed = new Set([name]);
  for (let next: string | undefined = into; next !== undefined; next = joinedTo.get(next)) {
    if (next === name) return refuse('joined-in-a-circle', [...path, 'joined'], { name, other: into });
    if (passed.has(next)) return undefined;
    passed.add(next);
  }
  return undefined;
}

function followedOn({ name, found, path }: LesionLook, into: string | undefined): Finding[] {
  if (into === undefined || (found.top === undefined && found.wall === undefined)) return [];
  return [warn('measured-after-joined', path, { name, other: into }, { at: 'key' })];
}
