import { sealFarms, entryInWords, type SealedFarm } from '../keep/disk/seal-farm.js';
import { shortHead } from '../ledger/read-ledger.js';
import type { Effects } from '../run/effects.js';
import { type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import { namedCase } from '../run/find-case.js';
import { type KeepingOptions, keepingOf } from '../run/write-change.js';
import { trimmerOf } from './keep/animal-named.js';
import { exitFor, listProblems, readCases } from '../run/read-cases.js';
import { given } from '../record/given.js';
import { terminal } from '../problem/message.js';
import { jsonText } from '../record/signs.js';

export interface SealOptions extends KeepingOptions {
  readonly farm?: string;
  readonly takenOut?: string;
  readonly by?: string;
  readonly why?: string;
}

/** Seals what was written by hand, farm by farm, and says the head of each ledger. */
export async function seal(options: SealOptions, effects: Effects): Promise<ExitCode> {
  const keeping = keepingOf(options, effects);
  const taken = takenOutOf(options, trimmerOf(keeping));
  const farm = taken?.farm ?? options.farm;
  const asked = { cases: options.cases, today: keeping.today, cache: false, ...given({ farm }) };
  const reading = readCases(asked, effects, { pictures: 'hashed' });
  const done = await sealFarms(effects.disk, keeping, reading.farmsFound, {
    dryRun: options.dryRun === true,
    ...(taken ? { takenOut: taken.takenOut } : {}),
  });
  for (const { farm: slug, told } of done) for (const line of told) effects.warn(`${slug}: ${line}\n`);
  if (taken && done.every(({ added }) => added.every(({ kind }) => kind !== 'withdrawn')))
    throw new WrongUse(terminal('seal.none-missing', { of: options.takenOut ?? taken.farm }));
  const after = options.dryRun ? reading : readCases(asked, effects, { pictures: 'hashed' });
  const problems = after.problems.filter(({ severity }) => severity === 'error');
  listProblems(problems, after.filesRead, effects);
  for (const { farm: slug, why } of done) if (why !== undefined) effects.warn(`${slug}: ${why}\n`);
  if (options.json) effects.print(jsonText({ farms: done.map(asJson), problems }));
  else for (const one of done) effects.print(inWords(one, options.dryRun === true));
  const failed = done.some(({ why }) => why !== undefined) ? exitCode.problems : exitCode.well;
  return exitFor(problems) || failed;
}

function takenOutOf({ takenOut, by, why }: SealOptions, trimmer: string | undefined) {
  if (takenOut === undefined) return undefined;
  const who = by ?? trimmer;
  if (why === undefined || who === undefined) throw new WrongUse(terminal('seal.no-reason'));
  const named = namedCase(takenOut);
  return {
    farm: named.farm ?? named.animal,
    takenOut: { animal: named.farm === undefined ? undefined : named.animal, by: who, why },
  };
}

function inWords({ farm, added, head, leftOut, why }: SealedFarm, dryRun: boolean): string {
  const count = added.length;
  const some = count === 0 ? 'none-new' : dryRun ? 'would-be' : 'sealed';
  const way = why === undefined ? some : 'failed';
  const chain = head && (!dryRun || count === 0) && { entries: head.entries, head: shortHead(head) };
  const said = terminal(`seal.${way}${chain ? '-and-head' : ''}`, { farm, count, ...chain });
  const lines = added.map((entry) => `  ${entryInWords(entry)}\n`);
  const left = leftOut.map((file) => `  ${terminal('seal.left-out', { file })}\n`);
  return `${said}\n${lines.join('')}${left.join('')}`;
}

function asJson({ farm, added, head, leftOut, why }: SealedFarm): unknown {
  const entries = added.map(({ number, kind, animal, on, of }) => ({ number, kind, animal, on, of }));
  return { farm, sealed: entries, head: head ?? null, leftOut, ...given({ why }) };
}
