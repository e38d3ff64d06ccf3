import { addPicture } from '../../keep/add-picture.js';
import { type Declares, declareLesion, declareMark } from '../../keep/add-visit.js';
import type { Keeping, Worked } from '../../keep/change.js';
import {
  closeCase,
  endSteps,
  type EpisodeEnd,
  reopenCase,
  moveAnimal,
  renumber,
} from '../../keep/move-animal.js';
import { findFolder, openAnimal, openFarm } from '../../keep/kept-file.js';
import { farmsOfEntry, rememberedOn, undoEntry } from '../../keep/undo.js';
import type { Animal } from '../../record/animal.js';
import { stepsInRecord } from '../../record/record-step.js';
import { type EpisodeResult, episodeResults } from '../../record/words.js';
import { missingAtClosing } from '../../schedule/end-of-case.js';
import { missingInWords } from '../../words/compose-withheld.js';
import { wordsOf } from '../../reference/words.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, exitCode, leftBy, WrongUse } from '../../run/exit-code.js';
import { draftTyped } from './draft-typed.js';
import { type Typed, declaredKeys, pictureKeys } from './key-flags.js';
import { animalNamed, trimmerOf } from './animal-named.js';
import { type KeepingOptions, keepingOf, isRightAsItStands, writeChange } from '../../run/write-change.js';
import { given } from '../../record/given.js';
import { inRow, terminal } from '../../problem/message.js';
import { jsonText } from '../../record/signs.js';

/** Ends the open episode. */
export async function close(
  named: string,
  { result, ...options }: KeepingOptions & Partial<Record<'ended' | 'toldInWriting', string>> & { readonly result?: EpisodeResult }, // prettier-ignore
  effects: Effects,
): Promise<ExitCode> {
  if (result === undefined) {
    const results = episodeResults.map((one) => `"${one}"`).join(', ');
    throw new WrongUse(terminal('close.no-result', { results }));
  }
  const { farm, animal } = animalNamed(named, options, effects);
  const keeping = keepingOf(options, effects);
  const end = {
    ended: options.ended ?? keeping.today,
    result,
    'told-in-writing': options.toldInWriting,
  };
  const open = leftOpen(keeping, farm, animal, end);
  return await writeAsked(open, options, effects, [farm], (now) => closeCase(now, farm, animal, end));
}

/** Begins an episode after one that has ended. */
export async function reopen(
  named: string,
  options: KeepingOptions & { readonly lameSince?: string; readonly toldBy?: string },
  effects: Effects,
): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  const { lameSince, toldBy } = options;
  return await writeChange(options, effects, [farm], (keeping) =>
    reopenCase(keeping, farm, animal, {
      'lame-since': lameSince ?? keeping.today,
      ...given({ 'told-by': toldBy }),
    }),
  );
}

/** Declares one lesion or one mark. */
export async function declare(named: string, options: Typed, effects: Effects): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  const typed = draftTyped(options, declaredKeys, keepingOf(options, effects));
  const { lesions = {}, marks = {} } = typed as Declares;
  const [lesion, ...moreLesions] = Object.entries(lesions);
  const [mark, ...moreMarks] = Object.entries(marks);
  if ((lesion === undefined) === (mark === undefined) || moreLesions.length + moreMarks.length > 0)
    throw new WrongUse(terminal('declare.expected'));
  return await writeChange(options, effects, [farm], (keeping) => {
    if (lesion) return declareLesion(keeping, farm, animal, ...lesion);
    return mark ? declareMark(keeping, farm, animal, ...mark) : { outcome: 'cannot', message: '' };
  });
}

/** Copies a picture into the farm's folder and puts it under its visit. */
export async function addPhoto(
  named: string,
  file: string,
  options: Typed & { readonly date?: string },
  effects: Effects,
): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  const shows = draftTyped(options, pictureKeys, keepingOf(options, effects));
  const bytes = bytesAt(file, effects);
  return await writeChange(options, effects, [farm], (keeping) =>
    addPicture(keeping, farm, animal, { bytes, date: options.date, shows }),
  );
}

function bytesAt(file: string, effects: Effects): Uint8Array {
  try {
    return effects.files.read(file);
  } catch (error) {
    const { code = terminal('file.no-reason') } = error as NodeJS.ErrnoException;
    const key = code === 'ENOENT' ? 'file.picture.none' : 'file.picture.unreadable';
    throw new WrongUse(terminal(key, { file, code }));
  }
}

/** Gives an animal another number. */
export async function newNumber(
  named: string,
  number: string,
  options: KeepingOptions & { readonly until?: string },
  effects: Effects,
): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  return await writeChange(options, effects, [farm], (keeping) =>
    renumber(keeping, farm, animal, { number, until: options.until ?? keeping.today }),
  );
}

/** Sends an animal to another farm. */
export async function move(
  named: string,
  to: string,
  options: KeepingOptions & { readonly on?: string; readonly toldInWriting?: string },
  effects: Effects,
): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  const [other = '', number] = to.split(/[\\/]/);
  const keeping = keepingOf(options, effects);
  const on = options.on ?? keeping.today;
  const open = leftOpen(keeping, farm, animal, { ended: on, result: 'moved' });
  return await writeAsked(open, options, effects, [farm, other], (now) =>
    moveAnimal(now, farm, animal, { farm: other, number, on, told: options.toldInWriting }),
  );
}

/** Takes an entry on a farm back, the last one or that of a number; its seals are withdrawn in the open. Without a farm all are listed. */
export async function undo(
  farm: string | undefined,
  entry: string | undefined,
  options: KeepingOptions & { readonly why?: string; readonly by?: string },
  effects: Effects,
): Promise<ExitCode> {
  if (entry !== undefined && !/^\d{1,9}$/.test(entry))
    throw new WrongUse(terminal('undo.no-number', { entry }));
  const number = entry === undefined ? undefined : Number(entry);
  if (farm === undefined) return listEntries(options, effects);
  const farms = farmsOfEntry(keepingOf(options, effects), farm, number);
  const work = (keeping: Keeping): Worked =>
    undoEntry(keeping, farm, {
      number,
      day: effects.disk.today(),
      by: options.by ?? trimmerOf(keeping),
      why: options.why,
    });
  return await writeChange(options, effects, farms, work, { undoing: number === undefined });
}

function listEntries(options: KeepingOptions, effects: Effects): ExitCode {
  const keeping = keepingOf(options, effects);
  const found = findFolder(keeping);
  if (found.outcome === 'cannot') throw new WrongUse(found.message);
  const all = (found.outcome === 'found' ? found.farms : []).flatMap(({ slug: farm }) =>
    rememberedOn(keeping, farm).map(({ entry: { number, memory }, under }) => ({
      farm,
      entry: number,
      on: memory.on,
      what: memory.what,
      files: memory.files.map(({ file }) => file),
      // Taken back first: what has written one of its files since.
      first: under.map((one) => ({ farm: one.farm, entry: one.entry.number })),
    })),
  );
  if (options.json) effects.print(jsonText({ entries: all }));
  else if (all.length === 0) effects.print(`${terminal('undo.none')}\n`);
  else
    for (const { files, first, on = '', ...one } of all) {
      const way = files.length > 3 ? 'entry-of-many' : 'entry';
      const values = { ...one, day: on, files: inRow('comma', files.slice(0, 3)), count: files.length };
      const later = inRow(
        'comma',
        first.map(({ farm, entry }) => `${farm} ${entry}`),
      );
      effects.print(`${terminal(`undo.${way}`, values)}\n`);
      if (first.length > 0) effects.print(`  ${terminal('undo.first', { later })}\n`);
    }
  return exitCode.well;
}

/** What the end of an episode would leave open, in the words in which the book says it afterwards; nothing where files do not read. */
function leftOpen(keeping: Keeping, farm: string, animal: string, end: EpisodeEnd): string[] {
  const [opened, own] = [openAnimal(keeping, farm, animal), openFarm(keeping, farm)];
  if (opened.outcome !== 'open' || own.outcome !== 'open') return [];
  const { record } = opened.kept;
  const steps = endSteps(record, end);
  if (!steps) return [];
  const missing = (of: Animal) => missingAtClosing(of, own.kept.record, keeping.today);
  const before = new Set(missing(record).map(({ path }) => path.join()));
  return missing(stepsInRecord(record, steps))
    .filter(({ path }) => !before.has(path.join()))
    .map((entry) => Object.values(missingInWords(wordsOf('en-GB'), record, entry)).join(' '));
}

/** Writes a change that leaves something open only where somebody at a terminal, or `--even-so`, says that it is right as it stands. */
async function writeAsked(
  open: readonly string[],
  options: KeepingOptions,
  effects: Effects,
  farms: readonly string[],
  work: (keeping: Keeping) => Worked,
): Promise<ExitCode> {
  for (const line of open) effects.warn(`${line}\n`);
  const asks = open.length > 0 && !options.evenSo && !options.dryRun;
  if (!asks) return await writeChange(options, effects, farms, work);
  if (!options.json && (await isRightAsItStands(effects)))
    return await writeChange({ ...options, evenSo: true }, effects, farms, work);
  effects.warn(`${leftBy('asked')}\n`);
  return exitCode.problems;
}
