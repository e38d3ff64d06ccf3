import { isDeepStrictEqual } from 'node:util';
import type { Worked } from '../keep/change.js';
import { addVisit } from '../keep/add-visit.js';
import { commitChange } from '../keep/disk/commit-change.js';
import { openAnimal } from '../keep/kept-file.js';
import {
  type AnimalReading,
  type NoteReading,
  type NoteVisit,
  type Question,
  animalInWords,
  headingInWords,
} from '../note/note-reading.js';
import { readNote } from '../note/read-note.js';
import { beyondRecord, type Difference } from '../note/same-visit.js';
import { lesionKinds } from '../reference/lesions.js';
import { formatProblem, readableText } from '../problem/format-problem.js';
import type { Problem } from '../problem/problem.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { Visit } from '../record/visit.js';
import type { Effects } from '../run/effects.js';
import { type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import { changeAsDiff } from '../keep/change-as-diff.js';
import { type KeepingOptions, keepingOf, isRightAsItStands, orEvenSo } from '../run/write-change.js';
import { exitFor, listProblems, readCases } from '../run/read-cases.js';
import { wrapped, type Dialogue } from '../run/dialogue.js';
import { listText } from '../keep/list/read-list.js';

const otherwise = ' otherwise';
const leaveOut = ' leave out';

/**
 * Asks what a note leaves open, one thing after the other, and reads the note again with each answer put in its place.
 *
 * An answer is words in the note, as the writer could have written them: nothing is taken in that a note cannot say.
 * The note on disk is not changed. What is left out stays a question.
 */
async function answeredNote(
  text: string,
  read: (text: string) => NoteReading,
  dialogue: Dialogue,
): Promise<NoteReading> {
  let now = text;
  let reading = read(now);
  const left = new Set<string>();
  for (;;) {
    const open = [...reading.questions, ...reading.animals.flatMap(({ questions }) => questions)];
    const question = open.find((one) => !left.has(keyOf(one)));
    if (!question) return reading;
    const answer = await answerTo(question, dialogue);
    if (answer === undefined) {
      left.add(keyOf(question));
      continue;
    }
    const { from, to } = question.replace;
    now = now.slice(0, from) + answer + now.slice(to);
    reading = read(now);
  }
}

/** The same words asked about in the same way are the same question, wherever an answer has moved them. */
function keyOf({ id, text, ask }: Question): string {
  return `${id}\n${text}\n${ask}`;
}

async function answerTo(question: Question, dialogue: Dialogue): Promise<string | undefined> {
  const about = question.text.trim() === '' ? '' : `“${question.text.trim()}”: `;
  const message = readableText(`line ${question.line}: ${about}${question.ask}`);
  const chosen = await dialogue.choose(message, [
    ...question.choices.map(({ label, text }) => ({ label, value: text })),
    { label: 'write it otherwise', value: otherwise },
    { label: 'leave this animal out', value: leaveOut },
  ]);
  if (chosen === undefined || chosen === leaveOut) return undefined;
  if (chosen !== otherwise) return chosen;
  const written = await dialogue.line(question.mend, () => undefined);
  return written?.trim() === '' ? undefined : written;
}

/** A note is a screenful; a file above this many bytes is something else. */
const mostBytes = 2_000_000;

/** The text of a note: a file, or for `-` what comes in by standard input. */
function noteFile(file: string, effects: Effects): string {
  const bytes = file === '-' ? effects.readInput() : bytesOf(file, effects);
  if (bytes.length > mostBytes)
    throw new WrongUse(
      `${file} has ${bytes.length} bytes, expected a note: plain text of at most ${mostBytes}`,
    );
  const { text, writing } = listText(bytes);
  // UTF-16 is what Windows calls Unicode text, and bears a mark; Windows-1252 is a guess, and words are not guessed.
  if (writing === 'UTF-16') return text;
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new WrongUse(`${file} is not plain text in UTF-8; save it as plain text, then take it again`);
  }
}

function bytesOf(file: string, effects: Effects): Uint8Array {
  const there = effects.files.look(file);
  if (there?.kind !== 'file')
    throw new WrongUse(`there is no file ${file}; name the note, or write - and paste it in`);
  if (there.bytes > mostBytes)
    throw new WrongUse(
      `${file} has ${there.bytes} bytes, expected a note: plain text of at most ${mostBytes}`,
    );
  try {
    return effects.files.read(file);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new WrongUse(
      `${file} cannot be read (${code}); look whether it is yours to read, then take it again`,
    );
  }
}

export interface TakeOptions extends KeepingOptions {
  readonly farm?: string;
  readonly yes?: true;
}

/** What became of what a note says of one animal. */
type Taken =
  | { readonly became: 'added' | 'would be added' | 'already there' | 'left out' }
  /** The problems of a visit that is understood whole and looks like a slip. */
  | { readonly became: 'to be asked'; readonly problems?: readonly Problem[] }
  | { readonly became: 'otherwise on file'; readonly differences: readonly Difference[] }
  | { readonly became: 'refused'; readonly problems: readonly Problem[]; readonly message?: string };

/** Reads a note from the yard, shows what it says line by line, and adds the visits that are certain. */
export async function take(file: string, options: TakeOptions, effects: Effects): Promise<ExitCode> {
  const text = noteFile(file, effects);
  const { practice, farms: chosen, problems, today, farmsRefused, filesRead } = readCases(options, effects);
  const errors = problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0 && chosen.length === 0) {
    listProblems(errors, filesRead, effects);
    return exitFor(errors);
  }
  for (const slug of farmsRefused)
    effects.warn(
      `${slug}: its files have errors, so no note of it can be taken; \`growdown check\` lists them\n`,
    );
  const { farms, business } = practice;
  const farm = options.farm === undefined ? {} : { farm: options.farm };
  const read = (note: string) => readNote(note, { today, farms, business, ...farm });
  const dialogue = options.json || options.yes ? undefined : effects.dialogue;
  const reading = dialogue ? await answeredNote(text, read, dialogue) : read(text);

  if (!options.json) effects.print(fitted(headingInWords(reading), effects));
  if (reading.animals.length === 0 && !options.json)
    effects.print('the note names no animal of these farms: nothing to add\n');
  const taken: { readonly animal: AnimalReading; readonly taken: Taken }[] = [];
  for (const animal of reading.animals) {
    if (!options.json) effects.print(fitted(animalInWords(animal), effects));
    const one = await takeAnimal(animal, options, effects);
    if (!options.json) tell(one, effects);
    taken.push({ animal, taken: one });
  }
  if (options.json) effects.print(`${JSON.stringify(asJson(reading, taken), null, 2)}\n`);
  const well = taken.every(({ taken: { became } }) => became !== 'to be asked' && became !== 'refused' && became !== 'otherwise on file'); // prettier-ignore
  return well && reading.questions.length === 0 && reading.animals.length > 0
    ? exitCode.well
    : exitCode.problems;
}

async function takeAnimal(reading: AnimalReading, options: TakeOptions, effects: Effects): Promise<Taken> {
  const { farm, animal, draft, declares = {} } = reading;
  if (farm === undefined || animal === undefined || draft === undefined) return { became: 'to be asked' };
  const keeping = keepingOf(options, effects);
  let before: Taken | undefined;
  // Looked at again under the lock: another taking of the same note may have been faster.
  const work = (now: typeof keeping): Worked => {
    const opened = openAnimal(now, farm, animal);
    before = opened.outcome === 'open' ? onFile(draft, opened.kept.record.visits) : undefined;
    if (before) return { outcome: 'cannot', message: '' };
    // The same note may have declared it with another of her visits, just now.
    const there = opened.outcome === 'open' ? opened.kept.record.lesions : {};
    const lesions = Object.fromEntries(
      Object.entries(declares).filter(([name, lesion]) => !isDeepStrictEqual(there[name], lesion)),
    );
    return addVisit(now, farm, animal, draft, { lesions });
  };
  const looked = work(keeping);
  if (before) return before;
  if (looked.outcome === 'refused' && looked.asked) {
    const asking = options.yes || options.json ? undefined : effects.dialogue;
    if (!asking) return { became: 'to be asked', problems: looked.problems };
    for (const problem of looked.problems) effects.warn(`${formatProblem(problem)}\n`);
    if (!(await isRightAsItStands(effects))) return { became: 'left out' };
    return await takeAnimal(reading, { ...options, evenSo: true }, effects);
  }
  if (looked.outcome !== 'change') return refused(looked);
  if (options.dryRun) {
    if (!options.json) effects.print(changeAsDiff(looked.change));
    return { became: 'would be added' };
  }
  if (!options.yes && !options.json && effects.dialogue) {
    const answer = await effects.dialogue.choose(`add this visit to ${farm}/${animal}${met(declares)}?`, [
      { label: 'yes', value: 'yes' },
      { label: 'no', value: 'no' },
    ]);
    if (answer !== 'yes') return { became: 'left out' };
  }
  const done = await commitChange(effects.disk, keeping, [farm], work);
  for (const line of done.told) effects.warn(`${line}\n`);
  if (before) return before;
  if (done.outcome !== 'written') return refused(done);
  for (const problem of done.change.remarks) effects.warn(`${formatProblem(problem)}\n`);
  return { became: 'added' };
}

/** Lines as long as the terminal has room for; elsewhere as they are. */
function fitted(text: string, { terminalWidth }: Effects): string {
  return terminalWidth === undefined ? text : wrapped(text, terminalWidth);
}

/** Such as: , and declare lesion b (digital dermatitis, RH) in her file. */
function met(declares: NonNullable<AnimalReading['declares']>): string {
  const all = Object.entries(declares).map(([name, { code, foot, claw }]) => {
    const where = claw === undefined ? foot : `${foot} ${claw}`;
    return `lesion ${name} (${lesionKinds[code].name}, ${where})`;
  });
  return all.length === 0 ? '' : `, and declare ${all.join(' and ')} in her file`;
}

/** Whether the day is on file already, with all that the note says or with something else. */
function onFile(draft: NoteVisit, visits: readonly Visit[]): Taken | undefined {
  const sameDay = visits.filter(({ date }) => date === draft.date);
  const there = sameDay.map((visit) => ({ visit, differences: beyondRecord(draft, visit) }));
  if (there.some(({ differences }) => differences.length === 0)) return { became: 'already there' };
  const same = there.find(
    ({ visit }) => bare(visit.by) === bare(draft.by) && isLiftingVisit(visit) === isLiftingVisit(draft),
  );
  return same && { became: 'otherwise on file', differences: same.differences };
}

const bare = (name: string): string => name.trim().toLowerCase();

function refused(worked: Exclude<Worked, { outcome: 'change' }>): Taken {
  return worked.outcome === 'refused'
    ? { became: 'refused', problems: worked.problems }
    : { became: 'refused', problems: [], message: worked.message };
}

function tell(taken: Taken, effects: Effects): void {
  switch (taken.became) {
    case 'to be asked':
      for (const problem of taken.problems ?? []) effects.warn(`${formatProblem(problem)}\n`);
      if (taken.problems) effects.print(`  nothing added; ${orEvenSo}\n`);
      else effects.print('  nothing added: write in the note what is asked above, and take it again\n');
      return;
    case 'otherwise on file':
      effects.print('  nothing added: that day is on file and says otherwise, or less\n');
      for (const { path, noted, recorded } of taken.differences)
        effects.print(`    ${path}: the note says ${said(noted)}, the file ${said(recorded)}\n`);
      effects.print('    to put it right: `growdown correct`, or the file itself\n');
      return;
    case 'refused':
      for (const problem of taken.problems) effects.warn(`${formatProblem(problem)}\n`);
      if (taken.message) effects.warn(`${taken.message}\n`);
      effects.print(isOfDisk(taken) ? '  nothing added\n' : '  nothing added: the record would be wrong\n');
      return;
    default:
      effects.print(`  ${taken.became}\n`);
  }
}

function isOfDisk({ problems, message }: Extract<Taken, { became: 'refused' }>): boolean {
  return message !== undefined || problems.some(({ id }) => id.startsWith('ledger/'));
}

function said(value: unknown): string {
  return value === undefined ? 'nothing' : readableText(JSON.stringify(value));
}

function asJson(
  reading: NoteReading,
  taken: readonly { readonly animal: AnimalReading; readonly taken: Taken }[],
): unknown {
  const { heading, questions, passedOver } = reading;
  return {
    heading,
    questions,
    passedOver,
    animals: taken.map(({ animal, taken: one }) => ({ ...animal, ...one })),
  };
}
