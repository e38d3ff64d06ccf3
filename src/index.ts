/**
 * What other programs may use of Growdown. Everything else under `src` may change from one version to the next.
 *
 * From a cases folder to its books:
 *
 *     const { practice, sealsOf } = readPractice(nodeCaseFiles, './cases', { today: '2026-06-16' });
 *     for (const farm of practice.farms) {
 *       const page = composeBook(practice, farm, '2026-06-16', { seals: sealsOf(farm.slug) });
 *       await writeFile(`${farm.slug}.html`, await renderBook(page));
 *     }
 *
 * Checked: tests/public-api/exports.test.ts
 */

// Reading
export { type FarmsChosen, chooseFarm } from './casefile/choose-farm.js';
export type { CaseFiles } from './casefile/source-text.js';
export { nodeCaseFiles } from './casefile/node-case-files.js';
export { type PracticeReading, readPractice } from './casefile/read-practice.js';
export type { Problem } from './problem/problem.js';

// The record
export type { Animal } from './record/animal.js';
export type { Business } from './record/business.js';
export type { CalendarDay } from './record/calendar-day.js';
export type { Farm } from './record/farm.js';
export type { Found } from './record/visit.js';
export type { CaseRecord, FarmRecord, Practice } from './record/practice.js';
export type { Visit } from './record/visit.js';

// Seals
export { type Head, headOf, holdsHead } from './ledger/read-ledger.js';
export { type Ledger, readLedger } from './ledger/read-ledger.js';
export type { FarmSeals } from './ledger/seals-of-farm.js';

// Records for other programs
export { jsonSchemas } from './exchange/json-schemas.js';
export { readRecords } from './exchange/read-records.js';
export { recordsAsJson } from './exchange/records-json.js';

// Growth
export type { AnimalGrowth, Forecast, LesionGrowth } from './growth/animal-growth.js';
export { type Pooled, pooledOn } from './herd/pooled-on.js';
export { type GrowingConditions, growingConditions } from './growth/growth-line.js';
export { growthOfAnimal, publishedPrior } from './growth/growth-of-animal.js';
export type { Priors, WhatItLearned } from './growth/learning/priors-for.js';
export type { TrackRecord } from './growth/track-record/track-record.js';
export type { Prior } from './growth/what-is-known.js';
export type { ReadingWorthTaking } from './growth/worth-measuring/worth-measuring.js';
export { worthMeasuring } from './growth/worth-measuring/worth-measuring.js';

// Healing
export { closingsOf } from './healing/closing/closing-of-ulcer.js';
export type { UlcerClosing } from './healing/closing/ulcer-closing.js';
export type { CaseStanding, LesionStanding } from './healing/standing.js';
export { standingOfCase } from './healing/standing-of-case.js';

// Schedule
export { type CaseEntry, caseEntries } from './schedule/reading-to-take.js';
export type { CaseWork } from './schedule/case-work.js';
export type { DueItem } from './schedule/due/due-item.js';
export { dueItems } from './schedule/due-items.js';
export type { MissingEntry } from './schedule/missing-on-farm.js';
export { missingInCase } from './schedule/missing-in-case.js';
export type { Notice } from './schedule/notices/notice-rule.js';
export { noticesOfCase } from './schedule/notices-of-case.js';
export { type CaseKnown, workOutCase } from './schedule/work-out-case.js';

// The book
export type { BookPage } from './book/book-page.js';
export { type BookOptions, composeBook } from './book/compose-book.js';
export { renderBook } from './book/render-book.js';

// Statistics
export { type IntervalCensoredSurvival, intervalCensoredSurvival } from './statistics/npmle-masses.js';
export type { Interval } from './statistics/estimate.js';
export { type KaplanMeier, kaplanMeier } from './statistics/kaplan-meier.js';
export { type PermutationTest, permutationTest } from './statistics/permutation-test.js';
