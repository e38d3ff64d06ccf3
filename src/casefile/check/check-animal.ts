import type { Animal } from '../../record/animal.js';
import { type AnimalCheckContext, warn, remark, refuse, markLooks, lesionLooks } from './check-context.js';
import type { Finding } from '../finding.js';
import { checkCourseOfLesion, checkLesionsAgain, checkStateOfLesion } from './course-of-lesion.js';
import { checkCorrectionsOfAnimal, checkDaysOfLife } from './days.js';
import { checkDaysOfVisit } from './days-of-visit.js';
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
import { checkPhotosOfVisit, checkProducts, checkScoresOfVisit } from './visit.js';
import { checkVisitWithoutLifting } from './visit-without-lifting.js';
import { slugFrom } from '../folder-entries.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { missedElectronicShape, missedTagShape } from '../../reference/months.js';
import { familyOf } from '../../reference/lesions.js';
import type { Claw, Foot } from '../../record/words.js';

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
            `carrying-claw stands with a block that is ${block.event}, expected with its removal only`,
            'write it where the block is removed, replaced or lost',
            'key',
          ),
        ];
      if (block.event !== 'fitted' && block.event !== 'replaced') return [];
      const sore = openLesionOn(animal, block.foot, block.claw, i);
      if (sore === undefined) return [];
      return [
        warn(
          'block-on-sore-claw',
          [...path, 'claw'],
          `a block is ${block.event} on the ${block.claw} claw of ${block.foot}, where lesion ${sore} is open`,
          'correct the claw; a block goes on the claw that can carry her',
        ),
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
      .map((key) =>
        refuse(
          'not-for-mark',
          [...path, key],
          `found.${name}.${key} stands on a mark, expected \`distance\`, \`tool\` and \`note\` only`,
          'write the distance from the coronet to the mark as `distance`; a lesion is declared under `lesions`',
          'key',
        ),
      );
    const groove = declared['groove-from'];
    if (groove !== undefined && visit.date < groove)
      odd.push(
        refuse(
          'groove-after-reading',
          ['marks', name, 'groove-from'],
          `groove-from of ${name} is ${groove}, expected a day before it was first found, ${visit.date}`,
          'write the day of the event that left the groove',
        ),
      );
    const leftDown = found.lifted === false || visit.feet?.[declared.foot]?.lifted === false;
    if (found.distance === undefined && !leftDown)
      odd.push(
        warn(
          'mark-without-distance',
          path,
          `found.${name} has no distance, expected mm from the coronet to the mark`,
          'measure it, or take the entry out',
          'key',
        ),
      );
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
      ? [
          warn(
            'on-block-without-block',
            ['visits', i, 'on-block'],
            `on-block is true on ${visit.date}, and no visit up to then has a block`,
            "add the block; somebody else's is `event: already on`",
          ),
        ]
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
  return [
    remark(
      'number-unlike-file-name',
      ['animal'],
      `number ${number} stands in the file ${animalSlug}.md, expected ${slug}.md: is it a copy?`,
      `if she is ${number}, rename the file to \`${slug}.md\`; if the file was begun as a copy, correct the number and look through the rest`,
    ),
  ];
}

/** Calvings and dryings-off, oldest first and each once: parity is counted from them. */
function checkDaysInOrder(animal: Animal): Finding[] {
  return [...outOfOrder('calvings', animal.calvings), ...outOfOrder('dried-off', animal['dried-off'])];
}

function outOfOrder(key: 'calvings' | 'dried-off', days: readonly CalendarDay[] = []): Finding[] {
  return days.flatMap((day, i) => {
    const before = days[i - 1];
    if (before === undefined || day > before) return [];
    return [
      refuse(
        `${key}-out-of-order`,
        [key, i],
        day === before
          ? `${key} has ${day} twice, expected each day once`
          : `${key} has ${day} after ${before}, expected oldest first`,
        'list the days oldest first, each once',
      ),
    ];
  });
}

/** Official marks have a shape. One that misses it is only warned about: what the ear says wins. */
function checkIdentityShapes({ tag, electronic }: Animal): Finding[] {
  const found: Finding[] = [];
  const tagShape = tag && missedTagShape(tag);
  if (tagShape)
    found.push(
      warn(
        'tag-shape',
        ['tag'],
        `tag is ${tag}, expected ${tagShape.said}, as in ${tagShape.example}`,
        'read it again off the tag; if the tag says so, leave it',
      ),
    );
  const electronicShape = electronic && missedElectronicShape(electronic);
  if (electronicShape)
    found.push(
      warn(
        'electronic-shape',
        ['electronic'],
        `electronic is ${electronic}, expected ${electronicShape.said}, as in ${electronicShape.example}`,
        'read it again; if the reader says so, leave it',
      ),
    );
  return found;
}

/** What only a missed visit says, and what it cannot say. */
function checkWordsOfVisit({ visits }: Animal): Finding[] {
  return visits.flatMap((visit, i) => {
    if (visit.kind !== 'missed')
      return visit.why === undefined
        ? []
        : [
            refuse(
              'why-not-missed',
              ['visits', i, 'why'],
              `why stands in a ${visit.kind} visit, expected only where she was missed`,
              'write it as `note`, or correct `kind`',
              'key',
            ),
          ];
    const found: Finding[] = [];
    if (visit.why === undefined)
      found.push(
        warn(
          'missed-without-why',
          ['visits', i, 'kind'],
          `the visit of ${visit.date} was missed and does not say why`,
          'add `why`, for example `why: "not in the pen"`',
        ),
      );
    if (Object.keys(visit.found ?? {}).length > 0)
      found.push(
        warn(
          'found-in-missed',
          ['visits', i, 'found'],
          `the visit of ${visit.date} was missed and has findings, expected none: she was not presented`,
          'correct `kind`: word from farm or vet is `report`',
          'key',
        ),
      );
    return found;
  });
}
