import type { CalendarDay } from '../../record/calendar-day.js';
import type { Lesion } from '../../record/lesion.js';
import type { ProductUse } from '../../record/visit.js';
import { icarExchange, icarSays } from '../../reference/icar-exchange.js';
import { siteOf } from './diagnosis-events.js';
import { type EventCore, eventCore, noonOf, type Position, positionOf, type VisitAt } from './event.js';
import { given } from '../../record/given.js';

/** Until when milk or meat is withheld after a product, of all she was given. */
export type WithheldOfUse =
  | { readonly outcome: 'withheld'; readonly firstClear: CalendarDay }
  | { readonly outcome: 'nothing' | 'not-recorded' | 'none-written' | 'not-known' }
  | { readonly outcome: 'milkings-a-day-not-known'; readonly milkings: number };

/** Tells until when she is under withdrawal after one product used at a visit. */
export type WithheldAfter = (
  use: ProductUse,
  at: VisitAt,
) => { readonly milk: WithheldOfUse; readonly meat: WithheldOfUse };

export interface TreatmentEvent extends EventCore {
  readonly medicine?: { readonly name: string };
  readonly procedure?: string;
  readonly batches?: readonly { readonly identifier: string }[];
  readonly withdrawals?: readonly { readonly productType: 'Milk' | 'Meat'; readonly endDate: string }[];
  readonly dose?: { readonly doseQuantity: number; readonly doseUnits: string };
  readonly site?: string;
  readonly positions?: readonly Position[];
  readonly comment?: string;
}

const resource = 'icarTreatmentEventResource';

/** All that was done at a visit: products used, then feet trimmed, horn taken off, blocks and wraps. */
export function treatmentEvents(at: VisitAt, withheldAfter: WithheldAfter): TreatmentEvent[] {
  return [
    ...(at.visit.products ?? []).map((use, index) => ofProduct(at, use, index + 1, withheldAfter)),
    ...procedures(at),
  ];
}

function ofProduct(
  at: VisitAt,
  use: ProductUse,
  number: number,
  withheldAfter: WithheldAfter,
): TreatmentEvent {
  const { visit, one } = at;
  const lesion = one.animal.lesions[use.lesion ?? ''];
  const { milk, meat } = withheldAfter(use, at);
  const both = [['Milk', milk] as const, ['Meat', meat] as const];
  const withdrawals = both.flatMap(([productType, held]) =>
    held.outcome === 'withheld' ? [{ productType, endDate: noonOf(held.firstClear) }] : [],
  );
  const dose = doseOf(use.amount);
  const comment = [
    ...(use.active === undefined ? [] : [icarSays('active', { text: use.active })]),
    ...(use.class === undefined ? [] : [icarSays('class', { text: use.class })]),
    ...(use.amount === undefined || dose ? [] : [icarSays('amount', { text: use.amount })]),
    ...(use.until === undefined ? [] : [icarSays('until', { text: use.until })]),
    ...(use['prescribed-by'] === undefined
      ? []
      : [icarSays('prescribed-by', { text: use['prescribed-by'] })]),
    ...both.flatMap(([what, held]) => withdrawalInWords(what, held)),
    ...(use.note === undefined ? [] : [use.note]),
  ];
  return {
    ...eventCore(resource, at, {
      what: `product-${number}`,
      day: use.on ?? visit.date,
      responsible: use['given-by'] ?? visit.by,
    }),
    medicine: { name: use.product },
    ...given({ procedure: use.route }),
    ...(use.batch === undefined ? {} : { batches: [{ identifier: use.batch }] }),
    ...(withdrawals.length > 0 ? { withdrawals } : {}),
    ...(dose ? { dose } : {}),
    ...(lesion ? placed(lesion) : {}),
    ...(comment.length > 0 ? { comment: comment.join(' ') } : {}),
  };
}

function placed(lesion: Pick<Lesion, 'foot' | 'claw' | 'site'>): Pick<TreatmentEvent, 'site' | 'positions'> {
  return { site: siteOf(lesion), positions: [positionOf(lesion.foot)] };
}

/** An amount that is a number and a unit the standard knows; any other stands in words. @example doseOf('2 g') // → { doseQuantity: 2, doseUnits: 'GRM' } */
export function doseOf(amount: string | undefined): TreatmentEvent['dose'] {
  const [, quantity, unit = ''] = /^(\d+(?:\.\d+)?) ?([A-Za-z]+)$/.exec(amount ?? '') ?? [];
  const units = icarExchange.doseUnits[unit.toLowerCase()];
  return quantity === undefined || units === undefined
    ? undefined
    : { doseQuantity: Number(quantity), doseUnits: units };
}

/** What the standard's end of a withdrawal cannot say. */
function withdrawalInWords(what: 'Milk' | 'Meat', held: WithheldOfUse): string[] {
  const of = icarSays(what);
  switch (held.outcome) {
    case 'nothing':
      return [icarSays('nothing', { what: of })];
    case 'not-recorded':
    case 'not-known':
      return [icarSays(held.outcome, { what: of })];
    case 'milkings-a-day-not-known':
      return [icarSays('milkings', { what: of, milkings: String(held.milkings) })];
    default:
      return [];
  }
}

function procedures(at: VisitAt): TreatmentEvent[] {
  const { visit, one } = at;
  const named = icarExchange.procedures;
  const event = (
    what: string,
    procedure: string,
    place: Pick<Lesion, 'foot' | 'claw' | 'site'> | undefined,
    more: { readonly on?: string | undefined; readonly note?: string | undefined } = {},
  ): TreatmentEvent => ({
    ...eventCore(resource, at, {
      what,
      day: more.on === undefined || more.on === 'unknown' ? visit.date : more.on,
      responsible: visit.by,
    }),
    procedure,
    ...(place ? placed(place) : {}),
    ...given({ comment: more.note }),
  });
  return [
    ...(visit.trimmed ?? []).map((foot) => event(`trimmed-${foot}`, named.trimmed, { foot })),
    ...(visit['cut-back'] ?? []).map((name) =>
      event(`cut-back-${name}`, named['cut-back'], one.animal.lesions[name]),
    ),
    ...(visit.blocks ?? []).flatMap((block, index) =>
      icarExchange.treating.includes(block.event)
        ? [event(`block-${index + 1}`, named.blocks.replace('{event}', block.event), block, block)]
        : [],
    ),
    ...(visit.wraps ?? []).flatMap((wrap, index) =>
      icarExchange.treating.includes(wrap.event)
        ? [event(`wrap-${index + 1}`, named.wraps.replace('{event}', wrap.event), { foot: wrap.foot }, wrap)]
        : [],
    ),
  ];
}
