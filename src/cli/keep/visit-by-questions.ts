import { chooseFarm } from '../../casefile/choose-farm.js';
import { readPractice } from '../../casefile/read-practice.js';
import { priorsFor } from '../../growth/learning/priors-for.js';
import type { Keeping } from '../../keep/change.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import type { Animal } from '../../record/animal.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { workOutCase } from '../../schedule/work-out-case.js';
import { dueInWords } from '../../words/compose-due.js';
import { nextReadingSentence } from '../../words/compose-regrowth.js';
import { nameOf } from '../../words/compose-standing.js';
import { dayInWords } from '../../words/day-in-words.js';
import { type Words, wordsOf } from '../../words/words.js';
import type { Dialogue } from '../dialogue.js';
import { WrongUse } from '../exit-code.js';
import { askVisit } from './ask-visit.js';

/**
 * A visit asked for at the terminal: the last visit and what is due are shown, then the questions that fit the case.
 *
 * Error: a farm whose files have an error has nothing worked out, and is sent to `growdown check`
 */
export async function visitByQuestions(
  dialogue: Dialogue,
  { files, cases, today }: Keeping,
  { farm, slug, date }: { readonly farm: string; readonly slug: string; readonly date: string },
): Promise<Partial<VisitDraft>> {
  const { practice, farms } = chooseFarm(readPractice(files, cases, { today }), farm);
  const [own] = farms;
  const record = own?.cases.find((one) => one.slug === slug);
  if (!own || !record)
    throw new WrongUse(
      `the files of ${farm} have an error, expected none before questions are asked; \`growdown check --farm ${farm}\` tells it`,
    );
  const prior = priorsFor(practice, today).priorOf(farm, slug);
  const work = workOutCase(own, record, { business: practice.business, today, prior });
  const words = wordsOf('en-GB');
  const { animal } = record;
  dialogue.show(
    [lastVisit(words, animal), due(words, animal, work)].filter((part) => part !== '').join('\n'),
  );
  const draft = await askVisit(dialogue, {
    animal,
    date,
    words,
    nameOf: (name) =>
      animal.lesions[name]
        ? `${name}, ${nameOf(words, animal, name)}`
        : words.say('question.mark-name', { name }),
    expectedOf: (name) => {
      const line = work.growth.lesions.find(({ lesion }) => lesion === name);
      return (line && nextReadingSentence(words, line, date)) || undefined;
    },
  });
  if (draft === undefined) throw new WrongUse('left before the end; nothing was written');
  if (Object.keys(draft).length === 0) throw new WrongUse('nothing was answered; nothing was written');
  return draft;
}

function lastVisit(words: Words, animal: Animal): string {
  const last = animal.visits.at(-1);
  if (!last) return words.say('question.no-visit');
  const found = Object.entries(last.found ?? {}).map(
    ([name, { state, stage, top, wall, length, width, tool, distance }]) => {
      const said = Object.entries({ top, wall, length, width, distance }).flatMap(([key, mm]) =>
        mm === undefined ? [] : [`${key} ${mm}`],
      );
      return `  ${[`${name}: ${state ?? stage ?? ''}`.trim(), ...said, ...(tool ? [tool] : [])].join(', ')}`;
    },
  );
  const head = words.say('question.last-visit', { day: dayInWords(words, last.date) });
  return [
    `${head} ${[last.by, ...(last.gait === undefined ? [] : [`gait ${last.gait}`])].join(', ')}`,
    ...found,
  ].join('\n');
}

function due(words: Words, animal: Animal, work: CaseWork): string {
  const open = work.due.filter(({ standing }) => standing !== 'done');
  if (open.length === 0) return '';
  const lines = open.map((item) =>
    words.say('question.due-line', {
      day: dayInWords(words, item.by),
      what: dueInWords(words, animal, item).what,
    }),
  );
  return [words.say('question.due'), ...lines.map((line) => `  ${line}`)].join('\n');
}
