import { codeOn } from '../../record/code-of-lesion.js';
import type { Found } from '../../record/visit.js';
import type { Lesion } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import { icarExchange, icarSays } from '../../reference/icar-exchange.js';
import { lesionKinds } from '../../reference/lesions.js';
import {
  type EventCore,
  eventCore,
  type Identifier,
  type Position,
  positionOf,
  type VisitAt,
} from './event.js';

export interface Diagnosis {
  readonly id: string;
  readonly name: string;
  readonly description?: string;
  readonly diagnosisCode: Identifier;
  readonly site: string;
  readonly positions: readonly Position[];
}

export interface DiagnosisEvent extends EventCore {
  readonly remark: string;
  readonly diagnoses: readonly Diagnosis[];
}

/**
 * The lesions newly found at a visit as one event, or none: each lesion once, on the day it was first found open; again
 * when it is given another name, and when digital dermatitis is back after it had gone. Later looks at the same lesion
 * are no new diagnosis, and counting them would double an incidence.
 */
export function diagnosisEvent(at: VisitAt): DiagnosisEvent | undefined {
  const { one, visit } = at;
  const { lesions, visits } = one.animal;
  const position = visits.indexOf(visit);
  const fresh = Object.entries(lesions).filter(([name, lesion]) => isNew(at, name, lesion, position));
  if (fresh.length === 0) return undefined;
  const core = eventCore('icarDiagnosisEventResource', at, {
    what: 'diagnosis',
    day: visit.date,
    responsible: visit.by,
  });
  return {
    ...core,
    remark: icarSays('diagnosis'),
    diagnoses: fresh.map(([name, lesion]) =>
      diagnosisOf(`${core.id}/${name}`, lesion, codeOn(name, lesion, visits, position), visit.found?.[name]),
    ),
  };
}

function isNew({ one, visit }: VisitAt, name: string, lesion: Lesion, position: number): boolean {
  const found = visit.found?.[name];
  if (!found || !isThere(found)) return false;
  const { visits } = one.animal;
  const before = visits.slice(0, position).flatMap(({ found: all }) => all?.[name] ?? []);
  const last = before.findLast(({ state, stage }) => state !== undefined || stage !== undefined);
  if (!last || last.stage === 'M0') return true;
  return codeOn(name, lesion, visits, position) !== codeOn(name, lesion, visits, position - 1);
}

/** Seen and not gone. */
function isThere({ state, stage, lifted }: Found): boolean {
  return lifted !== false && stage !== 'M0' && state !== 'healed' && (state ?? stage) !== undefined;
}

function diagnosisOf(id: string, lesion: Lesion, code: LesionCode, found: Found | undefined): Diagnosis {
  return {
    id,
    name: lesionKinds[code].name,
    ...(found?.infected === true ? { description: icarSays('infected') } : {}),
    diagnosisCode: { id: code, scheme: icarExchange.schemes.lesion },
    site: siteOf(lesion),
    positions: [positionOf(lesion.foot)],
  };
}

/** Foot, claw and place, in the words of the case format. @example siteOf({ code: 'SU', foot: 'LH', claw: 'outer', site: 'sole' }) // → 'LH, outer claw, sole' */
export function siteOf({ foot, claw, site }: Pick<Lesion, 'foot' | 'claw' | 'site'>): string {
  return [foot, ...(claw ? [icarSays('claw', { claw })] : []), ...(site ? [site] : [])].join(', ');
}
