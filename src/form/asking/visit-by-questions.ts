import { terminal } from '../../problem/message.js';
import { chooseFarm } from '../../casefile/choose-farm.js';
import { readPractice } from '../../casefile/read-practice.js';
import { dueNow, lastVisit, linesBefore } from '../known-of-animal.js';
import { pooledOn } from '../../herd/pooled-on.js';
import type { Keeping } from '../../keep/change.js';
import { workOutCase } from '../../schedule/work-out-case.js';
import { nextReadingSentence } from '../../words/compose-regrowth.js';
import { nameOf } from '../../words/compose-standing.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';
import { untold, wordsOf } from '../../reference/words.js';
import type { Dialogue } from '../../run/dialogue.js';
import { WrongUse } from '../../run/exit-code.js';
import { Interview } from './ask-question.js';
import { type AskedVisit, type AskingVisit, askVisit, lastLook } from './ask-visit.js';
import { pictureTrouble } from './write-answered.js';

/**
 * A visit asked for at the terminal: the last visit and what is due are shown, then the questions that fit the case.
 *
 * Error: a farm whose files have an error has nothing worked out, and is sent to `growdown check`
 */
export async function visitByQuestions(
  dialogue: Dialogue,
  { files, cases, today }: Keeping,
  { farm, slug, date }: { readonly farm: string; readonly slug: string; readonly date: string },
  wouldBe: AskingVisit['wouldBe'],
): Promise<AskedVisit> {
  const { practice, farms } = chooseFarm(readPractice(files, cases, { today }), farm);
  const [own] = farms;
  const record = own?.cases.find((one) => one.slug === slug);
  if (!own || !record) throw new WrongUse(terminal('asking.files-have-an-error', { farm }));
  const prior = pooledOn(practice, today).priors.priorOf(farm, slug);
  const work = workOutCase(own, record, { business: practice.business, today, prior });
  const words = wordsOf('en-GB');
  const { animal } = record;
  const show = (heading: string, lines: readonly string[]): void =>
    dialogue.show(untold([heading, ...lines.map((line) => `  ${line}`)].join('\n')));
  const due = dueNow(words, work, today);
  show(lastVisit(words, work), []);
  show(due.heading, due.lines);
  const scale = own.farm && gaitScaleOn(own.farm, date);
  const asking: AskingVisit = {
    animal,
    scale: scale && gaitScale[scale],
    date,
    today,
    others: own.cases.flatMap((one) => (one.slug === slug ? [] : one.animal)),
    words,
    nameOf: (name) =>
      animal.lesions[name]
        ? `${name}, ${nameOf(words, animal, name)}`
        : words.say('question.mark-name', { name }),
    expectedOf: (name) => {
      const line = work.growth.lesions.find(({ lesion }) => lesion === name);
      return (line && nextReadingSentence(words, line, date)) || undefined;
    },
    pictureTrouble: (file) => pictureTrouble(files, `${cases}/${farm}`, file),
    wouldBe,
  };
  const draft = await Interview.of(dialogue, today, async (interview) => {
    const asked = await askVisit(interview, asking);
    if (Object.keys(asked).length === 0) throw new WrongUse(terminal('asking.nothing-answered'));
    await lastLook(interview, asking, asked);
    return asked;
  });
  show(words.say('form.before.heading'), linesBefore(words, work, date));
  return draft;
}
