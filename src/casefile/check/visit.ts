import type { Animal } from '../../record/animal.js';
import { type AnimalCheckContext, refuse, warn } from './check-context.js';
import { inRow } from '../../problem/message.js';
import type { Finding } from '../../problem/problem.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { Visit, ProductUse, Found } from '../../record/visit.js';
import { conditionScale, gaitScale } from '../../reference/scales.js';
import { substancesOf } from '../../reference/substances.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { Foot } from '../../record/words.js';

/** Pictures lie in the farm's folder and are JPEG, PNG or WebP. One that is missing is a gap, not an error. */
export function checkPhotosOfVisit(animal: Animal, context: AnimalCheckContext): Finding[] {
  const shown = new Map<string, string>();
  return animal.visits.flatMap((visit, i) =>
    (visit.photos ?? []).flatMap(({ file }, at) => {
      const path = ['visits', i, 'photos', at, 'file'];
      const before = shown.get(file);
      shown.set(file, visit.date);
      const wrong = wrongFile(file, path, context);
      if (wrong || before === undefined) return wrong ? [wrong] : [];
      return [warn('photo-twice', path, { file, before, day: visit.date })];
    }),
  );
}

function wrongFile(
  file: string,
  path: (string | number)[],
  { picture, farmSlug }: AnimalCheckContext,
): Finding | undefined {
  switch (picture(file).kind) {
    case 'outside':
      return refuse('photo-outside', path, { file, farm: farmSlug });
    case 'heic':
      return refuse('photo-heic', path, { file });
    case 'not-a-picture':
      return refuse('photo-not-picture', path, { file });
    default:
      return undefined;
  }
}

/** A score means nothing without its scale: the farm declares one, and the score lies on it. */
export function checkScoresOfVisit(animal: Animal, context: AnimalCheckContext): Finding[] {
  return animal.visits.flatMap((visit, i) => [...gait(visit, i, context), ...condition(visit, i, context)]);
}

function gait({ gait: score, date }: Visit, i: number, { farm, farmSlug }: AnimalCheckContext): Finding[] {
  if (score === undefined || !farm) return [];
  const path = ['visits', i, 'gait'];
  const scale = gaitScaleOn(farm, date);
  if (!scale) return [refuse('gait-without-scale', path, { score, farm: farmSlug, day: date })];
  const { lowest, highest, step } = gaitScale[scale];
  if (score < lowest || score > highest)
    return [refuse('gait-off-scale', path, { score, lowest, highest, scale, farm: farmSlug })];
  if (!Number.isInteger((score - lowest) / step))
    return [refuse('gait-between-steps', path, { score, scale })];
  return [];
}

function condition(
  { condition: score }: Visit,
  i: number,
  { farm, farmSlug }: AnimalCheckContext,
): Finding[] {
  if (score === undefined || !farm) return [];
  const path = ['visits', i, 'condition'];
  const scale = farm['condition-scale'];
  if (!scale) return [refuse('condition-without-scale', path, { score, farm: farmSlug })];
  const { lowest, highest } = conditionScale[scale];
  if (score >= lowest && score <= highest) return [];
  return [refuse('condition-off-scale', path, { score, lowest, highest, scale, farm: farmSlug })];
}

/** Products: milk withdrawal given once, a class that fits the active substance, and the vet's days under a wrap. */
export function checkProducts({ visits, lesions }: Animal): Finding[] {
  return visits.flatMap((visit, i) =>
    (visit.products ?? []).flatMap((use, at) => {
      const path = ['visits', i, 'products', at];
      return [
        ...milkTwice(use, path),
        ...calledNoMedicine(use, path),
        ...zeroUnderWrap(use, path, visit, lesions),
      ];
    }),
  );
}

type Path = readonly (string | number)[];

/** In days, in hours or in milkings. */
function milkTwice(use: ProductUse, path: Path): Finding[] {
  const given = (['milk-days', 'milk-hours', 'milk-milkings'] as const).filter(
    (key) => use[key] !== undefined,
  );
  if (given.length < 2) return [];
  return [
    refuse(
      'milk-withdrawal-twice',
      [...path, given[1] ?? ''],
      { product: use.product, keys: inRow('and', given), expected: inRow('or', given) },
      { at: 'key' },
    ),
  ];
}

function calledNoMedicine(use: ProductUse, path: Path): Finding[] {
  const [first] = substancesOf(use);
  if (use.class !== 'not a medicine' || !first) return [];
  return [
    warn('medicine-called-none', [...path, 'class'], {
      product: use.product,
      substance: first.name,
      group: first.group,
    }),
  ];
}

/** Under a wrap a label's 0 no longer holds, unless whoever prescribed it gave it so. */
function zeroUnderWrap(use: ProductUse, path: Path, visit: Visit, lesions: Animal['lesions']): Finding[] {
  const foot = lesions[use.lesion ?? '']?.foot;
  const isWrapped = visit.wraps?.some(
    (wrap) => wrap.foot === foot && (wrap.event === 'fitted' || wrap.event === 'replaced'),
  );
  const zero = (['milk-days', 'milk-hours', 'milk-milkings', 'meat-days'] as const).find(
    (key) => use[key] === 0,
  );
  if (!isWrapped || !zero || use.class === 'not a medicine' || use['prescribed-by'] !== undefined) return [];
  return [warn('zero-days-under-wrap', [...path, zero], { product: use.product, zero })];
}

const lengthKeys = ['top', 'wall', 'length', 'width', 'depth', 'distance'] as const satisfies (keyof Found)[];

/** A report or a missed visit lifts no foot: nothing is measured, trimmed or cut back. */
export function checkVisitWithoutLifting({ visits }: Animal): Finding[] {
  return visits.flatMap((visit, i) =>
    isLiftingVisit(visit) ? [] : [...lengths(visit, i), ...work(visit, i), ...feetLifted(visit, i)],
  );
}

function lengths(visit: Visit, i: number): Finding[] {
  return Object.entries(visit.found ?? {}).flatMap(([name, found]) =>
    lengthKeys
      .filter((key) => found[key] !== undefined)
      .map((key) =>
        refuse(
          'length-without-lifting',
          ['visits', i, 'found', name, key],
          { name, key, kind: visit.kind },
          { at: 'key' },
        ),
      ),
  );
}

function work(visit: Visit, i: number): Finding[] {
  return (['trimmed', 'cut-back'] as const)
    .filter((key) => (visit[key] ?? []).length > 0)
    .map((key) => refuse(`${key}-without-lifting`, ['visits', i, key], { kind: visit.kind }, { at: 'key' }));
}

function feetLifted(visit: Visit, i: number): Finding[] {
  return (Object.keys(visit.feet ?? {}) as Foot[])
    .filter((foot) => visit.feet?.[foot]?.lifted)
    .map((foot) =>
      warn('lifted-without-lifting', ['visits', i, 'feet', foot, 'lifted'], { foot, kind: visit.kind }),
    );
}
