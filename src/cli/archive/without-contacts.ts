import type { z } from 'zod';
import type { CaseFiles } from '../../casefile/case-files.js';
import { asIf } from '../../keep/as-if.js';
import { stepsInText } from '../../keep/step.js';
import type { Step } from '../../record/record-step.js';
import { frontMatterOf, nodeAt } from '../../keep/text/front-matter.js';
import { business } from '../../record/business.js';
import { farm } from '../../record/farm.js';
import { archiveText } from '../../reference/archive-text.js';
import { WrongUse } from '../exit-code.js';

/**
 * Case files as they lie, but for the mail addresses, telephone numbers and postal addresses under their keys: other
 * words stand in their place, every other byte is the same.
 *
 * Error: `WrongUse` for a value that cannot be replaced without losing what somebody wrote beside it
 */
export function withoutContacts(files: CaseFiles, cases: string, farms: readonly string[]): CaseFiles {
  const { contacts } = archiveText;
  return asIf(files, [
    ...blanked(files, `${cases}/business.md`, contacts.business, business),
    ...farms.flatMap((slug) => blanked(files, `${cases}/${slug}/farm.md`, contacts.farm, farm)),
  ]);
}

function blanked(
  files: CaseFiles,
  path: string,
  keys: readonly (readonly string[])[],
  schema: z.ZodType,
): { path: string; after: Uint8Array }[] {
  if (files.look(path)?.kind !== 'file') return [];
  const whole = new TextDecoder('utf-8', { ignoreBOM: true }).decode(files.read(path));
  const mark = whole.startsWith('\ufeff') ? '\ufeff' : '';
  const text = whole.slice(mark.length);
  const front = frontMatterOf(text);
  if (!front) return [];
  const steps = keys
    .filter((key) => nodeAt(front, key) !== undefined)
    .map((key): Step => ({ put: 'value', path: key, value: archiveText['left-out'] }));
  const changed = stepsInText(text, steps, schema);
  if (!changed)
    throw new WrongUse(
      `${path}: a remark (#) stands within an address that --no-contacts is to leave out; move it to a line of its own`,
    );
  return [{ path, after: Buffer.from(mark + changed.text, 'utf8') }];
}
