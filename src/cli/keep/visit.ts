import type { Keeping } from '../../keep/change.js';
import { type Declares, addVisit } from '../../keep/add-visit.js';
import { openAnimal } from '../../keep/kept-file.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import { withHerAlone } from '../../keep/work-out.js';
import { readAnswer } from '../../keep/answer/read-answer.js';
import { given } from '../../record/given.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, WrongUse } from '../../run/exit-code.js';
import { type Typed, declaredKeys, visitKeys, draftOf, typedAnswers } from './key-flags.js';
import { animalNamed, whoAndWhat } from './animal-named.js';
import { keepingOf, writeChange } from '../../run/write-change.js';
import { namedCase } from '../../run/find-case.js';
import { speechOn } from '../../form/asking/as-said.js';
import type { AskedVisit, AskingVisit } from '../../form/asking/ask-visit.js';
import { withPicturesAsked, wouldBeOf, writeAnswered } from '../../form/asking/write-answered.js';
import { terminal } from '../../problem/message.js';

/** Adds a visit from flags or questions. */
export async function recordVisit(named: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  const keeping = keepingOf(options, effects);
  if (!isUnsaid(options)) {
    const { draft, declares } = visitFromFlags(options, keeping, farm, animal);
    return await writeChange(options, effects, [farm], (now) => addVisit(now, farm, animal, draft, declares));
  }
  const { slug, draft, declares } = await visitFromQuestions(options, keeping, { farm, animal }, effects);
  // Who was asked question by question was asked about every slip.
  return await writeAnswered({ ...declares, visits: [draft] }, effects, () =>
    writeChange({ ...options, evenSo: true }, effects, [farm], (now) =>
      withPicturesAsked(now, { farm, slug, visit: draft }, (then, whole) =>
        addVisit(then, farm, animal, whole, declares),
      ),
    ),
  );
}

function visitFromFlags(
  options: Typed,
  keeping: Keeping,
  farm: string,
  animal: string,
): { draft: VisitDraft; declares: Declares } {
  const draft = draftFromFlags(options, keeping.today);
  return {
    draft: { ...whoAndWhat(keeping, farm, animal, draft), ...draft },
    declares: draftOf(typedAnswers(options, declaredKeys), declaredKeys, {
      from: keeping.today,
      speech: speechOn(keeping.today),
    }),
  };
}

/** Whether the flags say nothing but when, by whom and what kind of visit it is. */
function isUnsaid(options: Typed): boolean {
  const always = ['date', 'at', 'by', 'kind'];
  return [...typedAnswers(options, visitKeys).keys()].every((key) => always.includes(key));
}

async function visitFromQuestions(
  options: Typed,
  keeping: Keeping,
  { farm, animal }: { readonly farm: string; readonly animal: string },
  { dialogue }: Effects,
): Promise<{ slug: string; draft: VisitDraft; declares: Declares }> {
  if (!dialogue) throw new WrongUse(terminal('visit.nothing-said'));
  const said = draftFromFlags(options, keeping.today);
  const always = whoAndWhat(keeping, farm, animal, said);
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome === 'cannot') throw new WrongUse(opened.message);
  const slug = opened.outcome === 'open' ? namedCase(opened.kept.path).animal : animal;
  const { visitByQuestions } = await import('../../form/asking/visit-by-questions.js');
  const whole = ({ lesions, marks, ...answered }: AskedVisit): { draft: VisitDraft; declares: Declares } => ({
    draft: withDays({ ...always, ...said, ...answered }) as VisitDraft,
    declares: given({ lesions, marks }) as Declares,
  });
  const near = withHerAlone(keeping, farm, slug);
  const wouldBe = (answered: AskedVisit): ReturnType<AskingVisit['wouldBe']> => {
    const { draft, declares } = whole(answered);
    // Where pictures lie was looked at when they were named.
    const { photos: _, ...rest } = draft;
    return wouldBeOf({ ...declares, visits: [draft] }, addVisit(near, farm, slug, rest, declares));
  };
  const { date } = said;
  return { slug, ...whole(await visitByQuestions(dialogue, keeping, { farm, slug, date }, wouldBe)) };
}

/** What the flags say and no more, but for the day; `vet` and other groups that need a day take the visit's. */
export function draftFromFlags(
  options: Typed,
  today: string,
): Record<string, unknown> & { readonly date: string } {
  const typed = typedAnswers(options, visitKeys);
  const [written = today] = typed.get('date') ?? [];
  const speech = speechOn(today);
  // A span counts from the visit; of a day that does not exist `draftOf` tells, with all else that is wrong.
  const read = readAnswer({ kind: 'day' }, written, { from: today, speech });
  const from = read.outcome === 'value' ? String(read.value) : today;
  const known = read.outcome === 'value' ? new Map([...typed, ['date', [from]]]) : typed;
  const draft: Record<string, unknown> & { date: string } = {
    date: today,
    ...draftOf(known, visitKeys, { from, speech }),
  };
  return withDays(draft);
}

/** A vet is asked on the day of the visit unless another is said. */
export function withDays<T extends Record<string, unknown> & { readonly date: string }>(draft: T): T {
  const { vet, date } = draft as T & { vet?: Record<string, unknown> };
  return vet === undefined ? draft : { ...draft, vet: { asked: date, ...vet } };
}
