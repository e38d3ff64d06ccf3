import { type Correction, correctionsOf } from '../ledger/corrections-of.js';
import { daysToSeal, type RecordSeal } from '../ledger/record-seal.js';
import type { Animal } from '../record/animal.js';
import type { Visit } from '../record/visit.js';
import type { GaitScale } from '../record/words.js';
import { fixedDays } from '../reference/intervals.js';
import { aboutInWords, answerInWords } from '../words/compose-due.js';
import { dayInWords } from '../words/number-in-words.js';
import type { Words } from '../reference/words.js';
import { type VisitEntries, type VisitLog, type VisitRow, fact } from './animal-page-data.js';
import type { Fact } from './page-parts.js';
import { feetInWords, findingsInWords, briefWork, wholeWork } from './work-in-words.js';
import { correctionInWords } from './seals/corrections-table.js';

/** What the log needs of the farm: the scale in force on a day, and the money of its prices. */
export interface LogSetting {
  readonly gaitScaleOn: (day: string) => GaitScale | undefined;
  readonly conditionScale: string | undefined;
  readonly currency: string | undefined;
  /** Each visit's seal, in their order; without them nothing is said of when it was sealed. */
  readonly seals?: readonly RecordSeal[] | undefined;
}

/** Every visit with everything that was recorded at it, oldest first. */
export function composeVisitLog(words: Words, id: string, animal: Animal, setting: LogSetting): VisitLog {
  return {
    id: `${id}-visits`,
    heading: words.say('book.log.heading'),
    caption: words.say('book.log.caption', { animal: animal.animal }),
    heads: {
      found: words.say('book.log.found'),
      done: words.say('book.log.done'),
    },
    nothing: words.say('book.log.nothing'),
    visits: animal.visits.map((visit, at) => visitRow(words, animal, visit, at, setting)),
  };
}

function visitRow(words: Words, animal: Animal, visit: Visit, at: number, setting: LogSetting): VisitRow {
  const seal = setting.seals?.[at];
  const found = entries(
    [
      ...fact(words, 'book.log.gait', gait(words, visit, setting)),
      ...fact(
        words,
        'book.log.condition',
        visit.condition === undefined ? undefined : withScale(words, visit.condition, setting.conditionScale),
      ),
      ...fact(
        words,
        'book.log.weight',
        visit.weight === undefined ? undefined : words.say('book.log.kg', { value: visit.weight }),
      ),
      ...fact(
        words,
        'book.log.signs',
        words.semicolons((visit.signs ?? []).map((sign) => words.say(`vocabulary.animal-sign.${sign}`))),
      ),
      ...feetInWords(words, visit),
    ],
    [...fact(words, 'book.log.why-missed', visit.why), ...findingsInWords(words, animal, at)],
  );
  const done = entries(
    [
      ...briefWork(words, animal, visit),
      ...fact(words, 'book.log.recheck', visit.recheck && dayInWords(words, visit.recheck)),
    ],
    [
      ...wholeWork(words, animal, visit, setting.currency),
      ...askedAndAnswered(words, visit),
      ...fact(words, 'book.log.note', visit.note),
      ...corrections(visit, seal).map((one) => ({
        label: words.say('book.log.amended'),
        value: correctionInWords(words, one),
      })),
    ],
  );
  return {
    day: dayInWords(words, visit.date),
    about: words.semicolons([aboutVisit(words, visit), lateSeal(words, seal)]),
    ...(found ? { found } : {}),
    ...(done ? { done } : {}),
  };
}

function corrections(visit: Visit, seal: RecordSeal | undefined): Correction[] {
  if (seal) return correctionsOf(seal);
  return (visit.amended ?? []).map((amendment) => ({ amendment, changes: [] }));
}

/** Of a visit first sealed long after its day. */
function lateSeal(words: Words, seal: RecordSeal | undefined): string | undefined {
  const count = seal && daysToSeal(seal);
  return count === undefined || count <= fixedDays('written-late')
    ? undefined
    : words.say('seal.late-visit', { count });
}

function entries(brief: readonly Fact[], whole: readonly Fact[]): VisitEntries | undefined {
  return brief.length + whole.length === 0 ? undefined : { brief, whole };
}

/** What kind of visit, whose, and how it was done. */
function aboutVisit(words: Words, visit: Visit): string {
  const yesNo = (key: 'tools-disinfected' | 'saw-expected') =>
    visit[key] === undefined ? undefined : words.say(`book.log.${key}.${visit[key]}`);
  return words.semicolons([
    words.say('book.log.kind-by', {
      kind: words.say(`vocabulary.visit-kind.${visit.kind}`),
      name: visit.by,
    }),
    visit.at && words.say('book.log.at', { time: visit.at }),
    yesNo('tools-disinfected'),
    yesNo('saw-expected'),
  ]);
}

function gait(words: Words, visit: Visit, setting: LogSetting): string | undefined {
  const scale = setting.gaitScaleOn(visit.date);
  return words.semicolons([
    visit.gait !== undefined &&
      words.say('book.log.on-scale', {
        value: visit.gait,
        scale: scale ? words.say(`vocabulary.gait-scale.${scale}`) : words.say('book.log.no-scale'),
      }),
    visit['on-block'] !== undefined && words.say(`book.log.on-block.${visit['on-block']}`),
    visit['gait-by'] && words.say('book.log.gait-by', { name: visit['gait-by'] }),
  ]);
}

function withScale(words: Words, value: number, scale: string | undefined): string {
  return words.say('book.log.on-scale', {
    value,
    scale: scale ? words.say(`vocabulary.condition-scale.${scale}`) : words.say('book.log.no-scale'),
  });
}

function askedAndAnswered(words: Words, visit: Visit): Fact[] {
  const task = (what: string) => words.say(`vocabulary.task.${what}`);
  const done = (tasks: readonly { what: string; on: string }[]) =>
    words.semicolons(
      tasks.map(({ what, on }) =>
        words.say('book.log.task-on', { task: task(what), day: dayInWords(words, on) }),
      ),
    );
  const asked = visit.vet;
  const answer = visit['vet-answer'];
  return [
    ...fact(
      words,
      'book.log.vet-asked',
      asked &&
        words.semicolons([dayInWords(words, asked.asked), aboutInWords(words, asked.about), asked.why]),
    ),
    ...fact(
      words,
      'book.log.vet-answer',
      answer &&
        words.semicolons([
          words.say('book.log.vet-answer-to', { day: dayInWords(words, answer.to) }),
          answer.by,
          answer.reply,
          answerInWords(words, answer),
        ]),
    ),
    ...fact(
      words,
      'book.log.farm-asked',
      words.semicolons(
        (visit['ask-farm'] ?? []).map(({ what, by }) =>
          words.say('book.log.task-by', { task: task(what), day: dayInWords(words, by) }),
        ),
      ),
    ),
    ...fact(words, 'book.log.farm-did', visit['farm-did'] && done(visit['farm-did'])),
  ];
}
