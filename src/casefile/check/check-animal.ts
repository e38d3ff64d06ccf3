import { z } from 'zod';
import { readShared } from '../../reference/read-shared.js';
import { address } from '../../reference/sourced.js';
import type { Animal } from '../../record/animal.js';
import type { Finding } from '../../problem/problem.js';
import {
  type AnimalCheckContext,
  type Findings,
  entriesOf,
  lesionLooks,
  markLooks,
  refuse,
  remark,
  warn,
} from './check-context.js';
import { checkCourseOfLesion, checkLesionsAgain, checkStateOfLesion } from './course-of-lesion.js';
import { checkCorrectionsOfAnimal, checkDaysOfLife, checkDaysOfVisit } from './days.js';
import {
  checkDeclaredNames,
  checkJoinedLesions,
  checkKeysOfLesion,
  checkPlaceOfLesion,
} from './lesions-declared.js';
import { checkDoubts, checkSignsGone, checkAboutVet, checkVetAnswers } from './signs-and-answers.js';
import { checkEpisodesAndVisits, checkEpisodesInOrder, checkOrderOfVisits } from './episodes.js';
import { checkFixtures, checkFootLeftDown, checkVisitWithoutLifting } from './feet-lifted.js';
import { checkLengthsOfLesion, checkTopAndWall } from './lengths.js';
import { checkPhotosOfVisit, checkProducts, checkScoresOfVisit } from './visit.js';
import { slugFrom } from '../folder-entries.js';
import { familyOf } from '../../reference/lesions.js';
import type { Claw, Foot } from '../../record/words.js';

const shape = z.strictObject({
  /** Of the mark without its spaces and hyphens. */
  shape: z.string(),
  said: z.string(),
  example: z.string(),
});

const shared = readShared(
  'tag-shapes.json',
  z.strictObject({
    address,
    tags: z.array(shape.extend({ scheme: z.string(), begins: z.string() })),
    electronic: shape,
  }),
);

/** What a mark should look like, in words, with an invented example. */
type ExpectedShape = Pick<z.infer<typeof shape>, 'said' | 'example'>;

/**
 * The shape an official tag misses, by the scheme it begins like; undefined where it fits or begins like none.
 *
 * Source:  shared/tag-shapes.json
 * Checked: tests/reference/tag-shapes.test.ts
 * @example missedTagShape('UK 000123 402086') // → undefined
 */
export function missedTagShape(tag: string): ExpectedShape | undefined {
  const bare = tag.replaceAll(/[\s-]/g, '').toUpperCase();
  const scheme = shared.tags.find(({ begins }) => new RegExp(begins).test(bare));
  return scheme && !new RegExp(scheme.shape).test(bare) ? scheme : undefined;
}

/** The shape an electronic number misses; undefined where it fits. @example missedElectronicShape('999000000402086') // → undefined */
export function missedElectronicShape(number: string): ExpectedShape | undefined {
  const bare = number.replaceAll(/[\s-]/g, '');
  return new RegExp(shared.electronic.shape).test(bare) ? undefined : shared.electronic;
}

const checks: readonly ((animal: Animal, context: AnimalCheckContext) => Findings)[] = [
  checkNumberOfFile,
  checkIdentityShapes,
  checkDaysOfLife,
  checkDaysInOrder,
  checkEpisodesInOrder,
  checkEpisodesAndVisits,
  checkDeclaredNames,
  checkLesionsAgain,
  checkPlaceOfLesion,
  checkOrderOfVisits,
  checkWordsOfVisit,
  checkVisitWithoutLifting,
  checkFootLeftDown,
  checkSignsGone,
  checkDaysOfVisit,
  checkCorrectionsOfAnimal,
  checkScoresOfVisit,
  checkKeysOfLesion,
  checkKeysOfMark,
  checkStateOfLesion,
  checkLengthsOfLesion,
  checkTopAndWall,
  checkCourseOfLesion,
  checkJoinedLesions,
  checkFixtures,
  checkBlocksOnClaws,
  checkOnBlock,
  checkProducts,
  checkVetAnswers,
  checkAboutVet,
  checkPhotosOfVisit,
  checkDoubts,
];

/** What is wrong inside one animal's record. */
export function checkAnimal(animal: Animal, context: AnimalCheckContext): Finding[] {
  return checks.flatMap((check) => [...check(animal, context)]);
}

const offAgain = new Set(['removed', 'lost', 'replaced']);

/** A block goes on the sound claw, and that claw is looked at when the block comes off. */
function* checkBlocksOnClaws(animal: Animal): Findings {
  for (const { entry, i, path } of entriesOf(animal.visits, 'blocks')) {
    const { event, claw, foot } = entry;
    if (entry['carrying-claw'] && !offAgain.has(event))
      yield refuse('carrying-claw-not-removed', [...path, 'carrying-claw'], { event }, { at: 'key' });
    else if (event === 'fitted' || event === 'replaced') {
      const lesion = openLesionOn(animal, foot, claw, i);
      if (lesion) yield warn('block-on-sore-claw', [...path, 'claw'], { event, claw, foot, lesion });
    }
  }
}

function openLesionOn(animal: Animal, foot: Foot, claw: Claw, upTo: number): string | undefined {
  const last = new Map(
    lesionLooks(animal)
      .filter(({ declared, visitAt }) => declared.foot === foot && declared.claw === claw && visitAt <= upTo)
      .filter(({ found, code }) => found.state && ['wall', 'ulcer'].includes(familyOf(code)))
      .map(({ name, found }) => [name, found]),
  );
  return [...last].find(([, found]) => found.state === 'open' && !found.joined)?.[0];
}

/** A gait scored on a block is another variable, so a block she is said to walk on should be in the record. */
function* checkOnBlock({ visits }: Animal): Findings {
  for (const [i, visit] of visits.entries()) {
    if (visit.blocks?.length) return;
    if (visit['on-block'])
      yield warn('on-block-without-block', ['visits', i, 'on-block'], { day: visit.date });
  }
}

const markKeys = new Set(['distance', 'tool', 'lifted', 'note']);

/** A mark is only measured: coronet to mark. */
export function* checkKeysOfMark(animal: Animal): Findings {
  for (const { name, found, declared, visit, path } of markLooks(animal)) {
    if (Object.hasOwn(animal.lesions, name)) continue;
    for (const key of Object.keys(found).filter((one) => !markKeys.has(one)))
      yield refuse('not-for-mark', [...path, key], { name, key }, { at: 'key' });
    const day = declared['groove-from'];
    if (day !== undefined && visit.date < day)
      yield refuse('groove-after-reading', ['marks', name, 'groove-from'], { name, day, seen: visit.date });
    const leftDown = found.lifted === false || visit.feet?.[declared.foot]?.lifted === false;
    if (found.distance === undefined && !leftDown)
      yield warn('mark-without-distance', path, { name }, { at: 'key' });
  }
}

/**
 * The file of an animal is named after her number, so that she is found again; a copy begun from another cow's file
 * keeps the other's number. More may follow the number behind a hyphen: `2086-2.md` is the second cow that bore it.
 *
 * A number with letters that no file name may hold cannot be compared and is passed over.
 */
function* checkNumberOfFile({ animal: number }: Animal, { animalSlug }: AnimalCheckContext): Findings {
  const slug = slugFrom(number);
  const spelled = /^[\p{ASCII}]*$/u.test(number) && slug !== '';
  if (spelled && animalSlug !== slug && !animalSlug.startsWith(`${slug}-`))
    yield remark('number-unlike-file-name', ['animal'], { number, file: animalSlug, expected: slug });
}

/** Calvings and dryings-off, oldest first and each once: parity is counted from them. */
function* checkDaysInOrder(animal: Animal): Findings {
  for (const key of ['calvings', 'dried-off'] as const)
    for (const [i, day] of (animal[key] ?? []).entries()) {
      const before = animal[key]?.[i - 1];
      if (before !== undefined && day <= before)
        yield refuse(
          `${key}-out-of-order`,
          [key, i],
          { day, before },
          { way: day === before ? 'twice' : undefined },
        );
    }
}

/** Official marks have a shape. One that misses it is only warned about: what the ear says wins. */
function* checkIdentityShapes({ tag, electronic }: Animal): Findings {
  const tagShape = tag && missedTagShape(tag);
  if (tagShape) yield warn('tag-shape', ['tag'], { tag, expected: tagShape.said, example: tagShape.example });
  const shaped = electronic && missedElectronicShape(electronic);
  if (shaped)
    yield warn('electronic-shape', ['electronic'], {
      electronic,
      expected: shaped.said,
      example: shaped.example,
    });
}

/** What only a missed visit says, and what it cannot say. */
function* checkWordsOfVisit({ visits }: Animal): Findings {
  for (const [i, { kind, why, found = {}, date: day }] of visits.entries()) {
    const isMissed = kind === 'missed';
    if (!isMissed && why !== undefined)
      yield refuse('why-not-missed', ['visits', i, 'why'], { kind }, { at: 'key' });
    if (isMissed && why === undefined) yield warn('missed-without-why', ['visits', i, 'kind'], { day });
    if (isMissed && Object.keys(found).length > 0)
      yield warn('found-in-missed', ['visits', i, 'found'], { day }, { at: 'key' });
  }
}
