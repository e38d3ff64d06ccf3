import type { FarmRecord } from '../../record/practice.js';
import { icarExchange } from '../../reference/icar-exchange.js';
import type { Written } from '../records-json.js';
import { rowsOf, sheets } from '../sheets.js';
import { type DiagnosisEvent, diagnosisEvent } from './diagnosis-events.js';
import { visitsOf } from './event.js';
import { type TreatmentEvent, treatmentEvents, type WithheldAfter } from './treatment-events.js';

export interface IcarEvents {
  readonly diagnoses: readonly DiagnosisEvent[];
  readonly treatments: readonly TreatmentEvent[];
}

/**
 * What was found and what was done, as events of ICAR Animal Data Exchange, an open standard.
 *
 * Shape:   `tagScheme` is what the receiver calls official tags; `withheldAfter` works out withdrawals
 * Source:  ICAR ADE, https://github.com/adewg/ICAR, resources for diagnosis and treatment events
 * Checked: tests/exchange/icar.test.ts
 */
export function icarEvents(
  farms: readonly FarmRecord[],
  withheldAfter: WithheldAfter,
  tagScheme?: string,
): IcarEvents {
  const visits = farms.flatMap((farm) => visitsOf(farm, tagScheme));
  return {
    diagnoses: visits.flatMap((at) => diagnosisEvent(at) ?? []),
    treatments: visits.flatMap((at) => treatmentEvents(at, withheldAfter)),
  };
}

/** The files of an exchange: two collections, each whole on one page, and what was left out. */
export function icarFiles(
  written: Written,
  { diagnoses, treatments }: IcarEvents,
): ReadonlyMap<string, string> {
  return new Map([
    ['diagnoses.json', collection(diagnoses)],
    ['treatments.json', collection(treatments)],
    ['left-out.txt', leftOut(written)],
  ]);
}

function collection(member: readonly unknown[]): string {
  const view = { totalItems: member.length, totalPages: 1, currentPage: 1 };
  return `${JSON.stringify({ view, member }, null, 2)}\n`;
}

/** Every value that stands in the records and in no event, counted by its column, with what it holds. */
function leftOut(written: Written): string {
  const carried = new Set(icarExchange.carried);
  const all = rowsOf(written);
  const lines = sheets.flatMap((sheet) =>
    sheet.columns.flatMap(({ name, place, says }, at) => {
      if (carried.has(place)) return [];
      const count = (all.get(sheet) ?? []).filter((row) => row[sheet.keys.length + at] !== undefined).length;
      return count > 0 ? [`${String(count).padStart(widest)}  ${sheet.name}, ${name}: ${says}`] : [];
    }),
  );
  return `${icarExchange.leftOut.join('\n\n')}\n\n${lines.length > 0 ? lines.join('\n') : 'nothing'}\n`;
}

/** Digits of a count in a column of its own. */
const widest = 7;
