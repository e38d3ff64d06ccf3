import { terminal } from '../../problem/message.js';
import { chooseFarm } from '../../casefile/choose-farm.js';
import { readPractice } from '../../casefile/read-practice.js';
import { dueNow, lastVisit, linesBefore } from '../known-of-animal.js';
import { pooledOn } from '../../herd/pooled-on.js';
import type { Keeping, Worked } from '../../keep/change.js';
import { workOutCase } from '../../schedule/work-out-case.js';
import { nextReadingSentence } from '../../words/compose-regrowth.js';
import { nameOf } from '../../words/compose-standing.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';
import { untold, wordsOf } from '../../reference/words.js';
import type { Dialogue } from '../../run/dialogue.js';
import { WrongUse, type ExitCode, exitCode } from '../../run/exit-code.js';
import { Interview } from './ask-question.js';
import { datesOf } from './as-said.js';
import { type AskedVisit, type AskingVisit, askVisit, lastLook } from './ask-visit.js';
import { animalQuestions, lesionQuestions } from '../../keep/questions.js';
import { type Animal, animal as animalSchema } from '../../record/animal.js';
import { freeNames } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import { lesionInWords } from '../../words/day-and-place.js';
import type { CaseFiles } from '../../casefile/source-text.js';
import { type PictureOfVisit, withPictures } from '../../keep/add-picture.js';
import type { Photo } from '../../record/visit.js';
import { bytesOf, findFarm } from '../../keep/kept-file.js';
import { wantedBy } from '../../casefile/wanted.js';
import { inBlock } from '../../keep/text/write-value.js';
import type { VisitDraft } from '../../keep/visit-draft.js';
import type { Effects } from '../../run/effects.js';

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
  const draft = await Interview.of(
    dialogue,
    today,
    () => practice.business.dates,
    async (interview) => {
      const asked = await askVisit(interview, asking);
      if (Object.keys(asked).length === 0) throw new WrongUse(terminal('asking.nothing-answered'));
      await lastLook(interview, asking, asked);
      return asked;
    },
  );
  show(words.say('form.before.heading'), linesBefore(words, work, date));
  return draft;
}

/** A case asked for at the terminal: the animal, her lesions one by one, and the first visit. */
export async function caseByQuestions(
  dialogue: Dialogue,
  { files, cases, today }: Keeping,
  { farm, date }: { readonly farm: string; readonly date: string },
  wouldBe: (asked: Asked) => ReturnType<AskingVisit['wouldBe']>,
): Promise<Asked> {
  const dates = datesOf({ files, cases, today });
  return await Interview.of(dialogue, today, dates, async (interview) => {
    const words = wordsOf('en-GB');
    const codeOf = new Map<string, LesionCode>();
    const called = (name: string): string => {
      const code = codeOf.get(name);
      return code === undefined ? name : `${name}, ${lesionInWords(words, code)}`;
    };
    const asking = {
      date,
      today,
      words,
      nameOf: called,
      others: [],
      expectedOf: () => undefined,
      pictureTrouble: (file: string) => pictureTrouble(files, `${cases}/${farm}`, file),
    };
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

/** What is wrong with a picture named at the terminal: neither a file of this computer nor one in the farm's folder. */
export function pictureTrouble(files: CaseFiles, farmFolder: string, file: string): string | undefined {
  return [file, `${farmFolder}/${file}`].some((path) => files.look(path)?.kind === 'file')
    ? undefined
    : terminal('asking.no-picture', { file });
}

/**
 * Pictures named with a visit, parted: those that lie in the farm's folder stay as they are, others are to be copied.
 */
function apart(files: CaseFiles, farmFolder: string, photos: readonly Photo[]) {
  const there = photos.filter(({ file }) => files.look(`${farmFolder}/${file}`)?.kind === 'file');
  const toCopy = photos
    .filter((photo) => !there.includes(photo))
    .flatMap(({ file, ...shows }): PictureOfVisit[] => {
      const bytes = bytesOf(files, file);
      return bytes ? [{ bytes, shows, called: file }] : [];
    });
  return { there, toCopy };
}

/** Writes what was asked for; where that is refused, the answers are shown as her file would hold them, so that none is lost. */
export async function writeAnswered(
  answers: Readonly<Record<string, unknown>>,
  effects: Effects,
  write: () => Promise<ExitCode>,
): Promise<ExitCode> {
  let code: ExitCode | undefined;
  try {
    code = await write();
    return code;
  } finally {
    if (code !== exitCode.well) {
      effects.warn(`${terminal('asking.answered', { text: asWritten(answers) })}\n`);
    }
  }
}

function asWritten(answers: Readonly<Record<string, unknown>>): string {
  return inBlock(answers, wantedBy(animalSchema), 0, { eol: '\n', step: 2 });
}

/** What answers come to: their text, and the errors they would bring, with paths from the visit or, of a lesion first met, from the animal. */
export function wouldBeOf(
  answers: Readonly<Record<string, unknown>>,
  worked: Worked,
): ReturnType<AskingVisit['wouldBe']> {
  const problems =
    worked.outcome === 'refused'
      ? worked.problems.filter(({ severity }) => severity === 'error')
      : worked.outcome === 'cannot'
        ? [worked]
        : [];
  return {
    text: asWritten(answers),
    errors: problems.map(({ message, ...problem }) => {
      const path = 'path' in problem ? (problem.path ?? []) : [];
      return { message, path: path[0] === 'visits' ? path.slice(2) : path };
    }),
  };
}

/** A visit whose pictures lie anywhere on this computer: they are copied into the farm's folder with it. */
export function withPicturesAsked(
  keeping: Keeping,
  { farm, slug, visit }: { readonly farm: string; readonly slug: string; readonly visit: VisitDraft },
  work: (now: Keeping, whole: VisitDraft) => Worked,
): Worked {
  const { photos, ...rest } = visit;
  if (photos === undefined || photos.length === 0) return work(keeping, visit);
  const found = findFarm(keeping, farm);
  if (found.outcome !== 'found') return found;
  const folder = found.farm.entry;
  const { there, toCopy } = apart(keeping.files, folder.path, photos);
  return withPictures(keeping, { folder, slug, date: visit.date }, toCopy, (now, copied) =>
    work(now, { ...rest, photos: [...there, ...copied] }),
  );
}
