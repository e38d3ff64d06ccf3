import { readFarm } from '../casefile/read-farm.js';
import { contentDifferences } from '../ledger/ledger-entry.js';
import { firstSealed } from '../ledger/record-seal.js';
import type { RecordPath } from '../problem/problem.js';
import { terminal } from '../problem/message.js';
import type { Animal, animal as animalSchema } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { freeNames, type Lesion, type Mark } from '../record/lesion.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { Amendment } from '../record/measures.js';
import { stepsInRecord, type Step } from '../record/record-step.js';
import type { Photo, Visit } from '../record/visit.js';
import { asIf } from '../casefile/as-if.js';
import { freeName } from './add-picture.js';
import { namedSteps, placeByDate } from './add-visit.js';
import { type FileChange, type Keeping, type Worked, cannot } from './change.js';
import { amending, sealedOr, takenOut } from './correct-value.js';
import { bytesOf, findFarm, type KeptFile, openAnimal, openFarm } from './kept-file.js';
import { changeOfFile, workedOut } from './work-out.js';

/** A visit as it lies: whose, and the how manieth. */
export interface VisitThere {
  readonly farm: string;
  readonly kept: KeptFile<typeof animalSchema>;
  readonly index: number;
}

/**
 * A visit put on another day or at another time, at its place among the others.
 *
 * What bears its day goes with it: what was given, fitted and done that day, the question to the vet and the answers to
 * it, and the names of its pictures. Days that lie before or ahead stay; where they no longer fit, the reader refuses.
 *
 * Checked: tests/cli/putting-right.test.ts
 */
export function moveToDay(
  { farm, kept, index }: VisitThere,
  to: Partial<Pick<Visit, 'date' | 'at'>>,
  amendment: Amendment | undefined,
  keeping: Keeping,
): Worked {
  const found = findFarm(keeping, farm);
  if (found.outcome !== 'found') return found;
  const { visits } = kept.record;
  const visit = visits[index]!;
  const day = to.date ?? visit.date;
  const home = { folder: found.farm.entry, slug: slugOf(kept), date: day };
  const { photos, files } = movedPhotos(
    keeping,
    { ...home, date: visit.date },
    home,
    visit,
    visits.toSpliced(index, 1),
  );
  const moved = { ...onDay(visit, day), ...to, ...(visit.photos ? { photos } : {}) };
  const answers = answersTo(visits, index).filter(() => moved.vet?.asked !== visit.vet?.asked);
  const steps: Step[] = answers.flatMap((at): Step[] => [
    { put: 'value', path: ['visits', at, 'vet-answer', 'to'], value: moved.vet?.asked },
    ...(amendment ? [amending(kept.record, ['visits', at], amendment)] : []),
  ]);
  const [before, behind] = [visits[index - 1], visits[index + 1]];
  const stays = (!before || isInOrder(before, moved)) && (!behind || isInOrder(moved, behind));
  if (stays) {
    for (const { path, before: was, now } of contentDifferences(visit, moved))
      steps.push(
        was === undefined
          ? keyStep(['visits', index, ...path], now)
          : { put: 'value', path: ['visits', index, ...path], value: now },
      );
    if (amendment) steps.push(amending(kept.record, ['visits', index], amendment));
  } else {
    const value = { ...moved, ...(amendment ? { amended: [...(moved.amended ?? []), amendment] } : {}) };
    const place = placeByDate(visits.toSpliced(index, 1), moved);
    steps.push(
      { put: 'nothing', path: ['visits', index] },
      { put: 'entry', path: ['visits'], index: place, value },
    );
  }
  const now = { ...keeping, files: asIf(keeping.files, files) };
  const change = changeOfFile({ kept, steps }, now);
  if ('outcome' in change) return change;
  const what = terminal('keep.what.visit-to-day', { day: visit.date, to: day });
  const worked = workedOut({ what, farms: [farm], files: [...files, change] }, keeping);
  return sealedOr(worked, terminal('keep.what.visit', { day: visit.date }), amendment);
}

const keyStep = (path: RecordPath, value: unknown): Step => ({
  put: 'key',
  path: path.slice(0, -1),
  key: String(path.at(-1)),
  value,
});

function slugOf({ path }: KeptFile): string {
  return path.slice(path.lastIndexOf('/') + 1, -'.md'.length);
}

function isInOrder(one: Pick<Visit, 'date' | 'at'>, next: Pick<Visit, 'date' | 'at'>): boolean {
  return one.date < next.date || (one.date === next.date && !(one.at && next.at && one.at > next.at));
}

/** The visit with another day wherever it bears its own. */
function onDay(visit: Visit, day: CalendarDay): Visit {
  const { blocks, wraps, products, vet, 'farm-did': did } = visit;
  const its = <T extends string | undefined>(one: T): T | CalendarDay => (one === visit.date ? day : one);
  const on = <T extends { readonly on?: string | undefined }>(
    list: readonly T[] | undefined,
  ): T[] | undefined => list?.map((one) => (one.on === undefined ? one : { ...one, on: its(one.on) }));
  const given = on(products)?.map((use) => (use.until ? { ...use, until: its(use.until) } : use));
  return {
    ...visit,
    date: day,
    ...(blocks ? { blocks: on(blocks) } : {}),
    ...(wraps ? { wraps: on(wraps) } : {}),
    ...(given ? { products: given } : {}),
    ...(did ? { 'farm-did': on(did) } : {}),
    ...(vet ? { vet: { ...vet, asked: its(vet.asked) } } : {}),
  };
}

/** The visits with an answer to what the vet was asked at this one, and at no other. */
function answersTo(visits: readonly Visit[], index: number): number[] {
  const asked = visits[index]?.vet?.asked;
  if (asked === undefined || visits.some((one, at) => at !== index && one.vet?.asked === asked)) return [];
  return visits.flatMap((one, at) => (at !== index && one['vet-answer']?.to === asked ? [at] : []));
}

/** Where pictures are: a farm's folder, and what the program begins their names with. */
interface PictureHome {
  readonly folder: { readonly path: string; readonly shown: string };
  readonly slug: string;
  readonly date: CalendarDay;
}

/**
 * The pictures of a visit as they are called where it goes, and what becomes of their files: names the program gave
 * bear the animal and the day, and so are given anew. A file another visit of hers shows too is copied.
 */
function movedPhotos(
  keeping: Keeping,
  from: PictureHome,
  to: PictureHome,
  { photos = [] }: Visit,
  others: readonly Visit[],
): { readonly photos: readonly Photo[]; readonly files: readonly FileChange[] } {
  const shown = new Set(others.flatMap((one) => one.photos ?? []).map(({ file }) => file));
  const files: FileChange[] = [];
  const moved = photos.map((photo): Photo => {
    const old = photo.file.replaceAll('\\', '/');
    const [own, its] = [from, to].map(({ slug, date }) => `photos/${slug}-${date}`) as [string, string];
    const wanted = old.startsWith(own) ? its + old.slice(own.length) : old;
    const bytes = bytesOf(keeping.files, `${from.folder.path}/${old}`);
    const isThere = from.folder.path === to.folder.path && wanted === old;
    const [, stem, ending] = /^photos\/(.*)\.([^.]+)$/.exec(wanted) ?? [];
    if (isThere || !bytes || stem === undefined || ending === undefined) return photo;
    const now = { ...keeping, files: asIf(keeping.files, files) };
    const file = freeName(now, to.folder.path, stem, ending);
    files.push(fileChange(to.folder, file, undefined, bytes));
    if (!shown.has(photo.file)) files.push(fileChange(from.folder, old, bytes, undefined));
    return { ...photo, file };
  });
  return { photos: moved, files };
}

function fileChange(
  { path, shown }: PictureHome['folder'],
  file: string,
  before: Uint8Array | undefined,
  after: Uint8Array | undefined,
): FileChange {
  return { file: `${shown}/${file}`, path: `${path}/${file}`, before, after };
}

/**
 * A visit put into another animal's file, of this farm or another: it was written down for the wrong one.
 *
 * With it go its pictures, answers of the vet to what was asked there, and what was declared for it alone. A lesion it
 * tells of is there the one at the same place, else it is declared there. Where she was the seals are withdrawn with who
 * and why, where she is now all is sealed anew; the same day it was sealed that is all, on a later one the visit owns it
 * under `amended`, to another farm without the words said, which may name this one.
 *
 * Shape:   `day` is the machine's, as the seals bear it
 * Error:   `cannot` where a lesion has no place there, or a score another meaning
 * Checked: tests/cli/putting-right.test.ts
 */
export function moveToAnimal(
  { farm, kept, index }: VisitThere,
  to: { readonly farm: string; readonly animal: string },
  { amendment, day }: { readonly amendment: Amendment | undefined; readonly day: CalendarDay },
  keeping: Keeping,
): Worked {
  const [here, there] = [findFarm(keeping, farm), findFarm(keeping, to.farm)];
  if (here.outcome !== 'found') return here;
  if (there.outcome !== 'found') return there;
  const opened = openAnimal(keeping, to.farm, to.animal);
  if (opened.outcome !== 'open') return opened;
  const { kept: other } = opened;
  if (other.path === kept.path) return cannot('keep.move-visit.same', { file: kept.file });
  const { visits } = kept.record;
  const at = [index, ...answersTo(visits, index)].toSorted((a, b) => a - b);
  const going = at.map((one) => visits[one]!);
  const staying = visits.filter((_, one) => !at.includes(one));
  const more = going.find((visit) => visit !== visits[index] && isLiftingVisit(visit));
  const date = visits[index]!.date;
  if (more) return cannot('keep.move-visit.answered', { day: date, answered: more.date });
  const scale = to.farm === farm ? undefined : otherScale(keeping, farm, to.farm, going);
  if (scale) return cannot('keep.move-visit.scale', { day: date, key: scale, farm: to.farm });
  const names = namesThere(kept.record, other.record, going, staying);
  if ('lost' in names)
    return cannot('keep.move-visit.lesion', {
      day: date,
      name: names.lost,
      file: kept.file,
      other: other.file,
      animal: `${to.farm}/${slugOf(other)}`,
    });
  const seals = readFarm(keeping.files, here.farm, keeping.today).seals().animals.get(slugOf(kept));
  const why = to.farm === farm ? amendment?.why : terminal('keep.move-visit.elsewhere');
  const files: FileChange[] = [];
  let record: Animal = other.record;
  const steps: Step[] = [
    ...namedSteps(record, 'lesions', names.declare.lesions),
    ...namedSteps(record, 'marks', names.declare.marks),
  ];
  record = stepsInRecord(record, steps);
  for (const [i, visit] of going.entries()) {
    const now = { ...keeping, files: asIf(keeping.files, files) };
    const [from, into] = [
      { folder: here.farm.entry, slug: slugOf(kept) },
      { folder: there.farm.entry, slug: slugOf(other) },
    ];
    const pictures = movedPhotos(
      now,
      { ...from, date: visit.date },
      { ...into, date: visit.date },
      visit,
      staying,
    );
    for (const file of pictures.files) files.push(file);
    const seal = seals?.visits[at[i]!];
    const owns = amendment && !(seal && firstSealed(seal) === day);
    const value = {
      ...renamed(visit, names.to),
      ...(visit.photos ? { photos: [...pictures.photos] } : {}),
      ...(owns ? { amended: [...(visit.amended ?? []), { ...amendment, why: why! }] } : {}),
    };
    const step: Step = { put: 'entry', path: ['visits'], index: placeByDate(record.visits, visit), value };
    record = stepsInRecord(record, [step]);
    steps.push(step);
  }
  const now = { ...keeping, files: asIf(keeping.files, files) };
  const left = leaving(kept.record, [...names.gone, ...at.toReversed().map((one) => ['visits', one])]);
  const changes = [changeOfFile({ kept: other, steps }, now), changeOfFile({ kept, steps: left }, now)];
  for (const one of changes)
    if ('outcome' in one) return one;
    else files.push(one);
  const worked = workedOut(
    {
      what: terminal('keep.what.visit-to-animal', { day: date }),
      farms: [...new Set([farm, to.farm])],
      files,
      ...(amendment ? { withdraws: { by: amendment.by, why: amendment.why } } : {}),
    },
    keeping,
  );
  return sealedOr(worked, terminal('keep.what.visit', { day: date }), amendment);
}

/** Taken out one after another, each of what the one before left. */
function leaving(record: Animal, paths: readonly RecordPath[]): Step[] {
  return paths.reduce<Step[]>(
    (steps, path) => [...steps, ...takenOut(stepsInRecord(record, steps), path)],
    [],
  );
}

/** A key of a score that means something else on the other farm. */
function otherScale(
  keeping: Keeping,
  from: string,
  to: string,
  visits: readonly Visit[],
): 'gait' | 'condition' | undefined {
  const [here, there] = [openFarm(keeping, from), openFarm(keeping, to)];
  if (here.outcome !== 'open' || there.outcome !== 'open') return undefined;
  const [own, other] = [here.kept.record, there.kept.record];
  return visits.flatMap(({ date, gait, condition }) => {
    if (gait !== undefined && gaitScaleOn(own, date) !== gaitScaleOn(other, date)) return 'gait' as const;
    const isOther = own['condition-scale'] !== other['condition-scale'];
    return condition !== undefined && isOther ? ('condition' as const) : [];
  })[0];
}

interface NamesThere {
  /** What each lesion and mark is called there. */
  readonly to: ReadonlyMap<string, string>;
  readonly declare: {
    readonly lesions: Readonly<Record<string, Lesion>>;
    readonly marks: Readonly<Record<string, Mark>>;
  };
  /** Declared for these visits alone: taken out. */
  readonly gone: readonly RecordPath[];
}

/** `lost`: a lesion other visits of hers tell of too, and nothing there is at its place. */
function namesThere(
  own: Animal,
  other: Animal,
  going: readonly Visit[],
  staying: readonly Visit[],
): NamesThere | { readonly lost: string } {
  const to = new Map<string, string>();
  const declare = { lesions: {} as Record<string, Lesion>, marks: {} as Record<string, Mark> };
  const gone: RecordPath[] = [];
  const rests = new Set([
    ...staying.flatMap(toldIn),
    ...Object.values(own.lesions).flatMap((one) => one['again-of'] ?? []),
  ]);
  for (const name of new Set(going.flatMap(toldIn))) {
    const group = own.marks?.[name] ? 'marks' : 'lesions';
    const declared = own[group]?.[name];
    if (!declared) continue;
    const isAlone = !rests.has(name);
    const like = Object.entries(other[group] ?? {}).filter(([, one]) => isLike(declared, one));
    const [only] = like;
    if (only && like.length === 1) to.set(name, only[0]);
    else if (isAlone) {
      const taken = [other.lesions, other.marks ?? {}, declare.lesions, declare.marks].flatMap(Object.keys);
      const free = taken.includes(name) ? freeNames(group, taken)[0]! : name;
      const { amended: _, ...said } = declared;
      Object.assign(declare[group], { [free]: said });
      to.set(name, free);
    } else return { lost: name };
    if (isAlone) gone.push([group, name]);
  }
  return { to, declare, gone };
}

/** At one place of the foot, and of one kind. */
function isLike(one: Lesion | Mark, other: Lesion | Mark): boolean {
  const keys = ['code', 'foot', 'claw', 'line'] as const;
  return keys.every((key) => (one as Partial<Lesion>)[key] === (other as Partial<Lesion>)[key]);
}

/** Names of lesions and marks a visit tells of, and words that may be names. */
function toldIn(visit: Visit): string[] {
  const { found = {}, 'cut-back': cut = [], products = [], vet, 'vet-answer': answer } = visit;
  return [
    ...Object.keys(found),
    ...Object.values(found).flatMap(({ joined }) => joined ?? []),
    ...cut,
    ...products.flatMap(({ lesion }) => lesion ?? []),
    ...(vet?.about ?? []),
    ...(answer?.about ?? []),
  ];
}

function renamed(visit: Visit, names: ReadonlyMap<string, string>): Visit {
  const to = (name: string): string => names.get(name) ?? name;
  const { found, 'cut-back': cut, products, vet, 'vet-answer': answer } = visit;
  const about = <T extends { readonly about?: string[] | undefined }>(one: T): T =>
    one.about ? { ...one, about: one.about.map(to) } : one;
  const findings = Object.entries(found ?? {}).map(
    ([name, one]) => [to(name), one.joined ? { ...one, joined: to(one.joined) } : one] as const,
  );
  return {
    ...visit,
    ...(found ? { found: Object.fromEntries(findings) } : {}),
    ...(cut ? { 'cut-back': cut.map(to) } : {}),
    ...(products
      ? { products: products.map((use) => (use.lesion ? { ...use, lesion: to(use.lesion) } : use)) }
      : {}),
    ...(vet ? { vet: about(vet) } : {}),
    ...(answer ? { 'vet-answer': about(answer) } : {}),
  };
}
