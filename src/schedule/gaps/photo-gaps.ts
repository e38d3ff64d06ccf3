import { isLiftingVisit } from '../../record/lifting.js';
import type { Photo } from '../../record/visit.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Gap } from '../gap.js';
import type { GapContext } from './gap-context.js';

/** Pictures the record names that are not there; of closed cases too. */
export function missingPhotos(animal: Animal, today: CalendarDay, isThere: (file: string) => boolean): Gap[] {
  return [...animal.visits.entries()].flatMap(([visit, { date, photos }]) =>
    [...(photos ?? []).entries()].flatMap(([at, { file }]): Gap[] =>
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
export function afterTrimGaps({ open }: GapContext): Gap[] {
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
