import { speechOn } from '../../form/asking/as-said.js';
import {
  type BusinessDraft,
  type FarmDraft,
  type FootbathDraft,
  type GaitRoundDraft,
  addFootbath,
  addGaitRound,
  startBusiness,
  startFarm,
} from '../../keep/farm-entries.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, WrongUse } from '../../run/exit-code.js';
import {
  type Typed,
  businessKeys,
  farmKeys,
  footbathKeys,
  roundKeys,
  draftOf,
  typedAnswers,
} from './key-flags.js';
import { type KeepingOptions, keepingOf, writeChange } from '../../run/write-change.js';
import { trimmerOf } from './animal-named.js';
import { given } from '../../record/given.js';
import { terminal } from '../../problem/message.js';

/** Starts a farm; the cases folder is made where there is none. */
export async function setFarm(slug: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const { today } = keepingOf(options, effects);
  const name = slug
    .split('-')
    .map((part) => part.charAt(0).toUpperCase() + part.slice(1))
    .join(' ');
  const draft = {
    farm: name,
    ...draftOf(typedAnswers(options, farmKeys), farmKeys, { from: today, speech: speechOn(today) }),
  } as FarmDraft;
  makeCasesFolder(options, effects);
  return await writeChange(options, effects, [], (keeping) => startFarm(keeping, slug, draft));
}

/** Starts `business.md`; the cases folder is made where there is none. */
export async function setBusiness(options: Typed, effects: Effects): Promise<ExitCode> {
  const { today } = keepingOf(options, effects);
  const draft = draftOf(typedAnswers(options, businessKeys), businessKeys, {
    from: today,
    speech: speechOn(today),
  }) as BusinessDraft;
  if (Object.keys(draft).length === 0) throw new WrongUse(terminal('business.nothing-said'));
  makeCasesFolder(options, effects);
  return await writeChange(options, effects, [], (keeping) => startBusiness(keeping, draft));
}

function makeCasesFolder({ cases, dryRun }: KeepingOptions, effects: Effects): void {
  if (!dryRun && effects.files.look(cases) === undefined) effects.disk.makeFolder(cases);
}

/** Adds a herd round of gait scoring. */
export async function recordGaitRound(slug: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const keeping = keepingOf(options, effects);
  const draft = draftOf(typedAnswers(options, roundKeys), roundKeys, {
    from: keeping.today,
    speech: speechOn(keeping.today),
  });
  if (draft['counts'] === undefined) throw new WrongUse(terminal('gait-round.no-counts'));
  const by = draft['by'] ?? trimmerOf(keeping);
  const round = { date: keeping.today, ...given({ by }), ...draft } as GaitRoundDraft;
  return await writeChange(options, effects, [slug], (now) => addGaitRound(now, slug, round));
}

/** Adds a footbath period. */
export async function footbath(slug: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const { today } = keepingOf(options, effects);
  const draft = draftOf(typedAnswers(options, footbathKeys), footbathKeys, {
    from: today,
    speech: speechOn(today),
  }) as FootbathDraft;
  if ((draft as Partial<FootbathDraft>).product === undefined)
    throw new WrongUse(terminal('footbath.no-product'));
  return await writeChange(options, effects, [slug], (keeping) => addFootbath(keeping, slug, draft));
}
