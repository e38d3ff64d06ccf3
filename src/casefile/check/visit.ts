import type { Animal } from '../../record/animal.js';
import { type AnimalCheckContext, type Findings, entriesOf, refuse, warn } from './check-context.js';
import { inRow } from '../../problem/message.js';
import type { RecordPath } from '../../problem/problem.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { Visit, ProductUse } from '../../record/visit.js';
import { conditionScale, gaitScale } from '../../reference/scales.js';
import type { Values } from '../../reference/words.js';
import type { GaitScale } from '../../record/words.js';
import { substancesOf } from '../../reference/substances.js';

const wrongFiles: Readonly<Record<string, string>> = {
  outside: 'photo-outside',
  heic: 'photo-heic',
  'not-a-picture': 'photo-not-picture',
};

/** Pictures lie in the farm's folder and are JPEG, PNG or WebP. One that is missing is a gap, not an error. */
export function* checkPhotosOfVisit({ visits }: Animal, context: AnimalCheckContext): Findings {
  const shown = new Map<string, string>();
  for (const { entry, visit, path } of entriesOf(visits, 'photos')) {
    const { file } = entry;
    const before = shown.get(file);
    shown.set(file, visit.date);
    const wrong = wrongFiles[context.picture(file).kind];
    if (wrong) yield refuse(wrong, [...path, 'file'], { file, farm: context.farmSlug });
    else if (before !== undefined)
      yield warn('photo-twice', [...path, 'file'], { file, before, day: visit.date });
  }
}

/** A score means nothing without its scale: the farm declares one, and the score lies on it. */
export function* checkScoresOfVisit({ visits }: Animal, { farm, farmSlug }: AnimalCheckContext): Findings {
  if (!farm) return;
  for (const [i, { gait, condition, date: day }] of visits.entries()) {
    const about = { farm: farmSlug, day };
    if (gait !== undefined) yield* gaitOnScale(gait, i, about, gaitScaleOn(farm, day));
    if (condition === undefined) continue;
    const values = { score: condition, farm: farmSlug };
    const scale = farm['condition-scale'];
    const { lowest, highest } = scale ? conditionScale[scale] : { lowest: 0, highest: 0 };
    if (!scale) yield refuse('condition-without-scale', ['visits', i, 'condition'], values);
    else if (condition < lowest || condition > highest)
      yield refuse('condition-off-scale', ['visits', i, 'condition'], { ...values, scale, lowest, highest });
  }
}

function* gaitOnScale(score: number, i: number, about: Values, scale: GaitScale | undefined): Findings {
  const values = { ...about, score };
  const path = ['visits', i, 'gait'];
  if (!scale) return yield refuse('gait-without-scale', path, values);
  const { lowest, highest, step } = gaitScale[scale];
  if (score < lowest || score > highest)
    yield refuse('gait-off-scale', path, { ...values, scale, lowest, highest });
  else if (!Number.isInteger((score - lowest) / step))
    yield refuse('gait-between-steps', path, { ...values, scale });
}

/** Products: milk withdrawal given once, a class that fits the active substance, and the vet's days under a wrap. */
export function* checkProducts({ visits, lesions }: Animal): Findings {
  for (const { entry, visit, path } of entriesOf(visits, 'products')) {
    yield* milkTwice(entry, path);
    const [first] = substancesOf(entry);
    if (entry.class === 'not a medicine' && first)
      yield warn('medicine-called-none', [...path, 'class'], {
        product: entry.product,
        substance: first.name,
        group: first.group,
      });
    yield* zeroUnderWrap(entry, path, visit, lesions);
  }
}

const milkKeys = ['milk-days', 'milk-hours', 'milk-milkings'] as const;

/** In days, in hours or in milkings. */
function* milkTwice(use: ProductUse, path: RecordPath): Findings {
  const given = milkKeys.filter((key) => use[key] !== undefined);
  if (!given[1]) return;
  const values = { product: use.product, keys: inRow('and', given), expected: inRow('or', given) };
  yield refuse('milk-withdrawal-twice', [...path, given[1]], values, { at: 'key' });
}

/** Under a wrap a label's 0 no longer holds, unless whoever prescribed it gave it so. */
function* zeroUnderWrap(
  use: ProductUse,
  path: RecordPath,
  { wraps = [] }: Visit,
  lesions: Animal['lesions'],
): Findings {
  const foot = lesions[use.lesion ?? '']?.foot;
  const isWrapped = wraps.some(
    (wrap) => wrap.foot === foot && (wrap.event === 'fitted' || wrap.event === 'replaced'),
  );
  const zero = [...milkKeys, 'meat-days' as const].find((key) => use[key] === 0);
  if (isWrapped && zero && use.class !== 'not a medicine' && use['prescribed-by'] === undefined)
    yield warn('zero-days-under-wrap', [...path, zero], { product: use.product, zero });
}
