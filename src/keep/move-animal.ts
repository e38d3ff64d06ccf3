import { slugFrom } from '../casefile/case-folder-names.js';
import { animal as animalSchema } from '../record/animal.js';
import type { Animal } from '../record/animal.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { BlockEvent, ProductUse, Visit, WrapEvent } from '../record/visit.js';
import { fixedDays } from '../reference/intervals.js';
import type { Keeping, Worked } from './change.js';
import { cannot } from './change.js';
import { endSteps } from './end-episode.js';
import { findFarm, openAnimal } from './find-kept.js';
import { recordText } from './open-case.js';
import { changeOfFile, workedOut } from './work-out.js';

export interface MoveTo {
  readonly farm: string;
  /** Her number there, where it is another. */
  readonly number: string | undefined;
  /** The day she left, and the day her new keeper was told what is withheld and what is on her feet. */
  readonly on: CalendarDay;
  readonly told?: CalendarDay | undefined;
}

/**
 * An animal gone to another farm of the same trimmer. Her records where she was stay there: the episode ends `moved`.
 * Where she is now a file is opened with her identity, the lesions still followed and her marks, and says under
 * `earlier` where she was; so both are known to be one cow, and neither farm's book tells of the other. A report of that
 * day brings along what she still carries: blocks and wraps that are on, and all she was given whose withdrawal may run.
 *
 * Checked: tests/keep/other-changes.test.ts
 */
export function moveAnimal(keeping: Keeping, farm: string, animal: string, to: MoveTo): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  const found = findFarm(keeping, to.farm);
  if (found.outcome !== 'found') return found;
  if (to.farm === farm)
    return cannot(
      `${animal} is on ${farm}; a new number there is \`growdown renumber ${farm}/${animal} NUMBER\``,
    );
  const { record } = kept;
  const number = to.number ?? record.animal;
  const slug = slugFrom(number);
  const { path: folder, shown } = found.farm.entry;
  const path = `${folder}/${slug}.md`;
  if (slug === '' || keeping.files.look(path))
    return cannot(
      `${shown}/${slug}.md is there already and was left as it is, expected no file of that name; give the number she has there, as in \`${to.farm}/NUMBER\``,
    );
  const ends = endSteps(record, { ended: to.on, result: 'moved', 'told-in-writing': to.told });
  const left = ends ? changeOfFile({ kept, steps: ends }, keeping) : undefined;
  if (left && 'outcome' in left) return left;
  const there = {
    ...identityOf(record),
    animal: number,
    earlier: [...(record.earlier ?? []), { animal: record.animal, farm, until: to.on }],
    lesions: stillFollowed(record),
    ...(record.marks ? { marks: record.marks } : {}),
    visits: broughtAlong(record, to.on),
  };
  const arrived = {
    file: `${shown}/${slug}.md`,
    path,
    before: undefined,
    after: recordText({ casefile: 1, ...there }, animalSchema),
  };
  return workedOut(
    { what: `move to ${to.farm}`, farms: [farm, to.farm], files: left ? [arrived, left] : [arrived] },
    keeping,
  );
}

function identityOf(record: Animal): Omit<Animal, 'casefile' | 'episodes' | 'lesions' | 'marks' | 'visits'> {
  const { casefile: _, episodes: __, lesions: ___, marks: ____, visits: _____, ...identity } = record;
  return identity;
}

/**
 * One report of what is on her feet and in her milk and meat as she arrives; none where nothing is. Who gave it, and
 * what was noted, belongs to the farm she comes from.
 */
function broughtAlong({ visits }: Animal, on: CalendarDay): Visit[] {
  const before = visits.filter(({ date }) => date <= on);
  const by = (before.findLast(isLiftingVisit) ?? before.at(-1))?.by;
  if (by === undefined) return [];
  const recent = before.filter(({ date }) => daysBetween(date, on) <= fixedDays('withdrawal-unknown-shown'));
  const blocks = stillOn(before.map(({ date, blocks: events }) => ({ date, events })));
  const wraps = stillOn(before.map(({ date, wraps: events }) => ({ date, events })));
  const products = before.flatMap(({ date, products: uses = [] }) =>
    uses
      .map((use) => {
        const { lesion: _, cost: __, note: ___, 'given-by': ____, ...given } = use;
        return { ...given, on: use.on ?? date };
      })
      .filter((use) => mayBeWithheld(use, use.until ?? use.on, on)),
  );
  const unrecorded = recent.some(
    (visit) =>
      !visit.products?.length && (visit['pain-relief'] === 'given' || visit['vet-answer']?.treated === true),
  );
  const brought = {
    ...(blocks.length > 0 ? { blocks } : {}),
    ...(wraps.length > 0 ? { wraps } : {}),
    ...(products.length > 0 ? { products } : {}),
    ...(unrecorded ? { 'pain-relief': 'given' as const } : {}),
  };
  return Object.keys(brought).length === 0 ? [] : [{ date: on, by, kind: 'report', ...brought }];
}

/** The last event of each place, where it leaves something on, as what was on already. */
function stillOn<Event extends BlockEvent | WrapEvent>(
  visits: readonly { readonly date: CalendarDay; readonly events?: readonly Event[] | undefined }[],
): Event[] {
  const on = new Map<string, Event>();
  for (const { date, events = [] } of visits)
    for (const event of events) {
      const place = `${event.foot} ${'claw' in event ? event.claw : ''}`;
      const { event: what, note: _, ...rest } = event;
      const day = event.on ?? date;
      if (what === 'lost' || what === 'removed') on.delete(place);
      else if (what === 'fitted' || what === 'replaced' || !on.has(place))
        on.set(place, { ...rest, event: 'already on', on: day } as Event);
    }
  return [...on.values()];
}

/** Whether a withdrawal may still run on a day: what is not written, or hangs on a calving, runs as long as it is shown at all. */
function mayBeWithheld(use: ProductUse, last: CalendarDay, on: CalendarDay): boolean {
  const milk = use['milk-days'] ?? Math.max((use['milk-hours'] ?? 0) / 24, use['milk-milkings'] ?? 0);
  const isWhole =
    use['meat-days'] !== undefined &&
    use['milk-days-after-calving'] === undefined &&
    ['milk-days', 'milk-hours', 'milk-milkings'].some((key) => key in use);
  const days = isWhole ? Math.max(milk, use['meat-days'] ?? 0) + 1 : fixedDays('withdrawal-unknown-shown');
  return daysBetween(last, on) <= days;
}

/** Those not last found healed; of one that had broken down again, without the name of the healed one it followed. */
function stillFollowed({ lesions, visits }: Animal): Animal['lesions'] {
  const followed = Object.entries(lesions).filter(([name]) => {
    const last = visits.findLast(({ found }) => found?.[name]?.state ?? found?.[name]?.stage)?.found?.[name];
    return last?.state !== 'healed' && last?.stage !== 'M0';
  });
  const names = new Set(followed.map(([name]) => name));
  return Object.fromEntries(
    followed.map(([name, { 'again-of': again, ...lesion }]) => [
      name,
      again !== undefined && names.has(again) ? { ...lesion, 'again-of': again } : lesion,
    ]),
  );
}
