import {
  type BusinessDraft,
  type FootbathDraft,
  type GaitRoundDraft,
  addFootbath,
  addGaitRound,
  startBusiness,
  startFarm,
} from '../../keep/farm-entries.js';
import { terminal } from '../../problem/message.js';
import { given } from '../../record/given.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, WrongUse } from '../../run/exit-code.js';
import { type KeepingOptions, keepingOf, writeChange } from '../../run/write-change.js';
import { trimmerOf } from './animal-named.js';
import { draftTyped } from './draft-typed.js';
import { type Typed, businessKeys, farmKeys, footbathKeys, roundKeys } from './key-flags.js';

/** Starts a farm; the cases folder is made where there is none. */
export async function setFarm(slug: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const capital = (part: string): string => part.charAt(0).toUpperCase() + part.slice(1);
  const farm = slug.split('-').map(capital).join(' ');
  const typed = draftTyped(options, farmKeys, keepingOf(options, effects));
  makeCasesFolder(options, effects);
  return await writeChange(options, effects, [], (now) => startFarm(now, slug, { farm, ...typed }));
}

/** Starts `business.md`; the cases folder is made where there is none. */
export async function setBusiness(options: Typed, effects: Effects): Promise<ExitCode> {
  const draft: BusinessDraft = draftTyped(options, businessKeys, keepingOf(options, effects));
  if (Object.keys(draft).length === 0) throw new WrongUse(terminal('business.nothing-said'));
  makeCasesFolder(options, effects);
  return await writeChange(options, effects, [], (now) => startBusiness(now, draft));
}

function makeCasesFolder({ cases, dryRun }: KeepingOptions, effects: Effects): void {
  if (!dryRun && effects.files.look(cases) === undefined) effects.disk.makeFolder(cases);
}

/** Adds a herd round of gait scoring. */
export async function recordGaitRound(slug: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const keeping = keepingOf(options, effects);
  const draft = draftTyped(options, roundKeys, keeping);
  if (draft['counts'] === undefined) throw new WrongUse(terminal('gait-round.no-counts'));
  const by = draft['by'] ?? trimmerOf(keeping);
  const round = { date: keeping.today, ...given({ by }), ...draft } as GaitRoundDraft;
  return await writeChange(options, effects, [slug], (now) => addGaitRound(now, slug, round));
}

/** Adds a footbath period. */
export async function footbath(slug: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const draft = draftTyped(options, footbathKeys, keepingOf(options, effects));
  if (draft['product'] === undefined) throw new WrongUse(terminal('footbath.no-product'));
  return await writeChange(options, effects, [slug], (now) => addFootbath(now, slug, draft as FootbathDraft));
}
