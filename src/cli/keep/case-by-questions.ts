import { animalQuestions, lesionQuestions } from '../../keep/questions.js';
import type { Animal } from '../../record/animal.js';
import type { LesionCode } from '../../record/words.js';
import { lesionInWords } from '../../words/lesion-in-words.js';
import { wordsOf } from '../../words/words.js';
import type { Dialogue } from '../dialogue.js';
import { WrongUse } from '../exit-code.js';
import { askAll, askVisit } from './ask-visit.js';

/** Names for lesions, in the order they are met. */
const names = 'abcdefghijklmnop';

/** A case asked for at the terminal: the animal, her lesions one by one, and the first visit. */
export async function caseByQuestions(
  dialogue: Dialogue,
  date: string,
): Promise<{
  readonly own: Readonly<Record<string, unknown>>;
  readonly visit: Readonly<Record<string, unknown>>;
}> {
  const words = wordsOf('en-GB');
  const codeOf = new Map<string, LesionCode>();
  const nameOf = (name: string): string => {
    const code = codeOf.get(name);
    return code === undefined ? name : `${name}, ${lesionInWords(words, code)}`;
  };
  const asking = { date, words, nameOf, expectedOf: () => undefined };
  const own = stayed(await askAll(dialogue, animalQuestions(), asking, {}));
  for (const name of names) {
    stayed(await askAll(dialogue, lesionQuestions(name), asking, own));
    const code = (own['lesions'] as Animal['lesions'] | undefined)?.[name]?.code;
    if (code === undefined) break;
    codeOf.set(name, code);
  }
  const animal = { casefile: 1, animal: '', lesions: {}, ...own, visits: [] } as Animal;
  return { own, visit: stayed(await askVisit(dialogue, { ...asking, animal })) };
}

function stayed<T>(answered: T | undefined): T {
  if (answered === undefined) throw new WrongUse('left before the end; nothing was written');
  return answered;
}
