import type { CalendarDay } from '../../record/calendar-day.js';
import { codeOn } from '../../record/code-of-lesion.js';
import { given } from '../../record/given.js';
import type { Lesion } from '../../record/lesion.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';
import type { Found, ProductUse, Visit } from '../../record/visit.js';
import { icarExchange, icarSays } from '../../reference/icar-exchange.js';
import { lesionKinds } from '../../reference/lesions.js';
import type { Written } from '../records-json.js';
import { rowsOf, sheets } from '../sheets.js';
import { jsonText } from '../../record/signs.js';

/** Until when milk or meat is withheld after a product, of all she was given. */
type WithheldOfUse =
  | { readonly outcome: 'withheld'; readonly firstClear: CalendarDay }
  | { readonly outcome: 'nothing' | 'not-recorded' | 'none-written' | 'not-known' }
  | { readonly outcome: 'milkings-a-day-not-known'; readonly milkings: number };

/** Tells until when she is under withdrawal after one product used at a visit. */
export type WithheldAfter = (
  use: ProductUse,
  at: VisitAt,
) => { readonly milk: WithheldOfUse; readonly meat: WithheldOfUse };

/** One visit of one animal, and what the receiver calls official tags. */
interface VisitAt {
  readonly farm: FarmRecord;
  readonly one: CaseRecord;
  readonly visit: Visit;
  /** Numbers the visits of one day, from 1. */
  readonly number: number;
  readonly tagScheme: string | undefined;
}

export interface IcarEvents {
  readonly diagnoses: readonly DiagnosisEvent[];
  readonly treatments: readonly TreatmentEvent[];
}

type DiagnosisEvent = ReturnType<typeof diagnosisEvent>;

interface TreatmentEvent extends ReturnType<typeof eventCore> {
  readonly medicine?: { readonly name: string };
  readonly procedure?: string;
  readonly batches?: readonly { readonly identifier: string }[];
  readonly withdrawals?: readonly { readonly productType: 'Milk' | 'Meat'; readonly endDate: string }[];
  readonly dose?: { readonly doseQuantity: number; readonly doseUnits: string };
  readonly site?: string;
  readonly positions?: readonly { readonly position: string }[];
  readonly comment?: string;
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
  const visits = farms.flatMap((farm) =>
    farm.cases.flatMap((one) =>
      one.animal.visits.map((visit, at, all): VisitAt => {
        const number = all.slice(0, at + 1).filter(({ date }) => date === visit.date).length;
        return { farm, one, visit, number, tagScheme };
      }),
    ),
  );
  return {
    diagnoses: visits.flatMap((at) => {
      const fresh = newlyFound(at);
      return fresh.length === 0 ? [] : diagnosisEvent(at, fresh);
    }),
    treatments: visits.flatMap((at) => [
      ...(at.visit.products ?? []).map((use, index) => ofProduct(at, use, index + 1, withheldAfter)),
      ...procedures(at),
    ]),
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
  return jsonText({ view, member });
}

/** Digits of a count in a column of its own. */
const widest = 7;

/** Every value that is in the records and in no event, counted by its column, with what it holds. */
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

/**
 * What every event of the standard says: its name, whose animal it is of, where and when; `what` distinguishes it from others of
 * the visit.
 *
 * Last changed: on the day of the visit, or of the last correction of it, of the animal's identity or of a lesion.
 */
function eventCore(
  resourceType: string,
  { farm: { slug, farm }, one, visit, number, tagScheme }: VisitAt,
  what: string,
  day: CalendarDay,
  responsible: string,
) {
  const { source, schemes } = icarExchange;
  const { tag, electronic, animal, lesions } = one.animal;
  const id = `${slug}/${one.slug}/${visit.date}.${number}/${what}`;
  const corrected = [visit, one.animal, ...Object.values(lesions)].flatMap(({ amended = [] }) => amended);
  const changed = [visit.date, ...corrected.map(({ date }) => date)].sort().at(-1)!;
  return {
    resourceType,
    id,
    meta: { source, sourceId: id, modified: noonOf(changed), creator: visit.by },
    location: farm.holding
      ? { id: farm.holding, scheme: schemes.holding }
      : { id: slug, scheme: schemes.farm },
    // The identity that reaches furthest: official tag, electronic number, number on the farm.
    animal: tag
      ? { id: tag, scheme: tagScheme ?? schemes.tag }
      : electronic
        ? { id: electronic, scheme: schemes.electronic }
        : { id: `${slug}/${animal}`, scheme: schemes.number },
    eventDateTime: noonOf(day),
    responsible,
  };
}

/** A day as the standard's moment in UTC. Case files know no time zone: noon is within that day nearly everywhere cows are kept. */
function noonOf(day: CalendarDay): string {
  return `${day}T12:00:00Z`;
}

/**
 * The lesions newly found at a visit as one event: each lesion once, on the day it was first found open; again when it
 * is given another name, and when digital dermatitis is back after it had gone. Later looks at the same lesion are no
 * new diagnosis, and counting them would double an incidence.
 */
function diagnosisEvent(at: VisitAt, fresh: ReturnType<typeof newlyFound>) {
  const { date, by } = at.visit;
  const core = eventCore('icarDiagnosisEventResource', at, 'diagnosis', date, by);
  return {
    ...core,
    remark: icarSays('diagnosis'),
    diagnoses: fresh.map(({ name, lesion, code, found }) => ({
      id: `${core.id}/${name}`,
      name: lesionKinds[code].name,
      ...(found.infected === true ? { description: icarSays('infected') } : {}),
      diagnosisCode: { id: code, scheme: icarExchange.schemes.lesion },
      ...placed(lesion),
    })),
  };
}

function newlyFound({ one: { animal }, visit }: VisitAt) {
  const { lesions, visits } = animal;
  const position = visits.indexOf(visit);
  return Object.entries(lesions).flatMap(([name, lesion]) => {
    const found = visit.found?.[name];
    if (!found || !isThere(found)) return [];
    const before = visits.slice(0, position).flatMap(({ found: all }) => all?.[name] ?? []);
    const last = before.findLast(({ state, stage }) => state !== undefined || stage !== undefined);
    const code = codeOn(name, lesion, visits, position);
    const isNew = !last || last.stage === 'M0' || code !== codeOn(name, lesion, visits, position - 1);
    return isNew ? [{ name, lesion, code, found }] : [];
  });
}

/** Seen and not gone. */
function isThere({ state, stage, lifted }: Found): boolean {
  return lifted !== false && stage !== 'M0' && state !== 'healed' && (state ?? stage) !== undefined;
}

type Place = Pick<Lesion, 'foot' | 'claw' | 'site'>;

/** Foot, claw and place in the words of the case format, and the foot as the standard names it. */
function placed({ foot, claw, site }: Place): Required<Pick<TreatmentEvent, 'site' | 'positions'>> {
  const parts = [foot, claw && icarSays('claw', { claw }), site].filter((part) => part);
  return { site: parts.join(', '), positions: [{ position: icarExchange.positions[foot] }] };
}

function treatment(
  at: VisitAt,
  what: string,
  {
    day = at.visit.date,
    by = at.visit.by,
  }: { readonly day?: string | undefined; readonly by?: string | undefined } = {},
): ReturnType<typeof eventCore> {
  return eventCore('icarTreatmentEventResource', at, what, day, by);
}

function ofProduct(
  at: VisitAt,
  use: ProductUse,
  number: number,
  withheldAfter: WithheldAfter,
): TreatmentEvent {
  const lesion = at.one.animal.lesions[use.lesion ?? ''];
  const { milk, meat } = withheldAfter(use, at);
  const both = [['Milk', milk] as const, ['Meat', meat] as const];
  const withdrawals = both.flatMap(([productType, held]) =>
    held.outcome === 'withheld' ? [{ productType, endDate: noonOf(held.firstClear) }] : [],
  );
  const dose = doseOf(use.amount);
  const said = {
    active: use.active,
    class: use.class,
    amount: dose ? undefined : use.amount,
    until: use.until,
  };
  const comment = [
    ...Object.entries({ ...said, 'prescribed-by': use['prescribed-by'] }).flatMap(([key, text]) =>
      text === undefined ? [] : icarSays(key as keyof typeof said, { text }),
    ),
    ...both.flatMap(([what, held]) => withdrawalInWords(what, held)),
    ...(use.note === undefined ? [] : [use.note]),
  ];
  return {
    ...treatment(at, `product-${number}`, { day: use.on, by: use['given-by'] }),
    medicine: { name: use.product },
    ...given({ procedure: use.route }),
    ...(use.batch === undefined ? {} : { batches: [{ identifier: use.batch }] }),
    ...(withdrawals.length > 0 ? { withdrawals } : {}),
    ...(dose ? { dose } : {}),
    ...(lesion ? placed(lesion) : {}),
    ...(comment.length > 0 ? { comment: comment.join(' ') } : {}),
  };
}

/** An amount that is a number and a unit the standard knows; any other is in words. @example doseOf('2 g') // → { doseQuantity: 2, doseUnits: 'GRM' } */
export function doseOf(amount: string | undefined): TreatmentEvent['dose'] {
  const [, quantity, unit = ''] = /^(\d+(?:\.\d+)?) ?([A-Za-z]+)$/.exec(amount ?? '') ?? [];
  const doseUnits = icarExchange.doseUnits[unit.toLowerCase()];
  return quantity === undefined || doseUnits === undefined
    ? undefined
    : { doseQuantity: Number(quantity), doseUnits };
}

/** What the standard's end of a withdrawal cannot say. */
function withdrawalInWords(of: 'Milk' | 'Meat', held: WithheldOfUse): string[] {
  const what = icarSays(of);
  if (held.outcome === 'milkings-a-day-not-known')
    return [icarSays('milkings', { what, milkings: String(held.milkings) })];
  return held.outcome === 'withheld' || held.outcome === 'none-written'
    ? []
    : [icarSays(held.outcome, { what })];
}

/** Feet trimmed, horn taken off, blocks and wraps. */
function procedures(at: VisitAt): TreatmentEvent[] {
  const { visit, one } = at;
  const named = icarExchange.procedures;
  const event = (what: string, procedure: string, place: Place | undefined): TreatmentEvent => ({
    ...treatment(at, what),
    procedure,
    ...(place ? placed(place) : {}),
  });
  const fixtures = (['block', 'wrap'] as const).flatMap((what) =>
    (visit[`${what}s`] ?? []).flatMap((fixture, index): TreatmentEvent[] => {
      const { event: word, on, note } = fixture;
      if (!icarExchange.treating.includes(word)) return [];
      return [
        {
          ...treatment(at, `${what}-${index + 1}`, { day: on === 'unknown' ? undefined : on }),
          procedure: named[`${what}s`].replace('{event}', word),
          ...placed(fixture),
          ...given({ comment: note }),
        },
      ];
    }),
  );
  return [
    ...(visit.trimmed ?? []).map((foot) => event(`trimmed-${foot}`, named.trimmed, { foot })),
    ...(visit['cut-back'] ?? []).map((name) =>
      event(`cut-back-${name}`, named['cut-back'], one.animal.lesions[name]),
    ),
    ...fixtures,
  ];
}
