import { animalQuestions, lesionQuestions } from '../../keep/questions.js';
import type { Animal } from '../../record/animal.js';
import { freeNames } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import { lesionInWords } from '../../words/day-and-place.js';
import { wordsOf } from '../../reference/words.js';
import type { Dialogue } from '../../run/dialogue.js';
import { Interview } from './ask-question.js';
import { type AskedVisit, type AskingVisit, askVisit, lastLook } from './ask-visit.js';

/** A case asked for at the terminal: the animal, her lesions one by one, and the first visit. */
export async function caseByQuestions(
  dialogue: Dialogue,
  given: Pick<AskingVisit, 'date' | 'today' | 'pictureTrouble'>,
  wouldBe: (asked: Asked) => ReturnType<AskingVisit['wouldBe']>,
): Promise<Asked> {
  return await Interview.of(dialogue, given.today, async (interview) => {
    const words = wordsOf('en-GB');
    const codeOf = new Map<string, LesionCode>();
    const nameOf = (name: string): string => {
      const code = codeOf.get(name);
      return code === undefined ? name : `${name}, ${lesionInWords(words, code)}`;
    };
    const asking = { ...given, others: [], words, nameOf, expectedOf: () => undefined };
    const own: Record<string, unknown> = {};
    interview.showOnce(words.say('question.case'));
    await interview.askAll(animalQuestions(), asking, own);
    for (;;) {
      const [name = ''] = freeNames('lesions', [...codeOf.keys()]);
      await interview.askAll(lesionQuestions(name), asking, own);
      const code = (own['lesions'] as Animal['lesions'] | undefined)?.[name]?.code;
      if (code === undefined) break;
      codeOf.set(name, code);
    }
    const animal = { casefile: 1, animal: '', lesions: {}, ...own, visits: [] } as Animal;
    const whole = ({ lesions, marks, ...visit }: Record<string, unknown>): Asked => ({
      own: {
        ...own,
        ...(lesions ? { lesions: { ...animal.lesions, ...lesions } } : {}),
        ...(marks ? { marks } : {}),
      },
      visit,
    });
    const asked = { ...asking, animal, wouldBe: (draft: AskedVisit) => wouldBe(whole(draft)) };
    const draft = await askVisit(interview, asked);
    await lastLook(interview, asked, draft);
    return whole(draft);
  });
}

/** What is the animal's own, and her first visit. */
export interface Asked {
  readonly own: Readonly<Record<string, unknown>>;
  readonly visit: AskedVisit;
}
