import type { AskedVisit } from '../../form/asking/ask-visit.js';
import type { Asked } from '../../form/asking/by-questions.js';
import { type Declares, addVisit } from '../../keep/add-visit.js';
import type { Keeping, Worked } from '../../keep/change.js';
import { openAnimal } from '../../keep/kept-file.js';
import { type CaseDraft, openCase } from '../../keep/open-case.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import { withHerAlone } from '../../keep/work-out.js';
import { terminal } from '../../problem/message.js';
import { given } from '../../record/given.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, WrongUse } from '../../run/exit-code.js';
import { namedCase } from '../../run/find-case.js';
import { farmAndAnimal, keepingOf, writeChange } from '../../run/write-change.js';
import { animalNamed, whoAndWhat, whoWasThere } from './animal-named.js';
import { draftFromFlags, draftTyped, typedAnswers, withDays } from './draft-typed.js';
import { animalKeys, declaredKeys, type Typed, visitKeys } from './key-flags.js';

/** Opens a case: identity, lesions, and the first visit where anything is said of one. */
export async function start(named: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const { farm, animal } = farmAndAnimal(named);
  const keeping = keepingOf(options, effects);
  const said = [...typedAnswers(options, visitKeys).keys()];
  // `2086-2` is the second animal that bore the number 2086.
  const [, first = animal] = /^(\d+)-\d{1,2}$/.exec(animal) ?? [];
  const draftWith = (own: object, visits: readonly unknown[]): CaseDraft =>
    ({ animal: first, lesions: {}, ...own, visits }) as CaseDraft;
  const firstVisit = () => {
    const draft = draftFromFlags(options, keeping);
    return { kind: 'first', ...draft, by: whoWasThere(keeping, draft) };
  };
  const isSaid =
    typedAnswers(options, animalKeys).size > 0 || said.some((key) => key !== 'date' && key !== 'by');
  if (!effects.dialogue || isSaid) {
    const own = draftTyped(options, animalKeys, keeping);
    const draft = draftWith(own, said.length === 0 ? [] : [firstVisit()]);
    return await writeChange(options, effects, [farm], (now) => openCase(now, farm, animal, draft));
  }
  // Who is there has to be known before the questions begin, and that she has no case.
  const always = firstVisit();
  const near = withHerAlone(keeping, farm, animal);
  const none = openCase(near, farm, animal, draftWith({}, []));
  if (none.outcome === 'cannot') throw new WrongUse(none.message);
  const asDraft = ({ own, visit }: Asked): CaseDraft =>
    draftWith(own, Object.keys(visit).length === 0 ? [] : [withDays({ ...always, ...visit })]);
  const { caseByQuestions, withPicturesAsked, wouldBeOf, writeAnswered } =
    await import('../../form/asking/by-questions.js');
  const asked = await caseByQuestions(
    effects.dialogue,
    keeping,
    { farm, date: always.date },
    ({ own, visit }) => {
      // Where pictures lie was looked at when they were named.
      const { photos: _, ...rest } = visit;
      return wouldBeOf(asDraft({ own, visit }), openCase(near, farm, animal, asDraft({ own, visit: rest })));
    },
  );
  const draft = asDraft(asked);
  const open = (now: Keeping): Worked => {
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

/** Adds a visit from flags or, where they say nothing but when, by whom and what kind of visit it is, from questions. */
export async function recordVisit(named: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  const keeping = keepingOf(options, effects);
  const unsaid = ['date', 'at', 'by', 'kind'];
  const isSaid = [...typedAnswers(options, visitKeys).keys()].some((key) => !unsaid.includes(key));
  if (!isSaid && !effects.dialogue) throw new WrongUse(terminal('visit.nothing-said'));
  const said = draftFromFlags(options, keeping);
  const always = { ...whoAndWhat(keeping, farm, animal, said), ...said };
  if (isSaid || !effects.dialogue) {
    const declares: Declares = draftTyped(options, declaredKeys, keeping);
    return await writeChange(options, effects, [farm], (now) =>
      addVisit(now, farm, animal, always, declares),
    );
  }
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome === 'cannot') throw new WrongUse(opened.message);
  const slug = opened.outcome === 'open' ? namedCase(opened.kept.path).animal : animal;
  const { visitByQuestions, withPicturesAsked, wouldBeOf, writeAnswered } =
    await import('../../form/asking/by-questions.js');
  const whole = ({ lesions, marks, ...answered }: AskedVisit): [VisitDraft, Declares] => [
    withDays({ ...always, ...answered }) as VisitDraft,
    given({ lesions, marks }) as Declares,
  ];
  const near = withHerAlone(keeping, farm, slug);
  const asked = await visitByQuestions(
    effects.dialogue,
    keeping,
    { farm, slug, date: said.date },
    (answered) => {
      const [visit, declares] = whole(answered);
      // Where pictures lie was looked at when they were named.
      const { photos: _, ...rest } = visit;
      return wouldBeOf({ ...declares, visits: [visit] }, addVisit(near, farm, slug, rest, declares));
    },
  );
  const [visit, declares] = whole(asked);
  // Who was asked question by question was asked about every slip.
  return await writeAnswered({ ...declares, visits: [visit] }, effects, () =>
    writeChange({ ...options, evenSo: true }, effects, [farm], (now) =>
      withPicturesAsked(now, { farm, slug, visit }, (then, all) =>
        addVisit(then, farm, animal, all, declares),
      ),
    ),
  );
}
