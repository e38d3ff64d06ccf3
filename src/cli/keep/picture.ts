import { addPicture } from '../../keep/add-picture.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, WrongUse } from '../../run/exit-code.js';
import { pictureKeys, draftOf, typedAnswers } from './key-flags.js';
import { animalNamed } from './animal-named.js';
import { type KeepingOptions, keepingOf, writeChange } from '../../run/write-change.js';

/** Copies a picture into the farm's folder and puts it under its visit. */
export async function photo(
  named: string,
  file: string,
  options: KeepingOptions & { readonly date?: string } & Readonly<Record<string, unknown>>,
  effects: Effects,
): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  const { today } = keepingOf(options, effects);
  const shows = draftOf(typedAnswers(options, pictureKeys), pictureKeys, { from: today });
  const bytes = bytesAt(file, effects);
  return await writeChange(options, effects, [farm], (keeping) =>
    addPicture(keeping, farm, animal, { bytes, date: options.date, shows }),
  );
}

function bytesAt(file: string, effects: Effects): Uint8Array {
  try {
    return effects.files.read(file);
  } catch (error) {
    const { code = 'no reason given' } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT')
      throw new WrongUse(`there is no file ${file}, expected a picture: JPEG, PNG or WebP`);
    throw new WrongUse(`${file} could not be read (${code}), expected a picture: JPEG, PNG or WebP`);
  }
}
