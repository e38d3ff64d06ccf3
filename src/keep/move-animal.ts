import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { EpisodeResult } from '../record/words.js';
import { type Keeping, type Worked, cannot } from './change.js';
import {
  isHealed,
  lastFound,
  goneResults,
  type BlockEvent,
  type ProductUse,
  type Visit,
  type WrapEvent,
} from '../record/visit.js';
import { openAnimal, findFarm } from './kept-file.js';
import type { Step } from '../record/record-step.js';
import { type Animal, animal as animalSchema } from '../record/animal.js';
import { workOutSteps, changeOfFile, workedOut } from './work-out.js';
import { slugFrom } from '../casefile/folder-entries.js';
import { isLiftingVisit } from '../record/lifting.js';
import { fixedDays } from '../reference/intervals.js';
import { recordText } from './open-case.js';
import { terminal } from '../problem/message.js';

export interface EpisodeEnd {
  readonly ended: CalendarDay;
  readonly result: EpisodeResult;
  /** The day the new keeper was told what is withheld and what is on her feet. */
  readonly 'told-in-writing'?: CalendarDay | undefined;
}

/** A lameness episode ended: the day and what became of her. A file without episodes has one, open, and gets it written. */
export function closeCase(keeping: Keeping, farm: string, animal: string, end: EpisodeEnd): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  const steps = endSteps(kept.record, end);
  if (!steps)
    return cannot('keep.ended-already', {
      file: kept.file,
      day: String(kept.record.episodes?.at(-1)?.ended),
      farm,
      animal,
    });
  const what = terminal('keep.what.end', { day: end.ended });
  return workOutSteps({ kept, steps }, { what, farms: [farm] }, keeping);
}

/** Undefined where the last episode has ended. */
export function endSteps({ episodes = [] }: Animal, end: EpisodeEnd): Step[] | undefined {
  const said = Object.entries(end).filter(([, value]) => value !== undefined);
  const last = episodes.length - 1;
  if (last < 0) return [{ put: 'entry', path: ['episodes'], index: 0, value: Object.fromEntries(said) }];
  if (episodes[last]?.ended !== undefined) return undefined;
  const path = ['episodes', last];
  return said.map(([key, value]) => ({ put: 'key', path, key, value }));
}

/** New trouble after an end: an episode of its own. */
export function reopenCase(
  keeping: Keeping,
  farm: string,
  animal: string,
  begin: { readonly 'lame-since'?: CalendarDay; readonly 'told-by'?: string },
): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  const { episodes = [] } = kept.record;
  const last = episodes.at(-1);
  if (last?.ended === undefined) return cannot('keep.still-open', { file: kept.file });
  if (last.result !== undefined && goneResults.has(last.result))
    return cannot('keep.gone', {
      file: kept.file,
      result: last.result,
      day: last.ended,
      farm,
      animal,
      place: episodes.length,
    });
  return workOutSteps(
    { kept, steps: [{ put: 'entry', path: ['episodes'], index: episodes.length, value: begin }] },
    { what: terminal('keep.what.reopened'), farms: [farm] },
    keeping,
  );
}

interface MoveTo {
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
  if (to.farm === farm) return cannot('keep.same-farm', { animal, farm });
  const { record } = kept;
  const number = to.number ?? record.animal;
  const slug = slugFrom(number);
  const { path: folder, shown } = found.farm.entry;
  const path = `${folder}/${slug}.md`;
  if (slug === '' || keeping.files.look(path))
    return cannot('keep.move-there', { file: `${shown}/${slug}.md`, farm: to.farm });
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
    {
      what: terminal('keep.what.move', { farm: to.farm }),
      farms: [farm, to.farm],
      files: left ? [arrived, left] : [arrived],
    },
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
  const followed = Object.entries(lesions).filter(([name]) => !isHealed(lastFound(visits, name)));
  const names = new Set(followed.map(([name]) => name));
  return Object.fromEntries(
    followed.map(([name, { 'again-of': again, ...lesion }]) => [
      name,
      again !== undefined && names.has(again) ? { ...lesion, 'again-of': again } : lesion,
    ]),
  );
}

/**
 * An animal with a new number on her farm: her file takes its name, and the old number goes under `earlier`.
 *
 * Shape:   `until` is the last day of the old number
 * Error:   a file of the new name is left alone
 */
export function renumber(
  keeping: Keeping,
  farm: string,
  animal: string,
  { number, until }: { readonly number: string; readonly until: CalendarDay },
): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  const old = kept.record.animal;
  const slug = slugFrom(number);
  if (slug === '' || number === old) return cannot('keep.no-new-number', { number, old });
  const index = kept.record.earlier?.length ?? 0;
  const change = changeOfFile(
    {
      kept,
      steps: [
        { put: 'entry', path: ['earlier'], index, value: { animal: old, until } },
        { put: 'value', path: ['animal'], value: number },
      ],
    },
    keeping,
  );
  if ('outcome' in change) return change;
  const what = terminal('keep.what.number', { number, old });
  const renamed = (name: string): string => name.replace(/[^/]+$/, `${slug}.md`);
  const [path, file] = [renamed(kept.path), renamed(kept.file)];
  if (path === kept.path) return workedOut({ what, farms: [farm], files: [change] }, keeping);
  if (keeping.files.look(path)) return cannot('keep.number-there', { file });
  const files = [
    { file, path, before: undefined, after: change.after },
    { file: kept.file, path: kept.path, before: kept.bytes, after: undefined },
  ];
  return workedOut({ what, farms: [farm], files }, keeping);
}
