import { type CaseDraft, openCase } from '../../keep/open-case.js';
import type { Dialogue } from '../dialogue.js';
import type { Effects } from '../effects.js';
import type { ExitCode } from '../exit-code.js';
import { animalKeys, visitKeys } from './flag-keys.js';
import { draftOf, typedAnswers } from './key-flags.js';
import { type KeepingOptions, farmAndAnimal, keepingOf } from './keeping-options.js';
import { draftFromFlags } from './visit.js';
import { whoWasThere } from './visit-defaults.js';
import { writeChange } from './write-change.js';

/** Opens a case: identity, lesions, and the first visit where anything is said of one. */
export async function start(
  named: string,
  options: KeepingOptions & Readonly<Record<string, unknown>>,
  effects: Effects,
): Promise<ExitCode> {
  const { farm, animal } = farmAndAnimal(named);
  const keeping = keepingOf(options, effects);
  const typed = typedAnswers(options, animalKeys);
  const said = [...typedAnswers(options, visitKeys).keys()];
  const asked =
    effects.dialogue && typed.size === 0 && said.every((key) => key === 'date' || key === 'by')
      ? await askedCase(effects.dialogue, options, keeping)
      : undefined;
  const own = asked?.own ?? draftOf(typed, animalKeys, { from: keeping.today });
  const visits = asked?.visits ?? (said.length === 0 ? [] : [firstVisit(options, keeping)]);
  // `2086-2` is the second animal that bore the number 2086.
  const [, first = animal] = /^(\d+)-\d{1,2}$/.exec(animal) ?? [];
  const draft = { animal: first, lesions: {}, ...own, visits } as CaseDraft;
  return await writeChange(options, effects, [farm], (now) => openCase(now, farm, animal, draft));
}

/** By questions; who is there has to be known before they begin. */
async function askedCase(
  dialogue: Dialogue,
  options: KeepingOptions & Readonly<Record<string, unknown>>,
  keeping: ReturnType<typeof keepingOf>,
): Promise<{ own: Readonly<Record<string, unknown>>; visits: unknown[] }> {
  const always = firstVisit(options, keeping);
  const { caseByQuestions } = await import('./case-by-questions.js');
  const { own, visit } = await caseByQuestions(dialogue, String(always['date']));
  const { vet } = visit as { vet?: object };
  const day = vet === undefined ? {} : { vet: { asked: always['date'], ...vet } };
  return { own, visits: Object.keys(visit).length === 0 ? [] : [{ ...always, ...visit, ...day }] };
}

function firstVisit(
  options: KeepingOptions & Readonly<Record<string, unknown>>,
  keeping: ReturnType<typeof keepingOf>,
): Record<string, unknown> {
  const draft = draftFromFlags(options, keeping.today);
  return { kind: 'first', ...draft, by: whoWasThere(keeping, draft) };
}
