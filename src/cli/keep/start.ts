import type { Worked } from '../../keep/change.js';
import { type CaseDraft, openCase } from '../../keep/open-case.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import type { Dialogue } from '../../run/dialogue.js';
import type { Effects } from '../../run/effects.js';
import type { ExitCode } from '../../run/exit-code.js';
import { type Typed, animalKeys, visitKeys, draftOf, typedAnswers } from './key-flags.js';
import { farmAndAnimal, keepingOf, writeChange } from '../../run/write-change.js';
import { draftFromFlags, withDays } from './visit.js';
import { pictureTrouble, withPicturesAsked, writeAnswered } from '../../form/asking/write-answered.js';
import { whoWasThere } from './animal-named.js';

/** Opens a case: identity, lesions, and the first visit where anything is said of one. */
export async function start(named: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const { farm, animal } = farmAndAnimal(named);
  const keeping = keepingOf(options, effects);
  const typed = typedAnswers(options, animalKeys);
  const said = [...typedAnswers(options, visitKeys).keys()];
  const asked =
    effects.dialogue && typed.size === 0 && said.every((key) => key === 'date' || key === 'by')
      ? await askedCase(effects.dialogue, options, keeping, farm)
      : undefined;
  const own = asked?.own ?? draftOf(typed, animalKeys, { from: keeping.today });
  const visits = asked?.visits ?? (said.length === 0 ? [] : [firstVisit(options, keeping)]);
  // `2086-2` is the second animal that bore the number 2086.
  const [, first = animal] = /^(\d+)-\d{1,2}$/.exec(animal) ?? [];
  const draft = { animal: first, lesions: {}, ...own, visits } as CaseDraft;
  const open = (now: typeof keeping): Worked => {
    const [visit] = visits as VisitDraft[];
    if (!visit) return openCase(now, farm, animal, draft);
    return withPicturesAsked(now, { farm, slug: animal, visit }, (then, whole) =>
      openCase(then, farm, animal, { ...draft, visits: [whole] }),
    );
  };
  // Who was asked question by question was asked about every slip.
  const write = (): Promise<ExitCode> =>
    writeChange(asked ? { ...options, evenSo: true } : options, effects, [farm], open);
  return asked ? await writeAnswered(draft, effects, write) : await write();
}

/** By questions; who is there has to be known before they begin. */
async function askedCase(
  dialogue: Dialogue,
  options: Typed,
  keeping: ReturnType<typeof keepingOf>,
  farm: string,
): Promise<{ own: Readonly<Record<string, unknown>>; visits: unknown[] }> {
  const always = firstVisit(options, keeping);
  const { caseByQuestions } = await import('../../form/asking/case-by-questions.js');
  const days = { date: always.date, today: keeping.today };
  const { own, visit } = await caseByQuestions(dialogue, days, (file) =>
    pictureTrouble(keeping.files, `${keeping.cases}/${farm}`, file),
  );
  const visits = Object.keys(visit).length === 0 ? [] : [withDays({ ...always, ...visit })];
  return { own, visits };
}

function firstVisit(
  options: Typed,
  keeping: ReturnType<typeof keepingOf>,
): Record<string, unknown> & { readonly date: string } {
  const draft = draftFromFlags(options, keeping.today);
  return { kind: 'first', ...draft, by: whoWasThere(keeping, draft) };
}
