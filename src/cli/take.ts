import { isDeepStrictEqual } from 'node:util';
import type { Keeping, Worked } from '../keep/change.js';
import { addVisit } from '../keep/add-visit.js';
import { commitChange } from '../keep/disk/commit-change.js';
import { openAnimal } from '../keep/kept-file.js';
import { idOfNote, notesIn, waitingNotes, waitsAgain } from '../keep/inbox/waiting-notes.js';
import { given } from '../record/given.js';
import { openCase } from '../keep/open-case.js';
import {
  type AnimalReading,
  type NoteReading,
  type NoteVisit,
  animalInWords,
  factsInWords,
  headingInWords,
  whoseInWords,
} from '../note/note-reading.js';
import { readNote } from '../note/read-note.js';
import { beyondRecord, type Difference } from '../note/same-visit.js';
import { lesionKinds } from '../reference/lesions.js';
import { formatProblem, readableText } from '../problem/format-problem.js';
import type { Problem } from '../problem/problem.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { Visit } from '../record/visit.js';
import type { Effects } from '../run/effects.js';
import { refusalOf, type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import { changeAsDiff } from '../keep/change-as-diff.js';
import { type KeepingOptions, keepingOf, isRightAsItStands } from '../run/write-change.js';
import { exitFor, listProblems, readCases, readNamed, sayRefused } from '../run/read-cases.js';
import { wrapped } from '../run/dialogue.js';
import { answeredNote } from '../form/asking/answered-note.js';
import { listText } from '../keep/list/read-list.js';
import { inRow, terminal } from '../problem/message.js';
import { jsonText } from '../record/signs.js';

/** A note is a screenful; a file above this many bytes is something else. */
const mostBytes = 2_000_000;

/** The text of a note: a file, for `-` what comes in by standard input, or several words that are no file's name. */
function noteFile(file: string, effects: Effects): string {
  if (/\s/.test(file.trim()) && !/\.[a-z]{2,4}$/i.test(file) && !effects.files.look(file)) return file;
  const bytes = file === '-' ? effects.readInput() : bytesOf(file, effects);
  if (bytes.length > mostBytes)
    throw new WrongUse(terminal('file.note.too-large', { file, bytes: bytes.length, most: mostBytes }));
  const { text, writing } = listText(bytes);
  // UTF-16 is what Windows calls Unicode text, and bears a mark; Windows-1252 is a guess, and words are not guessed.
  if (writing === 'UTF-16') return text;
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new WrongUse(terminal('file.note.not-text', { file }));
  }
}

function bytesOf(file: string, effects: Effects): Uint8Array {
  try {
    return readNamed(file, 'note', mostBytes, effects);
  } catch (error) {
    const { code } = refusalOf(error);
    throw new WrongUse(terminal('file.note.unreadable', { file, code }));
  }
}

export interface TakeOptions extends KeepingOptions {
  readonly farm?: string;
  readonly yes?: true;
}

type Taken =
  | { readonly became: 'added' | 'would be added' | 'already there' | 'left out' }
  /** The problems of a visit that is understood whole and looks like a slip. */
  | { readonly became: 'to be asked'; readonly problems?: readonly Problem[] }
  | { readonly became: 'otherwise on file'; readonly differences: readonly Difference[] }
  | { readonly became: 'refused'; readonly problems: readonly Problem[]; readonly message?: string };

/** Reads a note from the yard, shows what it says line by line, and adds the visits that are certain. */
export async function take(file: string, options: TakeOptions, effects: Effects): Promise<ExitCode> {
  return await takeText(noteFile(file, effects), options, effects);
}

/** Goes on with the notes that wait for answers, the oldest first. */
export async function takeWaiting(options: TakeOptions, effects: Effects): Promise<ExitCode> {
  let code: ExitCode = exitCode.well;
  for (const { text = '', source, farm } of waitingNotes(effects.files, keepingOf(options, effects).cases)) {
    const own = farm === undefined || options.farm !== undefined ? options : { ...options, farm };
    const one = await takeText(text, own, effects, source);
    if (one !== exitCode.well) code = one;
  }
  return code;
}

async function takeText(
  text: string,
  options: TakeOptions,
  effects: Effects,
  source = text,
): Promise<ExitCode> {
  // Over many questions: records that are kept may be let go between two of them.
  const reads = { ...options, cache: false };
  const { practice, farms: chosen, problems, today, farmsRefused, filesRead } = readCases(reads, effects);
  const errors = problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0 && chosen.length === 0) {
    listProblems(errors, filesRead, effects);
    return exitFor(errors);
  }
  sayRefused('note', farmsRefused, effects);
  const { farms, business } = practice;
  const farm = options.farm === undefined ? {} : { farm: options.farm };
  const read = (note: string) => readNote(note, { today, farms, business, ...farm });
  const dialogue = options.json || options.yes ? undefined : effects.dialogue;
  const { text: answered, reading } = dialogue
    ? await answeredNote(text, read, dialogue)
    : { text, reading: read(text) };

  if (reading.animals.length === 0 && !options.json) effects.print(`${terminal('take.no-animal')}\n`);
  const taken: { readonly animal: AnimalReading; readonly taken: Taken }[] = [];
  for (const [at, animal] of reading.animals.entries()) {
    if (!options.json) effects.print(inTwoLines(animal, at + 1, reading.animals.length, effects));
    const one = await takeAnimal(animal, options, effects, (worked, keeping) =>
      waitsAgain(worked, keeping, { ...farm, source, text: answered }),
    );
    if (!options.json) tell(one, effects);
    taken.push({ animal, taken: one });
  }
  if (!options.json) {
    // What is in doubt, and what was passed over, comes last, where it is seen.
    const left = reading.animals.map((animal) => {
      const lines = animalInWords(animal, options.dryRun === true);
      return lines === '' ? '' : `\n${whoseInWords(animal)}\n${lines}`;
    });
    effects.print(fitted(`${left.join('')}${headingInWords(reading)}`, effects));
  }
  const open =
    taken.filter(({ taken: { became } }) => became === 'to be asked').length + reading.questions.length;
  if (!options.dryRun) keepWaiting({ source, text: answered, open, ...farm }, options, effects);
  if (options.json) effects.print(jsonText(asJson(reading, taken)));
  else if (open > 0 && !options.dryRun) effects.print(`\n${terminal('take.waiting', { count: open })}\n`);
  const well = taken.every(({ taken: { became } }) => became !== 'to be asked' && became !== 'refused' && became !== 'otherwise on file'); // prettier-ignore
  return well && reading.questions.length === 0 && reading.animals.length > 0
    ? exitCode.well
    : exitCode.problems;
}

/** The note with the answers so far, kept until each of its visits is added or left out. */
function keepWaiting(
  { source, text, open, farm }: { source: string; text: string; open: number; farm?: string },
  options: TakeOptions,
  effects: Effects,
): void {
  const { cases, today } = keepingOf(options, effects);
  const id = idOfNote(source);
  const before = waitingNotes(effects.files, cases).find((one) => one.id === id);
  if (open === 0 ? before === undefined : before?.text === text) return;
  const line =
    open === 0 ? { id, on: today } : { id, on: today, ...(farm === undefined ? {} : { farm }), source, text };
  try {
    effects.disk.append(notesIn(cases), `${JSON.stringify(line)}\n`);
  } catch (error) {
    const { code } = refusalOf(error);
    effects.warn(`${terminal('take.not-kept', { path: notesIn(cases), code })}\n`);
  }
}

async function takeAnimal(
  reading: AnimalReading,
  options: TakeOptions,
  effects: Effects,
  undone: (worked: Worked, keeping: Keeping) => Worked,
): Promise<Taken> {
  const { farm, animal, draft, declares = {}, opens, called, tag, questions } = reading;
  if (farm === undefined || animal === undefined || draft === undefined || questions.length > 0)
    return { became: 'to be asked' };
  const keeping = keepingOf(options, effects);
  let before: Taken | undefined;
  // Looked at again under the lock: another taking of the same note may have been faster.
  const work = (now: typeof keeping): Worked => {
    if (opens)
      return openCase(now, farm, animal, {
        animal: called,
        ...given({ tag }),
        lesions: { ...declares },
        visits: [draft],
      });
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
    return await takeAnimal(reading, { ...options, evenSo: true }, effects, undone);
  }
  if (looked.outcome !== 'change') return refused(looked);
  if (options.dryRun) {
    if (!options.json) effects.print(changeAsDiff(looked.change));
    return { became: 'would be added' };
  }
  if (!options.yes && !options.json && effects.dialogue) {
    const lesions = met(declares);
    const key = opens ? 'take.open' : lesions === '' ? 'take.add' : 'take.add-and-declare';
    const question = terminal(key, { farm, animal, lesions });
    const answer = await effects.dialogue.choose(question, [
      { label: terminal('ask.yes'), value: 'yes' },
      { label: terminal('ask.no'), value: 'no' },
    ]);
    if (answer !== 'yes') return { became: 'left out' };
  }
  const done = await commitChange(effects.disk, keeping, [farm], (now) => undone(work(now), now));
  for (const line of done.told) effects.warn(`${line}\n`);
  if (before) return before;
  if (done.outcome !== 'written') return refused(done);
  for (const problem of done.change.remarks) effects.warn(`${formatProblem(problem)}\n`);
  return { became: 'added' };
}

/** Whose visit it is and what was taken; of a terminal at most two lines. Among many, how far it has got. */
function inTwoLines(animal: AnimalReading, at: number, count: number, effects: Effects): string {
  const who = whoseInWords(animal);
  const head = count < 5 ? who : terminal('take.at', { at, count, who });
  const facts = factsInWords(animal);
  for (let shown = facts.length; ; shown -= 1) {
    const more = shown === facts.length ? '' : terminal('take.more-facts', { count: facts.length - shown });
    const text = fitted(
      `${head}${shown === 0 ? '' : ': '}${facts.slice(0, shown).join('; ')}${more}`,
      effects,
    );
    if (shown === 0 || text.split('\n').length < 3) return `${text}\n`;
  }
}

function fitted(text: string, { terminalWidth }: Effects): string {
  return terminalWidth === undefined ? text : wrapped(text, terminalWidth);
}

/** Such as: lesion b (digital dermatitis, RH). */
function met(declares: NonNullable<AnimalReading['declares']>): string {
  const all = Object.entries(declares).map(([name, { code, foot, claw }]) => {
    const where = claw === undefined ? foot : `${foot} ${claw}`;
    return terminal('take.lesion', { name, kind: lesionKinds[code].name, where });
  });
  return inRow('and', all);
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
      effects.print(`  ${terminal(taken.problems ? 'take.asked' : 'take.to-be-asked')}\n`);
      return;
    case 'otherwise on file':
      effects.print(`  ${terminal('take.otherwise')}\n`);
      for (const one of taken.differences) effects.print(`    ${differenceInWords(one)}\n`);
      effects.print(`    ${terminal('take.otherwise-fix')}\n`);
      return;
    case 'refused':
      for (const problem of taken.problems) effects.warn(`${formatProblem(problem)}\n`);
      if (taken.message) effects.warn(`${taken.message}\n`);
      effects.print(`  ${terminal(isOfDisk(taken) ? 'take.not-added' : 'take.would-be-wrong')}\n`);
      return;
    default:
      effects.print(`  ${terminal(`take.became.${taken.became}`)}\n`);
  }
}

function isOfDisk({ problems, message }: Extract<Taken, { became: 'refused' }>): boolean {
  return message !== undefined || problems.some(({ id }) => id.startsWith('ledger/'));
}

function differenceInWords({ path, noted, recorded }: Difference): string {
  const said = (value: unknown): string =>
    value === undefined ? terminal('take.says-nothing') : readableText(JSON.stringify(value));
  return terminal('take.difference', { path, noted: said(noted), recorded: said(recorded) });
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
    // `visit` and `lesions`: what would be written with what is certain so far.
    animals: taken.map(({ animal, taken: one }) => ({
      ...animal,
      ...one,
      ...(animal.draft ? { visit: animal.draft, lesions: animal.declares ?? {} } : {}),
    })),
  };
}
