import { terminal } from '../../problem/message.js';
import { animalQuestions, lesionQuestions } from '../../keep/questions.js';
import type { Animal } from '../../record/animal.js';
import { freeNames } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import { lesionInWords } from '../../words/day-and-place.js';
import { wordsOf } from '../../reference/words.js';
import type { Dialogue } from '../../run/dialogue.js';
import { WrongUse } from '../../run/exit-code.js';
import { askAll } from './ask-question.js';
import { type AskedVisit, askVisit } from './ask-visit.js';

/** A case asked for at the terminal: the animal, her lesions one by one, and the first visit. */
export async function caseByQuestions(
  dialogue: Dialogue,
  { date, today }: { readonly date: string; readonly today: string },
  pictureTrouble: (file: string) => string | undefined,
): Promise<{
  readonly own: Readonly<Record<string, unknown>>;
  readonly visit: AskedVisit;
}> {
  const words = wordsOf('en-GB');
  const codeOf = new Map<string, LesionCode>();
  const nameOf = (name: string): string => {
    const code = codeOf.get(name);
    return code === undefined ? name : `${name}, ${lesionInWords(words, code)}`;
  };
  const asking = { date, today, others: [], words, nameOf, expectedOf: () => undefined, pictureTrouble };
  const own: Record<string, unknown> = {};
  dialogue.show(words.say('question.case'));
  ifStayed(await askAll(dialogue, animalQuestions(), asking, own));
  for (;;) {
    const [name = ''] = freeNames('lesions', [...codeOf.keys()]);
    ifStayed(await askAll(dialogue, lesionQuestions(name), asking, own));
    const code = (own['lesions'] as Animal['lesions'] | undefined)?.[name]?.code;
    if (code === undefined) break;
    codeOf.set(name, code);
  }
  const animal = { casefile: 1, animal: '', lesions: {}, ...own, visits: [] } as Animal;
  const visit = await askVisit(dialogue, { ...asking, animal });
  ifStayed(visit !== undefined);
  const { lesions, marks, ...rest } = visit ?? {};
  return {
    own: {
      ...own,
      ...(lesions ? { lesions: { ...animal.lesions, ...lesions } } : {}),
      ...(marks ? { marks } : {}),
    },
    visit: rest,
  };
}

function ifStayed(stayed: boolean): void {
  if (!stayed) throw new WrongUse(terminal('asking.left'));
}
