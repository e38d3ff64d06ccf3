import type { AnimalSeals } from '../ledger/seals-of-animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { dayInWords } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import { animalFigures } from './animal-figures.js';
import { animalRecord, identityLine } from './animal-record.js';
import { type AnimalPage, type PlacedCase, lesionLines } from './animal-page-data.js';
import { composeChanges } from './changes.js';
import { composeClosings, composeRegrowth, lesionTable } from './estimates.js';
import { composeMoneyCard } from './money-card.js';
import { renderNarrative } from './narrative.js';
import type { BookPictures } from '../picture/fit-pictures.js';
import { composePictures } from './picture-section.js';
import { composeCautions, leftBanner } from './cautions.js';
import { nextBox, vetBox } from './action-boxes.js';
import { composeBlockEarly, composeCallVet } from './farm-watch.js';
import { missingLines } from './missing-lines.js';
import { animalStatement } from '../words/compose-animal.js';
import { caseChip } from '../words/compose-standing.js';
import { composeVisitLog } from './visit-log.js';

/** What an animal's page holds beyond her record. */
export interface OnAnimalPage {
  readonly pictures?: BookPictures;
  readonly seals?: AnimalSeals | undefined;
}

/** One animal's page: where she stands, what happens next, the evidence, and everything that was recorded. */
export function composeAnimalPage(
  words: Words,
  practice: Practice,
  farmRecord: FarmRecord,
  one: PlacedCase,
  today: CalendarDay,
  { pictures, seals }: OnAnimalPage = {},
): AnimalPage {
  const { farm } = farmRecord;
  const { animal, narrative } = one.record;
  const level = one.standing.closed ? 4 : 3;
  const chip = caseChip(words, one.standing);
  const lesions = lesionTable(words, one);
  const photos = composePictures(words, one.id, animal, today, pictures);
  const changes = composeChanges(words, one, today);
  const forecasts = composeRegrowth(words, one, today);
  const closings = composeClosings(words, one, today);
  const cautions = composeCautions(words, farm, one, today);
  const missing = missingLines(words, one);
  const money = composeMoneyCard(words, practice, farmRecord, one, today);
  const next = nextBox(words, farm, one, today);
  const vet = vetBox(words, one);
  const left = leftBanner(words, one, today);
  const blockEarly = composeBlockEarly(words, practice, one, today);
  const callVet = composeCallVet(words, farm, one, today);
  return {
    id: one.id,
    kicker: words.say('book.animal.kicker', {
      place: one.place,
      of: one.of,
      farm: told(farm.farm),
      day: dayInWords(words, today),
    }),
    number: animal.animal,
    identity: identityLine(words, animal),
    lesionLines: lesionLines(words, one),
    chip,
    running: words.say('book.animal.running', { number: animal.animal, standing: chip }),
    statement: animalStatement(words, animal, one.standing, one, today),
    ...(left ? { left } : {}),
    ...(next ? { next } : {}),
    ...(vet ? { vet } : {}),
    lesionsHeading: words.say('book.lesions.heading'),
    ...(lesions ? { lesions } : {}),
    figures: animalFigures(words, farm, one, today),
    ...(cautions.length > 0
      ? { cautions: { heading: words.say('book.animal.cautions'), items: cautions } }
      : {}),
    ...(missing.length > 0 ? { missing: { heading: words.say('book.animal.missing'), items: missing } } : {}),
    ...(changes ? { changes } : {}),
    ...(blockEarly ? { blockEarly } : {}),
    ...(callVet ? { callVet } : {}),
    ...(forecasts ? { forecasts } : {}),
    ...(closings ? { closings } : {}),
    record: animalRecord(words, animal, seals),
    log: composeVisitLog(words, one.id, animal, {
      gaitScaleOn: (day) => gaitScaleOn(farm, day),
      conditionScale: farm['condition-scale'],
      currency: practice.business.prices?.currency,
      seals: seals?.visits,
    }),
    fold: words.say('book.animal.fold'),
    ...(money ? { money } : {}),
    ...(photos ? { photos } : {}),
    ...(narrative.trim() === ''
      ? {}
      : {
          narrative: {
            heading: words.say('book.animal.narrative'),
            html: renderNarrative(narrative, level + 1),
          },
        }),
  };
}
