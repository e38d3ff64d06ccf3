import type { FoundFarm } from '../../casefile/find-case-files.js';
import { readFarm } from '../../casefile/read-farm.js';
import type { Head } from '../../ledger/head-of.js';
import { type BrokenSeal, brokenSeals } from '../../ledger/withdrawals.js';
import type { Change, Keeping } from '../change.js';
import { findFolder } from '../find-kept.js';
import type { Disk } from './disk.js';
import { workOutSealing, writeSealing } from './seal-farm.js';

/** What was sealed on one farm. */
export interface FarmSealed {
  readonly farm: string;
  readonly entries: number;
  readonly head: Head | undefined;
}

/**
 * Seals what a change wrote: all that is unsealed in the files it replaced, and the scales a visit rests on. Other files
 * of the farm may be half written by hand and are left to `growdown seal`.
 *
 * Error: never throws; what is written stays written, and what could not be sealed is said
 */
export function sealChange(
  disk: Disk,
  keeping: Keeping,
  change: Change,
  broken: ReadonlyMap<string, ReadonlySet<number>>,
): { readonly sealed: readonly FarmSealed[]; readonly said: readonly string[] } {
  const sealed: FarmSealed[] = [];
  const said: string[] = [];
  for (const [farm, names] of touched(keeping, change)) {
    const { undoes } = change;
    const withdraw = undoes && {
      content: { ...undoes, what: change.what },
      which: ({ sealed: { first } }: BrokenSeal) => broken.get(farm.slug)?.has(first.number) !== true,
    };
    try {
      const worked = workOutSealing(
        disk.files,
        farm,
        { today: keeping.today, day: disk.today() },
        {
          animals: new Set([...names].filter((name) => name !== 'farm')),
          farmFile: names.has('farm'),
          ...(withdraw ? { withdraw } : {}),
        },
      );
      if (worked.outcome === 'not sealed') said.push(`the entry is written and not sealed: ${worked.why}`);
      else {
        writeSealing(disk, farm, worked);
        sealed.push({ farm: farm.slug, entries: worked.added.length, head: worked.head });
      }
    } catch (error) {
      const { code = 'no reason given' } = error as NodeJS.ErrnoException;
      said.push(
        `the entry is written; it could not be sealed (${code}). Make room, look whether the folder is yours to write, then \`growdown seal\``,
      );
    }
  }
  return { sealed, said };
}

/** Before something is taken back: the records of each farm whose seal is broken already, by their first entry. */
export function brokenBefore(keeping: Keeping, change: Change): Map<string, ReadonlySet<number>> {
  const farms = [...touched(keeping, change).keys()];
  return new Map(
    farms.map((farm) => {
      const seals = readFarm(keeping.files, farm, keeping.today).seals();
      return [farm.slug, new Set(brokenSeals(seals).map(({ sealed }) => sealed.first.number))];
    }),
  );
}

/** The farms a change writes records of, with the names of the files without `.md`. */
function touched(keeping: Keeping, change: Change): Map<FoundFarm, Set<string>> {
  const found = findFolder(keeping);
  const names = new Map<FoundFarm, Set<string>>();
  for (const farm of found.outcome === 'found' ? found.farms : [])
    for (const { path } of change.files) {
      const name = path.startsWith(`${farm.entry.path}/`) ? path.slice(farm.entry.path.length + 1) : '';
      if (/^[^/]+\.md$/.test(name))
        names.set(farm, (names.get(farm) ?? new Set()).add(name.slice(0, -'.md'.length)));
    }
  return names;
}
