import { z } from 'zod';
import { readShared } from '../../reference/read-shared.js';
import { address } from '../../reference/sourced.js';
import type { Animal } from '../../record/animal.js';
import { type AnimalCheckContext, warn, remark, refuse, markLooks, lesionLooks } from './check-context.js';
import type { Finding } from '../../problem/problem.js';
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
import { checkFixtures, checkFootLeftDown } from './feet-lifted.js';
import { checkLengthsOfLesion, checkTopAndWall } from './lengths.js';
import { checkPhotosOfVisit, checkProducts, checkScoresOfVisit, checkVisitWithoutLifting } from './visit.js';
import { slugFrom } from '../folder-entries.js';
import type { CalendarDay } from '../../record/calendar-day.js';
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
interface ExpectedShape {
  readonly said: string;
  readonly example: string;
}

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

const offAgain = new Set(['removed', 'lost', 'replaced']);

/** A block goes on the sound claw, and that claw is looked at when the block comes off. */
function checkBlocksOnClaws(animal: Animal): Finding[] {
  return animal.visits.flatMap((visit, i) =>
    (visit.blocks ?? []).flatMap((block, at): Finding[] => {
      const path = ['visits', i, 'blocks', at];
      if (block['carrying-claw'] && !offAgain.has(block.event))
        return [
          refuse(
            'carrying-claw-not-removed',
            [...path, 'carrying-claw'],
            { event: block.event },
            { at: 'key' },
          ),
        ];
      if (block.event !== 'fitted' && block.event !== 'replaced') return [];
      const sore = openLesionOn(animal, block.foot, block.claw, i);
      if (sore === undefined) return [];
      return [
        warn('block-on-sore-claw', [...path, 'claw'], {
          event: block.event,
          claw: block.claw,
          foot: block.foot,
          lesion: sore,
        }),
      ];
    }),
  );
}

function openLesionOn(animal: Animal, foot: Foot, claw: Claw, upTo: number): string | undefined {
  const looks = lesionLooks(animal).filter(
    ({ declared, visitAt, code }) =>
      declared.foot === foot &&
      declared.claw === claw &&
      visitAt <= upTo &&
      (familyOf(code) === 'wall' || familyOf(code) === 'ulcer'),
  );
  const last = new Map(looks.filter(({ found }) => found.state).map(({ name, found }) => [name, found]));
  return [...last].find(([, found]) => found.state === 'open' && !found.joined)?.[0];
}

const markKeys = new Set(['distance', 'tool', 'lifted', 'note']);

/** A mark is only measured: coronet to mark. */
export function checkKeysOfMark(animal: Animal): Finding[] {
  const looks = markLooks(animal).filter(({ name }) => !Object.hasOwn(animal.lesions, name));
  return looks.flatMap(({ name, found, declared, visit, path }) => {
    const odd = Object.keys(found)
      .filter((key) => !markKeys.has(key))
      .map((key) => refuse('not-for-mark', [...path, key], { name, key }, { at: 'key' }));
    const groove = declared['groove-from'];
    if (groove !== undefined && visit.date < groove)
      odd.push(
        refuse('groove-after-reading', ['marks', name, 'groove-from'], {
          name,
          day: groove,
          seen: visit.date,
        }),
      );
    const leftDown = found.lifted === false || visit.feet?.[declared.foot]?.lifted === false;
    if (found.distance === undefined && !leftDown)
      odd.push(warn('mark-without-distance', path, { name }, { at: 'key' }));
    return odd;
  });
}

type Check = (animal: Animal, context: AnimalCheckContext) => Finding[];

const checks: readonly Check[] = [
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
  const found: Finding[] = [];
  for (const check of checks) for (const each of check(animal, context)) found.push(each);
  return found;
}

/** A gait scored on a block is another variable, so a block she is said to walk on should be in the record. */
function checkOnBlock({ visits }: Animal): Finding[] {
  const first = visits.findIndex(({ blocks }) => (blocks ?? []).length > 0);
  return visits.flatMap((visit, i) =>
    visit['on-block'] && (first < 0 || i < first)
      ? [warn('on-block-without-block', ['visits', i, 'on-block'], { day: visit.date })]
      : [],
  );
}

/**
 * The file of an animal is named after her number, so that she is found again; a copy begun from another cow's file
 * keeps the other's number. More may follow the number behind a hyphen: `2086-2.md` is the second cow that bore it.
 *
 * A number with letters that no file name may hold cannot be compared and is passed over.
 */
function checkNumberOfFile({ animal: number }: Animal, { animalSlug }: AnimalCheckContext): Finding[] {
  const slug = slugFrom(number);
  const spelled = /^[\p{ASCII}]*$/u.test(number) && slug !== '';
  if (!spelled || animalSlug === slug || animalSlug.startsWith(`${slug}-`)) return [];
  return [remark('number-unlike-file-name', ['animal'], { number, file: animalSlug, expected: slug })];
}

/** Calvings and dryings-off, oldest first and each once: parity is counted from them. */
function checkDaysInOrder(animal: Animal): Finding[] {
  return [...outOfOrder('calvings', animal.calvings), ...outOfOrder('dried-off', animal['dried-off'])];
}

function outOfOrder(key: 'calvings' | 'dried-off', days: readonly CalendarDay[] = []): Finding[] {
  return days.flatMap((day, i) => {
    const before = days[i - 1];
    if (before === undefined || day > before) return [];
    return day === before
      ? [refuse(`${key}-out-of-order`, [key, i], { day }, { way: 'twice' })]
      : [refuse(`${key}-out-of-order`, [key, i], { day, before })];
  });
}

/** Official marks have a shape. One that misses it is only warned about: what the ear says wins. */
function checkIdentityShapes({ tag, electronic }: Animal): Finding[] {
  const found: Finding[] = [];
  const tagShape = tag && missedTagShape(tag);
  if (tagShape)
    found.push(warn('tag-shape', ['tag'], { tag, expected: tagShape.said, example: tagShape.example }));
  const electronicShape = electronic && missedElectronicShape(electronic);
  if (electronicShape)
    found.push(
      warn('electronic-shape', ['electronic'], {
        electronic,
        expected: electronicShape.said,
        example: electronicShape.example,
      }),
    );
  return found;
}

/** What only a missed visit says, and what it cannot say. */
function checkWordsOfVisit({ visits }: Animal): Finding[] {
  return visits.flatMap((visit, i) => {
    if (visit.kind !== 'missed')
      return visit.why === undefined
        ? []
        : [refuse('why-not-missed', ['visits', i, 'why'], { kind: visit.kind }, { at: 'key' })];
    const found: Finding[] = [];
    if (visit.why === undefined)
      found.push(warn('missed-without-why', ['visits', i, 'kind'], { day: visit.date }));
    if (Object.keys(visit.found ?? {}).length > 0)
      found.push(warn('found-in-missed', ['visits', i, 'found'], { day: visit.date }, { at: 'key' }));
    return found;
  });
}
