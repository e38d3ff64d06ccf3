import type { AnimalSeals } from '../ledger/seals-of-animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { dayInWords, paragraph, lesionInWords, placeInWords } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import { animalFigures } from './animal-figures.js';
import { animalRecord, identityLine } from './animal-record.js';
import { type AnimalPage, type PlacedCase, lesionLines } from './animal-page-data.js';
import { composeChanges } from './changes.js';
import { composeMoneyCard } from './money-card.js';
import { renderNarrative } from './narrative.js';
import type { BookPictures } from '../picture/fit-pictures.js';
import { composePictures } from './picture-section.js';
import { composeCautions, leftBanner } from './cautions.js';
import { nextBox, vetBox } from './action-boxes.js';
import { composeBlockEarly, composeCallVet } from './farm-watch.js';
import { missingLines } from './missing-lines.js';
import { animalStatement } from '../words/compose-animal.js';
import { caseChip, standingChip } from '../words/compose-standing.js';
import { composeVisitLog } from './visit-log.js';
import { closingBasis, closingSentence } from '../words/compose-closing.js';
import type { TableSection, DataTable } from './page-parts.js';
import { nameInBook } from './work-in-words.js';
import type { LesionGrowth } from '../growth/animal-growth.js';
import { basisSentence, outSentence } from '../words/compose-regrowth.js';
import type { Animal } from '../record/animal.js';

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

/** When each ulcer that is open should have closed, with its range and what it rests on, or why no date is given. */
function composeClosings(words: Words, one: PlacedCase, today: CalendarDay): TableSection | undefined {
  const over = new Set(['healed', 'covered', 'joined']);
  const ulcers = one.closings.filter(
    ({ readings, forecast }) =>
      readings.length > 0 && !(forecast.outcome === 'none' && over.has(forecast.why)),
  );
  if (ulcers.length === 0) return undefined;
  const dated = ulcers.some(({ forecast }) => forecast.outcome === 'range' || forecast.ifOpeningUp);
  return {
    id: `${one.id}-closing`,
    heading: words.say('book.closing.heading'),
    lead: [words.say('book.closing.lead'), ...(dated ? [words.say('book.closing.lead-range')] : [])],
    table: {
      id: `${one.id}-closing-table`,
      caption: words.say('book.closing.caption', { animal: one.record.animal.animal }),
      columns: ['ulcer', 'closed', 'rests-on'].map((key) => ({ head: words.say(`book.closing.${key}`) })),
      rows: ulcers.map((ulcer) => ({
        cells: [
          { text: nameInBook(words, one.record.animal, ulcer.lesion) },
          { text: closingSentence(words, ulcer, today) || '–' },
          { text: closingBasis(words, ulcer) || '–' },
        ],
      })),
    },
  };
}

/** When each gap in the wall should be out, with its range and what it rests on, or why no date is given. */
function composeRegrowth(words: Words, one: PlacedCase, today: CalendarDay): TableSection | undefined {
  const gaps = one.growth.lesions.filter(
    ({ lesion, readings, forecast }) =>
      readings.length > 0 &&
      !(forecast.outcome === 'none' && forecast.why === 'healed') &&
      one.record.animal.lesions[lesion],
  );
  if (gaps.length === 0) return undefined;
  return {
    id: `${one.id}-regrowth`,
    heading: words.say('book.regrowth.heading'),
    lead: [
      words.say('book.regrowth.lead'),
      ...(gaps.some(({ forecast }) => forecast.outcome === 'range' || forecast.ifRanUp?.out)
        ? [words.say('book.regrowth.lead-range')]
        : []),
    ],
    table: {
      id: `${one.id}-regrowth-table`,
      caption: words.say('book.regrowth.caption', { animal: one.record.animal.animal }),
      columns: ['gap', 'out', 'rests-on'].map((key) => ({ head: words.say(`book.regrowth.${key}`) })),
      rows: gaps.map((gap) => ({
        cells: [
          { text: nameInBook(words, one.record.animal, gap.lesion) },
          { text: outSentence(words, gap, today) || '–' },
          { text: paragraph(basisSentence(words, one.growth, gap), rateInWords(words, one, gap)) },
        ],
      })),
    },
  };
}

/** Her own rate beside the usual one: what the readings have taught of her horn so far. */
function rateInWords(words: Words, one: PlacedCase, gap: LesionGrowth): string {
  return words.say('book.regrowth.rate', {
    rate: words.number(gap.referenceMmPerMonth.toFixed(1)),
    factor: words.number(one.growth.factor.mean.toFixed(2)),
    spread: words.number(Math.sqrt(one.growth.factor.variance).toFixed(2)),
  });
}

/** Every lesion and growth mark followed in her: what, where, on which line, how it stands. */
export function lesionTable(words: Words, one: PlacedCase): DataTable | undefined {
  const { animal } = one.record;
  const lesions = Object.entries(animal.lesions).map(([name, lesion]) => {
    const standing = one.standing.lesions.find((each) => each.lesion === name);
    const code = standing?.code ?? lesion.code;
    const notes = [
      ...(code === lesion.code
        ? []
        : [words.say('book.lesions.first-called', { lesion: lesionInWords(words, lesion.code) })]),
      ...(lesion['again-of']
        ? [words.say('book.lesions.again-of', { lesion: nameInBook(words, animal, lesion['again-of']) })]
        : []),
    ];
    return [
      { text: name },
      {
        text: lesionInWords(words, code),
        ...(notes.length > 0 ? { note: words.semicolons(notes) } : {}),
      },
      { text: placeInWords(words, lesion.foot, lesion.claw) },
      { text: lesion.site ? words.say(`vocabulary.site.${lesion.site}`) : '–' },
      { text: lesion.line ? words.say(`vocabulary.line.${lesion.line}`) : '–' },
      { text: standing ? standingChip(words, standing) : '–', strong: true },
    ];
  });
  const rows = [...lesions, ...markRows(words, animal)];
  if (rows.length === 0) return undefined;
  return {
    id: `${one.id}-lesions`,
    caption: words.say('book.lesions.caption', { animal: animal.animal }),
    columns: ['name', 'lesion', 'place', 'site', 'line', 'stands'].map((key) => ({
      head: words.say(`book.lesions.${key}`),
    })),
    rows: rows.map((cells) => ({ cells })),
  };
}

function markRows(words: Words, animal: Animal) {
  return Object.entries(animal.marks ?? {}).map(([name, mark]) => [
    { text: name },
    mark['groove-from']
      ? {
          text: words.say('book.finding.groove'),
          note: words.say('book.lesions.groove-from', { day: dayInWords(words, mark['groove-from']) }),
        }
      : { text: words.say('book.finding.mark') },
    { text: placeInWords(words, mark.foot, mark.claw) },
    { text: '–' },
    { text: words.say(`vocabulary.line.${mark.line}`) },
    { text: '–' },
  ]);
}
