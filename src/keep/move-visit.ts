import { readFarm } from '../casefile/read-farm.js';
import { contentDifferences } from '../ledger/ledger-entry.js';
import { firstSealed } from '../ledger/record-seal.js';
import type { RecordPath } from '../problem/problem.js';
import { terminal } from '../problem/message.js';
import type { Animal, animal as animalSchema } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { freeNames, type Lesion, type Mark } from '../record/lesion.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { Amendment } from '../record/measures.js';
import { stepsInRecord, type Step } from '../record/record-step.js';
import type { Photo, Visit } from '../record/visit.js';
import { freeName, type PicturesOf } from './add-picture.js';
import { isInOrder, namedSteps, placeByDate } from './add-visit.js';
import { type FileChange, fileChange, type Keeping, type Worked, cannot } from './change.js';
import { amending, sealedOr, takenOut } from './correct-value.js';
import { bytesOf, findFarm, type KeptFile, laidOver, openAnimal, openFarm, slugOf } from './kept-file.js';
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
  const others = visits.toSpliced(index, 1);
  const day = to.date ?? visit.date;
  const from = { folder: found.farm.entry, slug: slugOf(kept), date: visit.date };
  const { photos, files } = movedPhotos(keeping, from, { ...from, date: day }, visit, others);
  const moved = { ...onDay(visit, day), ...to, ...(visit.photos ? { photos } : {}) };
  const owns = (at: number): Step[] => (amendment ? [amending(kept.record, ['visits', at], amendment)] : []);
  const asked = moved.vet?.asked;
  const answers = asked === visit.vet?.asked ? [] : answersTo(visits, index);
  const steps = answers.flatMap((at): Step[] => [
    { put: 'value', path: ['visits', at, 'vet-answer', 'to'], value: asked },
    ...owns(at),
  ]);
  const [before, behind] = [visits[index - 1], visits[index + 1]];
  if ((!before || isInOrder(before, moved)) && (!behind || isInOrder(moved, behind))) {
    for (const { path: inner, before: was, now } of contentDifferences(visit, moved)) {
      const path = ['visits', index, ...inner];
      const key = { put: 'key', path: path.slice(0, -1), key: String(path.at(-1)), value: now } as const;
      steps.push(was === undefined ? key : { put: 'value', path, value: now });
    }
    for (const step of owns(index)) steps.push(step);
  } else {
    const value = { ...moved, ...(amendment ? { amended: [...(moved.amended ?? []), amendment] } : {}) };
    const place = placeByDate(others, moved);
    steps.push(
      { put: 'nothing', path: ['visits', index] },
      { put: 'entry', path: ['visits'], index: place, value },
    );
  }
  const change = changeOfFile({ kept, steps }, laidOver(keeping, files));
  if ('outcome' in change) return change;
  const what = terminal('keep.what.visit-to-day', { day: visit.date, to: day });
  const worked = workedOut({ what, farms: [farm], files: [...files, change] }, keeping);
  return sealedOr(worked, terminal('keep.what.visit', { day: visit.date }), amendment);
}

/** The visit with another day wherever it bears its own. */
function onDay(visit: Visit, day: CalendarDay): Visit {
  const its = ([key, value]: [string, unknown]): [string, unknown] => [
    key,
    ['on', 'until', 'asked'].includes(key) && value === visit.date ? day : value,
  ];
  const inside = (one: object): object => Object.fromEntries(Object.entries(one).map(its));
  const moved = (['blocks', 'wraps', 'products', 'farm-did', 'vet'] as const).flatMap((key) => {
    const value: object | object[] | undefined = visit[key];
    if (value === undefined) return [];
    return [[key, Array.isArray(value) ? value.map(inside) : inside(value)]];
  });
  return { ...visit, date: day, ...Object.fromEntries(moved) };
}

/** The visits with an answer to what the vet was asked at this one, and at no other. */
function answersTo(visits: readonly Visit[], index: number): number[] {
  const asked = visits[index]?.vet?.asked;
  if (asked === undefined || visits.some((one, at) => at !== index && one.vet?.asked === asked)) return [];
  return visits.flatMap((one, at) => (at !== index && one['vet-answer']?.to === asked ? [at] : []));
}

/**
 * The pictures of a visit as they are called where it goes, and what becomes of their files: names the program gave
 * bear the animal and the day, and so are given anew. A file another visit of hers shows too is copied.
 */
function movedPhotos(
  keeping: Keeping,
  from: PicturesOf,
  to: PicturesOf,
  { photos = [] }: Visit,
  others: readonly Visit[],
): { readonly photos: readonly Photo[]; readonly files: readonly FileChange[] } {
  const shown = new Set(others.flatMap((one) => one.photos ?? []).map(({ file }) => file));
  const beginning = ({ slug, date }: PicturesOf): string => `photos/${slug}-${date}`;
  const files: FileChange[] = [];
  const moved = photos.map((photo): Photo => {
    const old = photo.file.replaceAll('\\', '/');
    const own = beginning(from);
    const wanted = old.startsWith(own) ? beginning(to) + old.slice(own.length) : old;
    const bytes = bytesOf(keeping.files, `${from.folder.path}/${old}`);
    const isThere = from.folder.path === to.folder.path && wanted === old;
    const [, stem, ending] = /^photos\/(.*)\.([^.]+)$/.exec(wanted) ?? [];
    if (isThere || !bytes || stem === undefined || ending === undefined) return photo;
    const file = freeName(laidOver(keeping, files), to.folder.path, stem, ending);
    files.push(fileChange(to.folder, file, undefined, bytes));
    if (!shown.has(photo.file)) files.push(fileChange(from.folder, old, bytes, undefined));
    return { ...photo, file };
  });
  return { photos: moved, files };
}

/**
 * A visit put into another animal's file, of this farm or another: it was written down for the wrong one.
 *
 * With it go its pictures, answers of the vet to what was asked there, and what was declared for it alone. A lesion it
 * describes is there the one at the same place, else it is declared there. Where she was the seals are withdrawn with who
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
  const { date } = visits[index]!;
  const more = going.find((visit) => visit !== visits[index] && isLiftingVisit(visit));
  if (more) return cannot('keep.move-visit.answered', { day: date, answered: more.date });
  const isSameFarm = to.farm === farm;
  const scale = isSameFarm ? undefined : otherScale(keeping, farm, to.farm, going);
  if (scale) return cannot('keep.move-visit.scale', { day: date, key: scale, farm: to.farm });
  const names = namesThere(kept.record, other.record, going, staying);
  const animal = `${to.farm}/${slugOf(other)}`;
  if ('lost' in names) {
    const said = { day: date, name: names.lost, file: kept.file, other: other.file, animal };
    return cannot('keep.move-visit.lesion', said);
  }
  const seals = readFarm(keeping.files, here.farm, keeping.today).seals().animals.get(slugOf(kept));
  const owned =
    amendment && (isSameFarm ? amendment : { ...amendment, why: terminal('keep.move-visit.elsewhere') });
  const files: FileChange[] = [];
  const steps: Step[] = [
    ...namedSteps(other.record, 'lesions', names.declare.lesions),
    ...namedSteps(other.record, 'marks', names.declare.marks),
  ];
  for (const [i, visit] of going.entries()) {
    const from = { folder: here.farm.entry, slug: slugOf(kept), date: visit.date };
    const into = { folder: there.farm.entry, slug: slugOf(other), date: visit.date };
    const pictures = movedPhotos(laidOver(keeping, files), from, into, visit, staying);
    for (const file of pictures.files) files.push(file);
    const seal = seals?.visits[at[i]!];
    const owns = owned && !(seal && firstSealed(seal) === day);
    const value = {
      ...renamed(visit, (name) => names.to.get(name) ?? name),
      ...(visit.photos ? { photos: [...pictures.photos] } : {}),
      ...(owns ? { amended: [...(visit.amended ?? []), owned] } : {}),
    };
    const place = placeByDate(stepsInRecord(other.record, steps).visits, visit);
    steps.push({ put: 'entry', path: ['visits'], index: place, value });
  }
  const now = laidOver(keeping, files);
  const left = leaving(kept.record, [...names.gone, ...at.toReversed().map((one) => ['visits', one])]);
  for (const one of [changeOfFile({ kept: other, steps }, now), changeOfFile({ kept, steps: left }, now)])
    if ('outcome' in one) return one;
    else files.push(one);
  const what = terminal('keep.what.visit-to-animal', { day: date });
  const withdraws = amendment && { by: amendment.by, why: amendment.why };
  const farms = [...new Set([farm, to.farm])];
  const worked = workedOut({ what, farms, files, ...(withdraws ? { withdraws } : {}) }, keeping);
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

/** `lost`: a lesion other visits of hers describe too, and nothing there is at its place. */
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

/** Names of lesions and marks a visit describes, and words that may be names. */
function toldIn(visit: Visit): string[] {
  const names: string[] = [];
  renamed(visit, (name) => {
    names.push(name);
    return name;
  });
  return names;
}

function renamed(visit: Visit, to: (name: string) => string): Visit {
  const { found, 'cut-back': cut, products, vet, 'vet-answer': answer } = visit;
  const about = <T extends { readonly about?: string[] | undefined }>(one: T): T =>
    one.about ? { ...one, about: one.about.map(to) } : one;
  const findings = Object.entries(found ?? {})
    .map(([name, one]) => [to(name), one] as const)
    .map(([name, one]) => [name, one.joined ? { ...one, joined: to(one.joined) } : one] as const);
  const uses = products?.map((use) => (use.lesion ? { ...use, lesion: to(use.lesion) } : use));
  return {
    ...visit,
    ...given({ found: found && Object.fromEntries(findings), 'cut-back': cut?.map(to), products: uses }),
    ...given({ vet: vet && about(vet), 'vet-answer': answer && about(answer) }),
  };
}
