import { blockTimeline } from '../healing/block-timeline.js';
import { wrapTimeline } from '../healing/fixture-span.js';
import { looksAt } from '../healing/looks-at-lesion.js';
import type { CaseStanding } from '../healing/standing.js';
import type { Animal } from '../record/animal.js';
import type { Business } from '../record/business.js';
import { addDays, daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import type { Photo } from '../record/visit.js';
import { intervalsInForce } from '../reference/intervals.js';
import { familyOf } from '../reference/lesions.js';
import { isMedicine, substancesOf } from '../reference/substances.js';
import { type DueContext, episodeVisits } from './due/due-item.js';
import { farmTaskDue } from './due/farm-task-due.js';
import { leftUnderWithdrawal, missingAtClosing } from './end-of-case.js';
import { type MissingEntry, missingEntry, type MissingGrade, type MissingId } from './missing-on-farm.js';
import { sides, type Use, usesOf, type WithoutProduct, withoutProduct, writtenPeriod } from './withheld.js';

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

/** What missing entries are looked for in. */
export interface MissingContext extends Pick<
  DueContext,
  'animal' | 'farm' | 'standing' | 'interval' | 'today'
> {
  /** Visits of the open episode up to the day; empty for a closed case. */
  readonly open: ReturnType<typeof episodeVisits>;
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
export function missingInCase({ animal }: CaseRecord, known: MissingKnown): readonly MissingEntry[] {
  const { farmRecord, business, standing, today, isPictureThere } = known;
  const { farm } = farmRecord;
  const open = standing.closed ? [] : episodeVisits({ animal, standing });
  const interval = intervalsInForce(farm, business);
  const context: MissingContext = { animal, farm, standing, interval, open, today };
  return [
    ...missingRecheck(context),
    ...missingLengths(context),
    ...(open.length > 0 ? missingOff(context) : []),
    ...missingAtClosing(animal, farm, today),
    ...missingOfProducts(usesOf(animal, today), farm),
    ...missingProducts(withoutProduct(animal, today)),
    ...missingAtLeaving(animal, farm, today),
    ...missingPainRelief(context),
    ...missingGait(context),
    ...missingVetAnswers(context),
    ...(open.length > 0 ? missingTaskReports(context) : []),
    ...(isPictureThere ? missingPhotos(animal, today, isPictureThere) : []),
    ...missingAfterTrim(context),
    ...missingWhyMissed(context),
  ].toSorted((a, b) => order.indexOf(a.grade) - order.indexOf(b.grade));
}

/** A day written for the recheck has passed and no foot was lifted since the visit that wrote it. */
function missingRecheck({ open, today }: MissingContext): MissingEntry[] {
  const [at = 0, { recheck: day = today } = {}] = open.findLast(([, { recheck }]) => recheck) ?? [];
  if (day >= today || open.some(([later, visit]) => later > at && isLiftingVisit(visit))) return [];
  const values = { day, days: daysBetween(day, today) };
  return [missingEntry('gap/recheck-passed', ['visits', at, 'recheck'], day, values)];
}

/**
 * A gap in the wall or an ulcer, open at its last lifted look, with no length there; and a top that does not say
 * how it was found.
 *
 * Serious where no length was ever taken, since then nothing gives a date; else worth closing. A top that could not
 * be reached (`higher`) has no length to give and nothing is missing.
 */
function missingLengths({ animal, standing, open, today }: MissingContext): MissingEntry[] {
  const [[from] = [Infinity]] = open;
  return standing.lesions.flatMap(({ lesion, code, standing: word }): MissingEntry[] => {
    const family = familyOf(code);
    const what = family === 'wall' ? 'top' : family === 'ulcer' ? 'width' : undefined;
    if (what === undefined || ['healed', 'lasting', 'joined'].includes(word)) return [];
    const looks = looksAt(animal, lesion, today).filter(
      ({ visit }) => visit >= from && isLiftingVisit(animal.visits[visit]!),
    );
    const last = looks.at(-1);
    if (!last) return [];
    const measured = looks.findLast(({ found }) => found[what] !== undefined);
    if (last.found['top-found'] !== 'higher' && last.found[what] === undefined) {
      // A covered ulcer has no width left to read.
      if (what === 'width' && last.found.state !== 'open') return [];
      const path = ['visits', last.visit, 'found', lesion];
      const grade = measured ? 'worth closing' : 'serious';
      return [missingEntry('gap/no-length', path, last.date, { lesion, day: last.date, what }, grade)];
    }
    if (what !== 'top' || !measured || measured.found['top-found'] !== undefined) return [];
    const { visit, date: day } = measured;
    return [missingEntry('gap/top-found-not-said', ['visits', visit, 'found', lesion], day, { lesion, day })];
  });
}

/** A block or a wrap that is still on, as far as is recorded, after the day it is overdue to come off. */
function missingOff({ animal, interval, today }: MissingContext): MissingEntry[] {
  const wraps = wrapTimeline(animal, today).filter(({ end }) => !end);
  return (['block', 'wrap'] as const).flatMap((kind) => {
    const longest = interval(`${kind}-off-overdue`);
    return (kind === 'block' ? blockTimeline(animal, today).on : wraps)
      .filter(({ from }) => daysBetween(from, today) > longest)
      .map(({ foot, claw, from, visit, at }) => {
        const values = { foot, claw, day: from, days: daysBetween(from, today) };
        const since = addDays(from, longest + 1);
        return missingEntry(`gap/${kind}-past-its-time`, ['visits', visit, `${kind}s`, at], since, values);
      });
  });
}

/** The last lifted visit without a gait score. */
function missingGait({ open }: MissingContext): MissingEntry[] {
  return open
    .filter(([, visit]) => isLiftingVisit(visit))
    .slice(-1)
    .filter(([, { gait }]) => gait === undefined)
    .map(([at, { date: day }]) => missingEntry('gap/no-gait-score', ['visits', at], day, { day }));
}

/** Lame at lifted visits with no word on pain relief, as one entry; serious where she was ever severely lame. */
export function missingPainRelief({ open, standing }: MissingContext): MissingEntry[] {
  const lame = open.flatMap(([at, visit]) => {
    const score = standing.gait.scores.find((scored) => scored.visit === at);
    return score?.lame && visit['pain-relief'] === undefined && isLiftingVisit(visit) ? score : [];
  });
  const grade = lame.some(({ severe }) => severe) ? 'serious' : 'worth closing';
  return lame.slice(0, 1).map(({ visit, date: day, score }) => {
    const values = { day, score, count: lame.length };
    return missingEntry('gap/lame-without-pain-relief-word', ['visits', visit], day, values, grade);
  });
}

/** What the farm was asked to do by a day that has passed, with no word that it did. */
function missingTaskReports(context: MissingContext): MissingEntry[] {
  const { open, today } = context;
  return farmTaskDue(context)
    .filter(({ doneOn, by }) => doneOn === undefined && by < today)
    .map(({ task = '', by, why }) => {
      const [path = ['visits']] = open.flatMap(([at, { 'ask-farm': asked = [] }]) => {
        const place = asked.findIndex((one) => one.what === task && one.by === by);
        return place < 0 ? [] : [['visits', at, 'ask-farm', place]];
      });
      const values = { task, day: by, asked: why.values['day'] ?? '' };
      return missingEntry('gap/farm-task-not-reported', path, by, values);
    });
}

/** The vet was asked and no answer is recorded. */
export function missingVetAnswers({ open, today }: MissingContext): MissingEntry[] {
  const answered = new Set(open.map(([, visit]) => visit['vet-answer']?.to));
  return open.flatMap(([at, { vet }]) => {
    if (!vet || vet.asked > today || answered.has(vet.asked)) return [];
    const { asked: day, why: reason } = vet;
    return missingEntry('gap/vet-answer-awaited', ['visits', at, 'vet'], day, { day, reason });
  });
}

/** She was not presented, and nobody wrote why. */
export function missingWhyMissed({ open }: MissingContext): MissingEntry[] {
  return open
    .filter(([, { kind, why }]) => kind === 'missed' && why === undefined)
    .map(([at, { date: day }]) => missingEntry('gap/missed-without-why', ['visits', at], day, { day }));
}

/**
 * Products without batch, class, prescriber or withdrawal, in every visit, of closed cases too: the keeper must be able to
 * show them for years.
 *
 * A batch is missed only on what is, or may be, a medicine; a prescriber only where the active substance makes it one. A
 * withdrawal that was given in milkings and cannot be counted is missing of the farm, not of the visit. Of one cow, products
 * without a withdrawal are one entry, and so are those without a prescriber.
 */
export function missingOfProducts(uses: readonly Use[], farm: Farm): MissingEntry[] {
  const sidesMissing = ({ use }: Use) =>
    sides.filter((side) => writtenPeriod(use, side, farm['milkings-a-day']).outcome === 'not-recorded');
  const oneEntry = (id: MissingId, such: readonly Use[]): MissingEntry[] =>
    such.slice(0, 1).map((first) => {
      const [which, other] = such.length > 1 ? [] : sidesMissing(first);
      return entryOf(first, id, { count: such.length, which: other ? 'both' : which });
    });
  return [
    ...uses.flatMap((one) => [
      ...(one.use.class === undefined ? [entryOf(one, 'gap/product-without-class')] : []),
      ...(one.use.batch === undefined && isMedicine(one.use)
        ? [entryOf(one, 'gap/product-without-batch')]
        : []),
    ]),
    ...oneEntry(
      'gap/product-without-withdrawal',
      uses.filter((one) => sidesMissing(one).length > 0),
    ),
    ...oneEntry(
      'gap/medicine-without-prescriber',
      uses.filter(({ use }) => use['prescribed-by'] === undefined && substancesOf(use).length > 0),
    ),
  ];
}

function entryOf(
  { use: { product }, visit, at, date: day }: Use,
  id: MissingId,
  values: { count: number; which?: string | undefined } = { count: 1 },
): MissingEntry {
  return missingEntry(id, ['visits', visit, 'products', at], day, { product, day, ...values });
}

/** Pain relief or another medicine given and no product recorded: one entry, however often. */
export function missingProducts(without: readonly WithoutProduct[]): MissingEntry[] {
  return without.slice(0, 1).map(({ visit, why, day }) => {
    const path = ['visits', visit, why === 'treated' ? 'vet-answer' : 'pain-relief'];
    return missingEntry('gap/treated-without-product', path, day, { day, count: without.length });
  });
}

/** She left while milk or meat was withheld, and the new keeper was not told; of one that died a note. */
function missingAtLeaving(animal: Animal, farm: Farm, today: CalendarDay): MissingEntry[] {
  const left = leftUnderWithdrawal(animal, farm, today);
  if (!left || left.grade === 'told') return [];
  const { on: day, result, episode } = left;
  const isDead = left.grade === 'note';
  const values = { day, result, which: isDead ? 'dead' : result };
  const path = ['episodes', episode, 'result'];
  return [missingEntry('gap/left-under-withdrawal', path, day, values, isDead ? 'minor' : 'serious')];
}

/** Pictures the record names that are not there; of closed cases too. */
function missingPhotos(
  animal: Animal,
  today: CalendarDay,
  isThere: (file: string) => boolean,
): MissingEntry[] {
  return animal.visits.flatMap(({ date: day, photos = [] }, visit) =>
    photos.flatMap(({ file }, at) => {
      const path = ['visits', visit, 'photos', at, 'file'];
      return day > today || isThere(file) ? [] : missingEntry('gap/photo-missing', path, day, { file, day });
    }),
  );
}

/**
 * Views that earlier visits have after the trim and the last lifted visit has not: without the same view nothing
 * can be set beside them. Only of feet trimmed that day.
 */
function missingAfterTrim({ open }: MissingContext): MissingEntry[] {
  const last = open.findLast(([, visit]) => isLiftingVisit(visit));
  if (!last) return [];
  const [at, { trimmed = [], photos = [], date: day }] = last;
  const isAfter = ({ when, view }: Photo) => when === 'after' && view !== undefined;
  const viewOf = ({ foot, claw, view }: Photo) => `${foot} ${claw ?? ''} ${view}`;
  const has = new Set(photos.filter(isAfter).map(viewOf));
  const before = open
    .flatMap(([earlier, visit]) => (earlier < at ? (visit.photos ?? []) : []))
    .filter(
      (photo) => isAfter(photo) && photo.foot && trimmed.includes(photo.foot) && !has.has(viewOf(photo)),
    );
  return [...new Map(before.map((photo) => [viewOf(photo), photo])).values()].map(({ foot, claw, view }) =>
    missingEntry('gap/no-after-trim-picture', ['visits', at], day, { day, foot, claw, view }),
  );
}
