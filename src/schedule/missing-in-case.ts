import type { CaseStanding } from '../healing/standing.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import type { MissingEntry, MissingGrade, MissingContext } from './missing-on-farm.js';
import { missingAtClosing } from './end-of-case.js';
import {
  missingAtLeaving,
  missingOfProducts,
  missingProducts,
  missingBlockOff,
  missingGait,
  missingWhyMissed,
  missingPainRelief,
  missingRecheck,
  missingTaskReports,
  missingVetAnswers,
  missingWrapOff,
} from './missing-at-visits.js';
import { intervalsInForce } from '../reference/intervals.js';
import { usesOf, withoutProduct } from './withheld.js';
import { looksAt } from '../healing/looks-at-lesion.js';
import { isLiftingVisit } from '../record/lifting.js';
import { familyOf } from '../reference/lesions.js';
import type { Photo } from '../record/visit.js';
import type { Animal } from '../record/animal.js';

/** What missing entries are worked out from, beside the case file. */
export interface MissingKnown {
  readonly farmRecord: FarmRecord;
  readonly business: Business;
  /** Of the same day. */
  readonly standing: CaseStanding;
  readonly today: CalendarDay;
  /** Whether a picture named in the record is there; without it no picture is asked after. */
  readonly isPictureThere?: (file: string) => boolean;
}

const order: readonly MissingGrade[] = ['serious', 'worth closing', 'minor'];

/**
 * What one case file does not hold and could, most serious first; never fatal.
 *
 * Of a closed case only its end, how she left, products and pictures are looked at: the rest can no longer be closed.
 *
 * Shape:   case file and what is known for a day → missing entries with their places in the file
 * Checked: tests/schedule/missing-in-case.test.ts
 */
export function missingInCase(caseRecord: CaseRecord, known: MissingKnown): readonly MissingEntry[] {
  const { animal } = caseRecord;
  const { farmRecord, business, standing, today, isPictureThere } = known;
  const { farm } = farmRecord;
  const open = standing.closed
    ? []
    : standing.episode.visits.flatMap((at) => (animal.visits[at] ? [[at, animal.visits[at]] as const] : []));
  const context: MissingContext = {
    animal,
    farm,
    standing,
    interval: intervalsInForce(farm, business),
    open,
    today,
  };
  return [
    ...missingRecheck(context),
    ...missingLengths(context),
    ...missingBlockOff(context),
    ...missingWrapOff(context),
    ...missingAtClosing(animal, farm, today),
    ...missingOfProducts(usesOf(animal, today), farm),
    ...missingProducts(withoutProduct(animal, today)),
    ...missingAtLeaving(animal, farm, today),
    ...missingPainRelief(context),
    ...missingGait(context),
    ...missingVetAnswers(context),
    ...missingTaskReports(context),
    ...(isPictureThere ? missingPhotos(animal, today, isPictureThere) : []),
    ...missingAfterTrim(context),
    ...missingWhyMissed(context),
  ].toSorted((a, b) => order.indexOf(a.grade) - order.indexOf(b.grade));
}

/**
 * A gap in the wall or an ulcer, open at its last lifted look, with no length there; and a top that does not say
 * how it was found.
 *
 * Serious where no length was ever taken, since then nothing gives a date; else worth closing. A top that could not
 * be reached (`higher`) has no length to give and nothing is missing.
 */
function missingLengths({ animal, standing, open, today }: MissingContext): MissingEntry[] {
  const from = open[0]?.[0];
  if (from === undefined) return [];
  return standing.lesions.flatMap(({ lesion, code, standing: word }): MissingEntry[] => {
    const family = familyOf(code);
    const key = family === 'wall' ? 'top' : family === 'ulcer' ? 'width' : undefined;
    if (key === undefined || ['healed', 'lasting', 'joined'].includes(word)) return [];
    const looks = looksAt(animal, lesion, today).filter(
      ({ visit }) => visit >= from && isLiftingVisit(animal.visits[visit]!),
    );
    const last = looks.at(-1);
    if (!last) return [];
    const path = ['visits', last.visit, 'found', lesion];
    const values = { lesion, day: last.date };
    const measured = looks.filter(({ found }) => found[key] !== undefined);
    if (last.found['top-found'] !== 'higher' && last.found[key] === undefined) {
      const ulcer = key === 'width';
      // A covered ulcer has no width left to read.
      if (ulcer && last.found.state !== 'open') return [];
      const grade = measured.length === 0 ? 'serious' : 'worth closing';
      const what = ulcer ? { ...values, what: 'width' } : { ...values, what: 'top' };
      return [{ id: 'gap/no-length', grade, path, values: what, closable: 'next-lift', since: last.date }];
    }
    const lastMeasured = measured.at(-1);
    if (key !== 'top' || !lastMeasured || lastMeasured.found['top-found'] !== undefined) return [];
    return [
      {
        id: 'gap/top-found-not-said',
        grade: 'worth closing',
        path: ['visits', lastMeasured.visit, 'found', lesion],
        values: { lesion, day: lastMeasured.date },
        closable: 'in-the-record',
        since: lastMeasured.date,
      },
    ];
  });
}

/** Pictures the record names that are not there; of closed cases too. */
function missingPhotos(
  animal: Animal,
  today: CalendarDay,
  isThere: (file: string) => boolean,
): MissingEntry[] {
  return [...animal.visits.entries()].flatMap(([visit, { date, photos }]) =>
    [...(photos ?? []).entries()].flatMap(([at, { file }]): MissingEntry[] =>
      date > today || isThere(file)
        ? []
        : [
            {
              id: 'gap/photo-missing',
              grade: 'worth closing',
              path: ['visits', visit, 'photos', at, 'file'],
              values: { file, day: date },
              closable: 'in-the-record',
              since: date,
            },
          ],
    ),
  );
}

/**
 * Views that earlier visits have after the trim and the last lifted visit has not: without the same view nothing
 * can be set beside them. Only of feet trimmed that day.
 */
function missingAfterTrim({ open }: MissingContext): MissingEntry[] {
  const last = open.findLast(([, visit]) => isLiftingVisit(visit));
  if (!last) return [];
  const [at, visit] = last;
  const trimmed = visit.trimmed ?? [];
  const has = new Set((visit.photos ?? []).filter(isAfter).map(viewOf));
  const before = open
    .filter(([earlier]) => earlier < at)
    .flatMap(([, { photos }]) => (photos ?? []).filter(isAfter))
    .filter(({ foot }) => foot !== undefined && trimmed.includes(foot));
  const missing = new Map(
    before.filter((photo) => !has.has(viewOf(photo))).map((photo) => [viewOf(photo), photo]),
  );
  return [...missing.values()].map(({ foot, claw, view }) => ({
    id: 'gap/no-after-trim-picture',
    grade: 'minor',
    path: ['visits', at],
    values: { day: visit.date, foot: foot ?? '', ...(claw ? { claw } : {}), view: view ?? '' },
    closable: 'next-lift',
    since: visit.date,
  }));
}

function isAfter({ when, view }: Photo): boolean {
  return when === 'after' && view !== undefined;
}

function viewOf({ foot, claw, view }: Photo): string {
  return `${foot} ${claw ?? ''} ${view}`;
}
