import type { Animal } from '../../record/animal.js';
import type { AnimalCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { checkBlocksOnClaws } from './blocks-on-claws.js';
import { checkCourseOfLesion } from './course-of-lesion.js';
import { checkDaysInOrder } from './days-in-order.js';
import { checkCorrectionsOfAnimal } from './days-of-corrections.js';
import { checkDaysOfLife } from './days-of-life.js';
import { checkDaysOfVisit } from './days-of-visit.js';
import { checkDeclaredNames } from './declared-names.js';
import { checkDoubts } from './doubts.js';
import { checkEpisodesAndVisits } from './episodes-and-visits.js';
import { checkEpisodesInOrder } from './episodes-in-order.js';
import { checkFixtures } from './fixtures.js';
import { checkFootLeftDown } from './foot-left-down.js';
import { checkIdentityShapes } from './identity-shapes.js';
import { checkJoinedLesions } from './joined-lesions.js';
import { checkKeysOfLesion } from './keys-of-lesion.js';
import { checkKeysOfMark } from './keys-of-mark.js';
import { checkLengthsOfLesion } from './lengths-of-lesion.js';
import { checkLesionsAgain } from './lesions-again.js';
import { checkNumberOfFile } from './number-of-file.js';
import { checkOnBlock } from './on-block.js';
import { checkOrderOfVisits } from './order-of-visits.js';
import { checkPhotosOfVisit } from './photos-of-visit.js';
import { checkPlaceOfLesion } from './place-of-lesion.js';
import { checkProducts } from './products.js';
import { checkScoresOfVisit } from './scores-of-visit.js';
import { checkSignsGone } from './signs-gone.js';
import { checkStateOfLesion } from './state-of-lesion.js';
import { checkTopAndWall } from './top-and-wall.js';
import { checkAboutVet, checkVetAnswers } from './vet-answers.js';
import { checkVisitWithoutLifting } from './visit-without-lifting.js';
import { checkWordsOfVisit } from './words-of-visit.js';

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
