import { speechOn } from '../../form/asking/as-said.js';
import type { Worked } from '../../keep/change.js';
import { type CaseDraft, openCase } from '../../keep/open-case.js';
import { withHerAlone } from '../../keep/work-out.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, WrongUse } from '../../run/exit-code.js';
import { type Typed, animalKeys, visitKeys, draftOf, typedAnswers } from './key-flags.js';
import { farmAndAnimal, keepingOf, writeChange } from '../../run/write-change.js';
import { draftFromFlags, withDays } from './visit.js';
import type { Asked } from '../../form/asking/case-by-questions.js';
import {
  pictureTrouble,
  withPicturesAsked,
  wouldBeOf,
  writeAnswered,
} from '../../form/asking/write-answered.js';
import { whoWasThere } from './animal-named.js';

/** Opens a case: identity, lesions, and the first visit where anything is said of one. */
export async function start(named: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const { farm, animal } = farmAndAnimal(named);
  const keeping = keepingOf(options, effects);
  const typed = typedAnswers(options, animalKeys);
  const said = [...typedAnswers(options, visitKeys).keys()];
  // `2086-2` is the second animal that bore the number 2086.
  const [, first = animal] = /^(\d+)-\d{1,2}$/.exec(animal) ?? [];
  const draftWith = (own: object, visits: readonly unknown[]): CaseDraft =>
    ({ animal: first, lesions: {}, ...own, visits }) as CaseDraft;
  if (!effects.dialogue || typed.size > 0 || said.some((key) => key !== 'date' && key !== 'by')) {
    const own = draftOf(typed, animalKeys, { from: keeping.today, speech: speechOn(keeping.today) });
    const draft = draftWith(own, said.length === 0 ? [] : [firstVisit(options, keeping)]);
    return await writeChange(options, effects, [farm], (now) => openCase(now, farm, animal, draft));
  }
  // Who is there has to be known before the questions begin, and that she has no case.
  const always = firstVisit(options, keeping);
  const near = withHerAlone(keeping, farm, animal);
  const none = openCase(near, farm, animal, draftWith({}, []));
  if (none.outcome === 'cannot') throw new WrongUse(none.message);
  const asDraft = ({ own, visit }: Asked): CaseDraft =>
    draftWith(own, Object.keys(visit).length === 0 ? [] : [withDays({ ...always, ...visit })]);
  const { caseByQuestions } = await import('../../form/asking/case-by-questions.js');
  const asked = await caseByQuestions(
    effects.dialogue,
    {
      date: always.date,
      today: keeping.today,
      pictureTrouble: (file) => pictureTrouble(keeping.files, `${keeping.cases}/${farm}`, file),
    },
    ({ own, visit }) => {
      // Where pictures lie was looked at when they were named.
      const { photos: _, ...rest } = visit;
      return wouldBeOf(asDraft({ own, visit }), openCase(near, farm, animal, asDraft({ own, visit: rest })));
    },
  );
  const draft = asDraft(asked);
  const open = (now: typeof keeping): Worked => {
    const [visit] = draft.visits ?? [];
    if (!visit) return openCase(now, farm, animal, draft);
    return withPicturesAsked(now, { farm, slug: animal, visit }, (then, whole) =>
      openCase(then, farm, animal, { ...draft, visits: [whole] }),
    );
  };
  // Who was asked question by question was asked about every slip.
  return await writeAnswered(draft, effects, () =>
    writeChange({ ...options, evenSo: true }, effects, [farm], open),
  );
}

function firstVisit(
  options: Typed,
  keeping: ReturnType<typeof keepingOf>,
): Record<string, unknown> & { readonly date: string } {
  const draft = draftFromFlags(options, keeping.today);
  return { kind: 'first', ...draft, by: whoWasThere(keeping, draft) };
}
