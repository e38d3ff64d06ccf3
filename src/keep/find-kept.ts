import { findFarms } from '../casefile/find-farms.js';
import type { FoundFarm } from '../casefile/find-case-files.js';
import { nearestWord } from '../casefile/nearest-word.js';
import { openCasesFolder } from '../casefile/open-cases-folder.js';
import { animal as animalSchema } from '../record/animal.js';
import { farm as farmSchema } from '../record/farm.js';
import type { Keeping, Worked } from './change.js';
import { cannot } from './change.js';
import type { Opened } from './kept-file.js';
import { openKept } from './kept-file.js';

type Not = Exclude<Worked, { outcome: 'change' }>;

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
  return cannot(
    `there is no farm \`${slug}\` in ${folder.shown}${meant(slug, slugs)}; ${
      slugs.length > 0 ? `the farms are ${list(slugs)}` : 'it holds none yet'
    }. \`growdown farm ${slug}\` starts one`,
  );
}

/** An animal's file by its name, or by the number in it where that is one animal's alone. */
export function openAnimal(keeping: Keeping, farmSlug: string, named: string): Opened<typeof animalSchema> {
  const found = findFarm(keeping, farmSlug);
  if (found.outcome !== 'found') return found;
  const { farm } = found;
  const own = farm.animals.find(({ slug }) => slug === named);
  if (own) return openKept(keeping.files, own.entry, animalSchema, 'animal');
  const numbered = farm.animals
    .map(({ entry }) => openKept(keeping.files, entry, animalSchema, 'animal'))
    .filter((opened) => opened.outcome === 'open' && opened.kept.record.animal === named);
  const [only] = numbered;
  if (only && numbered.length === 1) return only;
  const slugs = farm.animals.map(({ slug }) => slug);
  return cannot(
    `there is no animal \`${named}\` on ${farmSlug}${meant(named, slugs)}, expected the name of a file there without \`.md\`; \`growdown start ${farmSlug}/${named}\` opens a case`,
  );
}

export function openFarm(keeping: Keeping, slug: string): Opened<typeof farmSchema> {
  const found = findFarm(keeping, slug);
  if (found.outcome !== 'found') return found;
  const { farmFile, problems } = found.farm;
  return farmFile
    ? openKept(keeping.files, farmFile, farmSchema, 'farm')
    : { outcome: 'refused', problems: problems.filter(({ severity }) => severity === 'error') };
}

function meant(written: string, names: readonly string[]): string {
  const near = nearestWord(written, names);
  return near === undefined ? '' : `: did you mean \`${near}\`?`;
}

function list(slugs: readonly string[]): string {
  return slugs.map((slug) => `\`${slug}\``).join(', ');
}
