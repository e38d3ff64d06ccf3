import type { z } from 'zod';
import type { CaseFiles } from '../casefile/source-text.js';
import type { FileKind } from '../casefile/explain/explain-key.js';
import { readRecordFile } from '../casefile/read-record-file.js';
import { asIf, type Laid } from '../casefile/as-if.js';
import { type Folder, type Keeping, type Not, cannot } from './change.js';
import { animalMeant, animalNear } from '../casefile/animal-meant.js';
import { findFarms, type FoundFarm, openCasesFolder } from '../casefile/find-farms.js';
import { nearestWord } from '../casefile/nearest-word.js';
import { animal as animalSchema } from '../record/animal.js';
import { business as businessSchema } from '../record/business.js';
import { farm as farmSchema } from '../record/farm.js';
import { inRow } from '../problem/message.js';

/** One case file open for a change: its bytes as they lie and its record, read from those very bytes. */
export interface KeptFile<S extends z.ZodType = z.ZodType> {
  readonly schema: S;
  readonly kind: FileKind;
  readonly file: string;
  readonly path: string;
  readonly bytes: Uint8Array;
  /** A byte order mark where the file begins with one, which is kept; else empty. */
  readonly mark: string;
  /** The text after the mark. */
  readonly text: string;
  readonly record: z.output<S>;
  readonly narrative: string;
}

export type Opened<S extends z.ZodType> = { readonly outcome: 'open'; readonly kept: KeptFile<S> } | Not;

/** Reads a case file to change it. One that does not read is not changed: its problems are reported. */
export function openKept<S extends z.ZodType>(
  files: CaseFiles,
  { path, shown }: Folder,
  schema: S,
  kind: FileKind,
): Opened<S> {
  const lying = bytesOf(files, path);
  const bytes = lying ?? new Uint8Array();
  const still = lying ? asIf(files, [{ path, after: bytes }]) : files;
  const read = readRecordFile(still, { path, shown }, schema, kind);
  if (read.outcome === 'refused') return read;
  const whole = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  const mark = whole.startsWith('\ufeff') ? '\ufeff' : '';
  const { record, narrative } = read;
  const text = whole.slice(mark.length);
  return { outcome: 'open', kept: { schema, kind, file: shown, path, bytes, mark, text, record, narrative } };
}

/** Undefined where it cannot be read; the reader then says why. */
export function bytesOf(files: CaseFiles, path: string): Uint8Array | undefined {
  try {
    return files.look(path)?.kind === 'file' ? files.read(path) : undefined;
  } catch {
    return undefined;
  }
}

/** What JSON holds; undefined where it is none. */
export function parsedJson(text: Uint8Array | string): unknown {
  try {
    return JSON.parse(typeof text === 'string' ? text : new TextDecoder().decode(text));
  } catch {
    return undefined;
  }
}

/** The cases folder and the farms in it. */
export interface FoundFolder {
  readonly outcome: 'found';
  readonly folder: string;
  readonly shown: string;
  readonly farms: readonly FoundFarm[];
}

export function findFolder({ files, cases }: Keeping): FoundFolder | Not {
  const opened = openCasesFolder(files, cases);
  if (opened.outcome === 'problem') return { outcome: 'refused', problems: [opened.problem] };
  const { root, folder, shown } = opened;
  return { outcome: 'found', folder, shown, farms: findFarms(root, folder, shown).farms };
}

export function findFarm(
  keeping: Keeping,
  slug: string,
): { readonly outcome: 'found'; readonly farm: FoundFarm; readonly folder: FoundFolder } | Not {
  const folder = findFolder(keeping);
  if (folder.outcome !== 'found') return folder;
  const farm = folder.farms.find((one) => one.slug === slug);
  if (farm) return { outcome: 'found', farm, folder };
  const slugs = folder.farms.map((one) => one.slug);
  const near = nearestWord(slug, slugs);
  const way = slugs.length === 0 ? 'none-yet' : near === undefined ? 'others' : 'near';
  return cannot(`keep.no-farm.${way}`, {
    farm: slug,
    folder: folder.shown,
    farms: quotedRow(slugs),
    near: near ?? '',
  });
}

function quotedRow(names: readonly string[]): string {
  return inRow(
    'comma',
    names.map((name) => `\`${name}\``),
  );
}

/** An animal's file by any of her names, as `animalMeant` tells them; the others of the farm are read only where it is not the file's. */
export function openAnimal(keeping: Keeping, farmSlug: string, named: string): Opened<typeof animalSchema> {
  const found = findFarm(keeping, farmSlug);
  if (found.outcome !== 'found') return found;
  const { animals } = found.farm;
  const own = animals.find(({ slug }) => slug === named);
  if (own) return openKept(keeping.files, own.entry, animalSchema, 'animal');
  const all = animals.flatMap(({ slug, entry }) => {
    const opened = openKept(keeping.files, entry, animalSchema, 'animal');
    return opened.outcome === 'open' ? [{ slug, animal: opened.kept.record, opened }] : [];
  });
  const { meant } = animalMeant(all, named);
  const [only] = meant;
  if (only && meant.length === 1) return only.opened;
  const said = { animal: named, farm: farmSlug };
  if (only) {
    const list = quotedRow(meant.map(({ slug }) => `${farmSlug}/${slug}`));
    return cannot('keep.several-animals', { ...said, animals: list });
  }
  const near = animalNear(all, named);
  const way = near === undefined ? 'unknown' : near.because === '' ? 'near' : 'near-because';
  return cannot(`keep.no-animal.${way}`, {
    ...said,
    near: near?.near.slug ?? '',
    because: near?.because ?? '',
  });
}

/** `business.md`. */
export function openBusiness(keeping: Keeping): Opened<typeof businessSchema> {
  const found = findFolder(keeping);
  if (found.outcome !== 'found') return found;
  const entry = { path: `${found.folder}/business.md`, shown: `${found.shown}/business.md` };
  return keeping.files.look(entry.path)
    ? openKept(keeping.files, entry, businessSchema, 'business')
    : cannot('keep.farm.no-business', { file: entry.shown });
}

export function openFarm(keeping: Keeping, slug: string): Opened<typeof farmSchema> {
  const found = findFarm(keeping, slug);
  if (found.outcome !== 'found') return found;
  const { farmFile, problems } = found.farm;
  return farmFile
    ? openKept(keeping.files, farmFile, farmSchema, 'farm')
    : { outcome: 'refused', problems: problems.filter(({ severity }) => severity === 'error') };
}

/** The name of her file without `.md`. */
export function slugOf({ path }: KeptFile): string {
  return path.slice(path.lastIndexOf('/') + 1, -'.md'.length);
}

/** The case files as they would be with these laid over them. */
export function laidOver(keeping: Keeping, files: readonly Laid[]): Keeping {
  return { ...keeping, files: asIf(keeping.files, files) };
}
