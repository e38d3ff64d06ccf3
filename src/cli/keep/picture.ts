import { speechOn } from '../../form/asking/as-said.js';
import { addPicture } from '../../keep/add-picture.js';
import type { Effects } from '../../run/effects.js';
import { type ExitCode, WrongUse } from '../../run/exit-code.js';
import { type Typed, pictureKeys, draftOf, typedAnswers } from './key-flags.js';
import { animalNamed } from './animal-named.js';
import { keepingOf, writeChange } from '../../run/write-change.js';
import { terminal } from '../../problem/message.js';

/** Copies a picture into the farm's folder and puts it under its visit. */
export async function addPhoto(
  named: string,
  file: string,
  options: Typed & { readonly date?: string },
  effects: Effects,
): Promise<ExitCode> {
  const { farm, animal } = animalNamed(named, options, effects);
  const { today } = keepingOf(options, effects);
  const shows = draftOf(typedAnswers(options, pictureKeys), pictureKeys, {
    from: today,
    speech: speechOn(today),
  });
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
    throw new WrongUse(
      terminal(code === 'ENOENT' ? 'file.picture.none' : 'file.picture.unreadable', { file, code }),
    );
  }
}
