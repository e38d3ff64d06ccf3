import type { Keeping } from '../../keep/change.js';
import { type Declares, addVisit } from '../../keep/add-visit.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import type { Effects } from '../effects.js';
import { type ExitCode, WrongUse } from '../exit-code.js';
import { declaredKeys, visitKeys } from './flag-keys.js';
import { draftOf, typedAnswers } from './key-flags.js';
import { type KeepingOptions, farmAndAnimal, keepingOf } from './keeping-options.js';
import { whoAndWhat } from './visit-defaults.js';
import { writeChange } from './write-change.js';

type Typed = KeepingOptions & Readonly<Record<string, unknown>>;

/** Adds a visit from flags. */
export async function visit(named: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const { farm, animal } = farmAndAnimal(named);
  const keeping = keepingOf(options, effects);
  const { draft, declares } = visitFromFlags(options, keeping, farm, animal);
  return await writeChange(options, effects, [farm], (now) => addVisit(now, farm, animal, draft, declares));
}

function visitFromFlags(
  options: Typed,
  keeping: Keeping,
  farm: string,
  animal: string,
): { draft: VisitDraft; declares: Declares } {
  const typed = typedAnswers(options, visitKeys);
  const said = [...typed.keys()].filter((key) => !['date', 'by', 'kind'].includes(key));
  if (said.length === 0)
    throw new WrongUse(
      `nothing is said of the visit, expected at least one of its flags, such as --found "a: open, top 21, wall 43, tool ruler", --gait 1 or --note "…"; \`growdown visit --help\` lists them`,
    );
  const draft = draftFromFlags(options, keeping.today);
  return {
    draft: { ...whoAndWhat(keeping, farm, animal, draft), ...draft } as VisitDraft,
    declares: draftOf(typedAnswers(options, declaredKeys), declaredKeys, { from: keeping.today }) as Declares,
  };
}

/** What the flags say and no more, but for the day; `vet` and other groups that need a day take the visit's. */
export function draftFromFlags(options: Typed, today: string): Record<string, unknown> {
  const typed = typedAnswers(options, visitKeys);
  const given = draftOf(new Map([...typed].filter(([key]) => key === 'date')), visitKeys, { from: today });
  const date = String(given['date'] ?? today);
  const draft = { ...draftOf(typed, visitKeys, { from: date }), date };
  const { vet } = draft as { vet?: Record<string, unknown> };
  return vet === undefined ? draft : { ...draft, vet: { asked: date, ...vet } };
}
