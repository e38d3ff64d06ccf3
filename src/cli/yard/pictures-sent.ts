import { kindOf } from '../../keep/add-picture.js';
import { sha256Of } from '../../ledger/canonical.js';
import { heldPicture } from '../../keep/inbox/inbox-entry.js';
import { holdPicture } from '../../keep/inbox/keep-entry.js';
import { pictureIn } from '../../keep/inbox/read-inbox.js';
import { bytesOf } from '../../keep/kept-file.js';
import { megabytes } from './limits.js';
import type { Submission } from './read-submission.js';
import type { YardSetting } from './yard-setting.js';

/** A picture that lies in the inbox. */
export interface PictureHeld {
  readonly held: string;
  readonly sha256: string;
  readonly bytes: number;
}

/** Pictures of a form by the name of their fields, and what is wrong with those that were not taken. */
export interface PicturesSent {
  readonly held: ReadonlyMap<string, readonly PictureHeld[]>;
  readonly troubles: ReadonlyMap<string, string>;
}

/** Lays the pictures a form sent in the inbox of its farm, beside those it sent before and has not dropped. */
export function picturesSent(
  folder: string,
  form: string,
  { values, pictures, tooLarge }: Submission,
  { disk, keeping, words }: YardSetting,
): PicturesSent {
  const held = new Map<string, PictureHeld[]>();
  const troubles = new Map<string, string>();
  const dropped = values.get('drop') ?? [];
  const add = (name: string, one: PictureHeld): void => {
    const before = held.get(name) ?? [];
    if (!before.some((other) => other.held === one.held)) held.set(name, [...before, one]);
  };
  for (const [field, names] of values) {
    const [, name = ''] = /^(photos\.\d+)\.held$/.exec(field) ?? [];
    for (const one of name === '' ? [] : names) {
      if (!heldPicture.safeParse(one).success || !one.startsWith(form) || dropped.includes(one)) continue;
      const bytes = bytesOf(disk.files, pictureIn(folder, one));
      if (bytes) add(name, { held: one, sha256: sha256Of(bytes), bytes: bytes.length });
    }
  }
  for (const { name: field, bytes } of pictures) {
    const [, name = ''] = /^(photos\.\d{1,2})\.file$/.exec(field) ?? [];
    if (name === '') continue;
    const kind = kindOf(keeping(), folder, bytes);
    if (kind === 'jpeg' || kind === 'png' || kind === 'webp')
      add(name, { ...holdPicture(disk, folder, form, bytes), bytes: bytes.length });
    else troubles.set(field, words.say(kind === 'heic' ? 'form.trouble.heic' : 'form.trouble.not-a-picture'));
  }
  for (const field of tooLarge) troubles.set(field, words.say('form.trouble.picture-large', megabytes));
  return { held, troubles };
}
