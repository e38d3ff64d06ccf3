import { animalMeant, animalNear, type CalledAnimal } from '../casefile/animal-meant.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { terminal } from '../problem/message.js';
import type { Problem } from '../problem/problem.js';
import { WrongUse, exitCode, type ExitCode, type CommonOptions } from './exit-code.js';
import { given } from '../record/given.js';
import type { Effects } from './effects.js';
import { type FarmRun, farmRun } from './farm-run.js';
import { readCases } from './read-cases.js';

/** What the user named: a farm where one was said, and an animal in any of her names. */
interface NamedCase {
  readonly farm?: string;
  readonly animal: string;
}

/**
 * A farm and an animal out of `FARM/ANIMAL`, with `/` or `\`; a path to her file, as a shell completes it, says the same.
 * @example namedCase('quernholt/2086') // → { farm: 'quernholt', animal: '2086' }
 * @example namedCase('cases\\quernholt\\2086.md') // → { farm: 'quernholt', animal: '2086' }
 * @example namedCase('2086') // → { animal: '2086' }
 */
export function namedCase(written: string): NamedCase {
  const parts = written
    .trim()
    .split(/[\\/]+/)
    .filter((part) => part !== '' && part !== '.');
  const animal = (parts.at(-1) ?? '').replace(/\.md$/i, '');
  const farm = parts.at(-2);
  return { animal, ...given({ farm }) };
}

interface FoundCase {
  readonly farm: FarmRecord;
  readonly record: CaseRecord;
  /** Other files that bear the number asked for. */
  readonly others: readonly string[];
}

/**
 * The case of an animal by any of her names.
 *
 * Error:   WrongUse where none is meant, with the nearest name, or where several are
 * Checked: tests/cli/case.test.ts
 */
function findCase(farms: readonly FarmRecord[], { animal: name }: NamedCase): FoundCase {
  const all = farms.flatMap((farm) =>
    farm.cases.map((record) => ({ farm, record, slug: record.slug, animal: record.animal })),
  );
  const { meant, others } = animalMeant(all, name);
  const [found] = meant;
  if (!found) throw new WrongUse(noSuchAnimal(name, all));
  if (meant.length > 1) throw new WrongUse(terminal('animal.several', { name, animals: listed(meant) }));
  return { farm: found.farm, record: found.record, others: others.map(placeOf) };
}

interface InFarm extends CalledAnimal {
  readonly farm: FarmRecord;
}

function placeOf({ farm, slug }: InFarm): string {
  return `${farm.slug}/${slug}`;
}

function listed(some: readonly InFarm[]): string {
  return some.map((one) => `\`${placeOf(one)}\``).join(', ');
}

function noSuchAnimal(name: string, all: readonly InFarm[]): string {
  if (all.length === 0) return terminal('animal.none-read', { name });
  const found = animalNear(all, name);
  if (found === undefined)
    return terminal('animal.unknown', { name, count: all.length, animals: listed(all.slice(0, 3)) });
  const near = placeOf(found.near);
  return found.because === ''
    ? terminal('animal.near', { name, near })
    : terminal('animal.near-because', { name, near, because: found.because });
}

/** One animal's case with the run it was read in, or how the command ends without it. */
type OneCase = ({ readonly run: FarmRun } & FoundCase) | { readonly ended: ExitCode };

/**
 * Reads all case files and finds the one animal named; errors, and warnings of her own file, are listed. Her farm must
 * read without an error.
 *
 * Error:   WrongUse where none is meant or several are, or where two farms are named
 */
export function readOneCase(
  named: string,
  options: CommonOptions & { readonly out: string },
  effects: Effects,
): OneCase {
  const asked = namedCase(named);
  const slug = asked.farm ?? options.farm;
  if (asked.farm !== undefined && options.farm !== undefined && asked.farm !== options.farm)
    throw new WrongUse(terminal('animal.other-farm', { named, farm: options.farm }));
  const ofHers = { ...options, ...given({ farm: slug }) };
  const reading = readCases(ofHers, effects);
  const none = reading.farms.length === 0;
  const lists = ({ severity, file }: Problem): boolean =>
    severity === 'error' || (severity === 'warning' && file.endsWith(`/${asked.animal}.md`));
  const run = farmRun(ofHers, effects, { lists, ...(none ? { refused: 'page.refused' } : {}) }, reading);
  run.tell();
  if (none && run.code() !== exitCode.well) return { ended: run.code() };
  const found = findCase(run.farms, asked);
  const place = { farm: found.farm.slug, animal: found.record.slug };
  if (found.others.length > 0)
    run.warn(terminal('animal.others', { ...place, others: found.others.join(', ') }));
  return { run, ...found };
}
