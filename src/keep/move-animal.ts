import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { EpisodeResult } from '../record/words.js';
import { type Keeping, type Worked, cannot, fileChange } from './change.js';
import { given } from '../record/given.js';
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
import { changeIn, changeOfFile, workedOut } from './work-out.js';
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
  return changeIn(openAnimal(keeping, farm, animal), farm, keeping, ({ record, file }) => {
    const steps = endSteps(record, end);
    if (steps) return { what: terminal('keep.what.end', { day: end.ended }), steps };
    const day = String(record.episodes?.at(-1)?.ended);
    return cannot('keep.ended-already', { file, day, farm, animal });
  });
}

/** Undefined where the last episode has ended. */
export function endSteps({ episodes = [] }: Animal, end: EpisodeEnd): Step[] | undefined {
  const said = given(end);
  const last = episodes.length - 1;
  if (last < 0) return [{ put: 'entry', path: ['episodes'], index: 0, value: said }];
  if (episodes[last]?.ended !== undefined) return undefined;
  const path = ['episodes', last];
  return Object.entries(said).map(([key, value]) => ({ put: 'key', path, key, value }));
}

/** New trouble after an end: an episode of its own. */
export function reopenCase(
  keeping: Keeping,
  farm: string,
  animal: string,
  begin: { readonly 'lame-since'?: CalendarDay; readonly 'told-by'?: string },
): Worked {
  return changeIn(openAnimal(keeping, farm, animal), farm, keeping, ({ record, file }) => {
    const { episodes = [] } = record;
    const { ended: day, result } = episodes.at(-1) ?? {};
    const place = episodes.length;
    if (day === undefined) return cannot('keep.still-open', { file });
    if (result !== undefined && goneResults.has(result))
      return cannot('keep.gone', { file, result, day, farm, animal, place });
    return {
      what: terminal('keep.what.reopened'),
      steps: [{ put: 'entry', path: ['episodes'], index: place, value: begin }],
    };
  });
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
 * `earlier` where she was; so both are known to be one cow, and neither farm's book mentions the other. A report of that
 * day brings along what she still carries: blocks and wraps that are on, and all she was given whose withdrawal may run.
 *
 * Checked: tests/keep/other-changes.test.ts
 */
export function moveAnimal(keeping: Keeping, farm: string, animal: string, to: MoveTo): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const found = findFarm(keeping, to.farm);
  if (found.outcome !== 'found') return found;
  if (to.farm === farm) return cannot('keep.same-farm', { animal, farm });
  const { kept } = opened;
  const { record } = kept;
  const number = to.number ?? record.animal;
  const name = `${slugFrom(number)}.md`;
  // Her trouble here, and the visits, stay.
  const { casefile: _, episodes: __, visits: ___, lesions: ____, marks, ...identity } = record;
  const there = {
    casefile: 1,
    ...identity,
    animal: number,
    earlier: [...(record.earlier ?? []), { animal: record.animal, farm, until: to.on }],
    lesions: stillFollowed(record),
    ...(marks ? { marks } : {}),
    visits: broughtAlong(record, to.on),
  };
  const arrived = fileChange(found.farm.entry, name, undefined, recordText(there, animalSchema));
  if (name === '.md' || keeping.files.look(arrived.path))
    return cannot('keep.move-there', { file: arrived.file, farm: to.farm });
  const steps = endSteps(record, { ended: to.on, result: 'moved', 'told-in-writing': to.told });
  const left = steps ? changeOfFile({ kept, steps }, keeping) : undefined;
  if (left && 'outcome' in left) return left;
  const what = terminal('keep.what.move', { farm: to.farm });
  return workedOut({ what, farms: [farm, to.farm], files: left ? [arrived, left] : [arrived] }, keeping);
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
  const products = before.flatMap(({ date, products: uses = [] }) =>
    uses
      .map((use) => {
        const { lesion: _, cost: __, note: ___, 'given-by': ____, ...kept } = use;
        return { ...kept, on: use.on ?? date };
      })
      .filter((use) => mayBeWithheld(use, use.until ?? use.on, on)),
  );
  const unrecorded = recent.some(
    (visit) =>
      !visit.products?.length && (visit['pain-relief'] === 'given' || visit['vet-answer']?.treated === true),
  );
  const lists = { blocks: stillOn(before, 'blocks'), wraps: stillOn(before, 'wraps'), products };
  const brought = {
    ...Object.fromEntries(Object.entries(lists).filter(([, list]) => list.length > 0)),
    ...(unrecorded ? { 'pain-relief': 'given' as const } : {}),
  };
  return Object.keys(brought).length === 0 ? [] : [{ date: on, by, kind: 'report', ...brought }];
}

/** The last event of each place, where it leaves something on, as what was on already. */
function stillOn(visits: readonly Visit[], key: 'blocks' | 'wraps'): (BlockEvent | WrapEvent)[] {
  const on = new Map<string, BlockEvent | WrapEvent>();
  for (const visit of visits)
    for (const fixture of (visit[key] ?? []) as (WrapEvent & Partial<BlockEvent>)[]) {
      const { event, note: _, ...rest } = fixture;
      const place = `${fixture.foot} ${fixture.claw ?? ''}`;
      if (event === 'lost' || event === 'removed') on.delete(place);
      else if (event === 'fitted' || event === 'replaced' || !on.has(place))
        on.set(place, { ...rest, event: 'already on', on: rest.on ?? visit.date });
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
  const { animal: old, earlier = [] } = kept.record;
  const slug = slugFrom(number);
  if (slug === '' || number === old) return cannot('keep.no-new-number', { number, old });
  const steps: Step[] = [
    { put: 'entry', path: ['earlier'], index: earlier.length, value: { animal: old, until } },
    { put: 'value', path: ['animal'], value: number },
  ];
  const change = changeOfFile({ kept, steps }, keeping);
  if ('outcome' in change) return change;
  const what = terminal('keep.what.number', { number, old });
  const [path, file] = [kept.path, kept.file].map((name) => name.replace(/[^/]+$/, `${slug}.md`));
  if (path === kept.path) return workedOut({ what, farms: [farm], files: [change] }, keeping);
  if (keeping.files.look(path!)) return cannot('keep.number-there', { file: file! });
  const files = [
    { file: file!, path: path!, before: undefined, after: change.after },
    { ...change, after: undefined },
  ];
  return workedOut({ what, farms: [farm], files }, keeping);
}
