import type { Animal } from '../../record/animal.js';
import type { Found } from '../../record/visit.js';
import { wallGapKeys, lesionKinds, measures, isWallGap, usualLine } from '../../reference/lesions.js';
import {
  type Findings,
  type LesionLook,
  declaredAs,
  entriesOf,
  lesionLooks,
  refuse,
  warn,
} from './check-context.js';
import type { Lesion } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import { inRow } from '../../problem/message.js';
import type { RecordPath } from '../../problem/problem.js';

/** A finding carries only keys that belong to its lesion's code. */
export function* checkKeysOfLesion(animal: Animal): Findings {
  for (const { name, code, path, found } of lesionLooks(animal))
    for (const key of Object.keys(found) as (keyof Found)[]) {
      if (key === 'distance') yield refuse('distance-on-lesion', [...path, key], { name }, { at: 'key' });
      const way = whyMisplaced(code, found, key);
      if (!way) continue;
      const { states, name: lesion } = lesionKinds[code];
      const values = { name, key, lesion, code, states: inRow('or', states) };
      const said = { way, at: 'key', wordsOf: 'top-not-for-code' } as const;
      yield refuse(`${key}-not-for-code`, [...path, key], values, said);
    }
}

/** Which words say why a key is not of the code: of a length or stage by what its family carries. */
function whyMisplaced(code: LesionCode, found: Found, key: keyof Found): string | undefined {
  const { family, measures: measured } = lesionKinds[code];
  const measure = measures.find((one) => one === key);
  if (measure) {
    if (measured.has(measure)) return undefined;
    return key === 'length' && family === 'wall' ? 'wall-length' : family.replace(' ', '-');
  }
  if (key === 'tool' && measured.size === 0) return 'tool';
  if (key === 'infected' && found.infected && family === 'dermatitis') return 'infected';
  return wallGapKeys.has(key) && found[key] !== false && family !== 'wall' ? 'only-wall' : undefined;
}

/** Where a lesion is: enough to read a wall length by, and a place its code is found at. */
export function* checkPlaceOfLesion(animal: Animal): Findings {
  const looks = lesionLooks(animal);
  for (const [name, declared] of Object.entries(animal.lesions)) {
    const { code, site, line } = declared;
    const path = ['lesions', name];
    const own = looks.filter((look) => look.name === name);
    const first = own.find((look) => isWallGap(look.code) && look.found.top !== undefined);
    for (const key of ['claw', 'line'] as const)
      if (first && declared[key] === undefined)
        yield refuse(`${key}-missing`, path, { name, day: first.visit.date }, { at: 'key' });
    if (line && ![code, ...own.map((look) => look.code)].some(isWallGap))
      yield refuse(
        'line-not-for-code',
        [...path, 'line'],
        { name, line, lesion: lesionKinds[code].name, code },
        { at: 'key' },
      );
    yield* placeOfCode(name, declared);
    const expected = site && usualLine(site);
    if (line && expected && expected !== line && isWallGap(code))
      yield warn('line-unusual', [...path, 'line'], { name, site, line, expected });
  }
}

function* placeOfCode(name: string, { site, code }: Lesion): Findings {
  const { sites, name: lesion } = lesionKinds[code];
  if (!site || !sites || sites.has(site)) return;
  const expected = inRow('or', sites);
  yield warn('site-unusual', ['lesions', name, 'site'], { name, lesion, code, site, expected });
}

/** Every lesion or mark that is named must be declared, and each name stands for one thing. */
export function* checkDeclaredNames(animal: Animal): Findings {
  const { lesions, marks = {}, visits } = animal;
  for (const name of Object.keys(marks))
    if (declaredAs(lesions, name)) yield refuse('name-twice', ['marks', name], { name }, { at: 'key' });
  const { listed, way } = declaredIn({ ...lesions, ...marks });
  for (const [i, { found = {} }] of visits.entries())
    for (const name of Object.keys(found))
      if (!declaredAs(lesions, name) && !declaredAs(marks, name))
        yield refuse('found-undeclared', ['visits', i, 'found', name], { name, listed }, { way, at: 'key' });
  for (const { entry: name, path } of entriesOf(visits, 'cut-back'))
    yield* lesionNamed(animal, name, 'cut-back-undeclared', path);
  for (const { entry, path } of entriesOf(visits, 'products'))
    if (entry.lesion !== undefined)
      yield* lesionNamed(animal, entry.lesion, 'product-lesion-undeclared', [...path, 'lesion']);
}

function* lesionNamed({ lesions, marks }: Animal, name: string, id: string, path: RecordPath): Findings {
  if (declaredAs(lesions, name)) return;
  const { listed, way } = declaredIn(lesions);
  yield refuse(id, path, { name, listed }, { way: declaredAs(marks, name) ? 'mark' : way });
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
export function* checkJoinedLesions(animal: Animal): Findings {
  const joinedTo = new Map<string, string>();
  for (const look of lesionLooks(animal)) {
    const { name, found, path } = look;
    const before = joinedTo.get(name);
    if (found.joined !== undefined) {
      joinedTo.set(name, found.joined);
      yield* joinedWrongly(animal, look, found.joined, joinedTo);
    } else if (before !== undefined && (found.top ?? found.wall) !== undefined)
      yield warn('measured-after-joined', path, { name, other: before }, { at: 'key' });
  }
}

function* joinedWrongly(
  { lesions }: Animal,
  { name, declared: { foot, claw }, path }: LesionLook,
  other: string,
  joinedTo: ReadonlyMap<string, string>,
): Findings {
  const at = [...path, 'joined'];
  const { listed, way } = declaredIn(lesions);
  const into = declaredAs(lesions, other);
  if (other === name) yield refuse('joined-itself', at, { name });
  else if (!into) yield refuse('joined-undeclared', at, { name, other, listed }, { way });
  else if (into.foot !== foot)
    yield refuse('joined-other-foot', at, { name, foot, other, otherFoot: into.foot });
  else if (into.claw && claw && into.claw !== claw)
    yield refuse('joined-other-claw', at, { name, claw, other, otherClaw: into.claw });
  else {
    const passed = new Set([name]);
    let next: string | undefined = other;
    while (next !== undefined && !passed.has(next)) {
      passed.add(next);
      next = joinedTo.get(next);
    }
    if (next === name) yield refuse('joined-in-a-circle', at, { name, other });
  }
}
