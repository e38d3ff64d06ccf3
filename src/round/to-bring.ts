import { blockTimeline } from '../healing/block-timeline.js';
import { wrapTimeline } from '../healing/fixture-span.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import { type BlockMaterial, blockMaterials } from '../record/words.js';
import type { CaseWork } from '../schedule/case-work.js';

/** What a visit may use up, going by what was used last. */
export interface ToBring {
  /** In the order of the word list; `not-written` where no material was ever written for her. */
  readonly blocks: readonly { readonly material: BlockMaterial | 'not-written'; readonly count: number }[];
  readonly wraps: number;
}

/**
 * What to bring for animals that are to be lifted: one block for each that is on, in case it is renewed, and for each
 * that was lost and not renewed, of the material last used on her; one wrap for each foot with a wrap on or wrapped at
 * the last lift. What a new case will need, nobody knows.
 *
 * Checked: tests/round/to-bring.test.ts
 */
export function toBring(
  cases: readonly Pick<CaseWork, 'record' | 'standing'>[],
  today: CalendarDay,
): ToBring {
  const materials = cases.flatMap((one) => blocksOf(one, today));
  return {
    blocks: inOrder((material) => materials.filter((used) => used === material).length),
    wraps: cases.reduce((sum, { record }) => sum + wrappedFeet(record.animal, today), 0),
  };
}

/** Of several farms together. */
export function bringTogether(several: readonly ToBring[]): ToBring {
  const all = several.flatMap(({ blocks }) => blocks);
  return {
    blocks: inOrder((material) =>
      all.reduce((sum, block) => sum + (block.material === material ? block.count : 0), 0),
    ),
    wraps: several.reduce((sum, { wraps }) => sum + wraps, 0),
  };
}

/** Each material that is used, in the order of the word list. */
function inOrder(countOf: (material: BlockMaterial | 'not-written') => number): ToBring['blocks'] {
  return [...blockMaterials, 'not-written' as const]
    .map((material) => ({ material, count: countOf(material) }))
    .filter(({ count }) => count > 0);
}

function blocksOf({ record, standing }: Pick<CaseWork, 'record' | 'standing'>, today: CalendarDay) {
  const { spans } = blockTimeline(record.animal, today);
  const begun = record.animal.visits[standing.episode.visits[0] ?? 0]?.date ?? '';
  const lastUsed = spans.findLast(({ material }) => material !== undefined)?.material;
  const latest = spans.filter((span, at) => !spans.slice(at + 1).some((later) => isSamePlace(later, span)));
  return latest
    .filter(({ end }) => end === undefined || (end.how === 'lost' && end.by >= begun))
    .map(({ material }) => material ?? lastUsed ?? 'not-written');
}

type Span = ReturnType<typeof blockTimeline>['spans'][number];

function isSamePlace(a: Span, b: Span): boolean {
  return a.foot === b.foot && a.claw === b.claw;
}

function wrappedFeet(animal: Animal, today: CalendarDay): number {
  const on = wrapTimeline(animal, today).filter(({ end }) => !end);
  const last = animal.visits.findLast((visit) => isLiftingVisit(visit) && visit.date <= today);
  const wrapped = (last?.wraps ?? []).filter(({ event }) => event === 'fitted' || event === 'replaced');
  return new Set([...on, ...wrapped].map(({ foot }) => foot)).size;
}
