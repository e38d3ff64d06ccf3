import type { z } from 'zod';
import type { CaseFiles } from '../casefile/source-text.js';
import { stepsInText } from '../keep/step.js';
import { frontMatterOf, nodeAt } from '../keep/text/front-matter.js';
import type { RecordPath } from '../problem/problem.js';
import type { Step } from '../record/record-step.js';
import { WrongUse } from '../run/exit-code.js';
import { asIf } from '../casefile/as-if.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { archiveText } from '../reference/study-results.js';
import { terminal } from '../problem/message.js';

/**
 * A case file with other values under some of its keys, every other byte the same, for `keep/as-if`. Keys that it does
 * not have are passed over; nothing where it has none of them.
 *
 * Error: `WrongUse` for a value that cannot be replaced without losing what somebody wrote beside it
 */
export function withValues(
  files: CaseFiles,
  path: string,
  values: readonly { readonly at: RecordPath; readonly value: string }[],
  schema: z.ZodType,
): { path: string; after: Uint8Array }[] {
  if (files.look(path)?.kind !== 'file') return [];
  const whole = new TextDecoder('utf-8', { ignoreBOM: true }).decode(files.read(path));
  const mark = whole.startsWith('\ufeff') ? '\ufeff' : '';
  const text = whole.slice(mark.length);
  const front = frontMatterOf(text);
  if (!front) return [];
  const steps = values
    .filter(({ at }) => nodeAt(front, at) !== undefined)
    .map(({ at, value }): Step => ({ put: 'value', path: at, value }));
  if (steps.length === 0) return [];
  const changed = stepsInText(text, steps, schema);
  if (!changed) throw new WrongUse(terminal('archive.remark-within', { path }));
  return [{ path, after: Buffer.from(mark + changed.text, 'utf8') }];
}

/** Case files as they lie, but for the mail addresses, telephone numbers and postal addresses under their keys. */
export function withoutContacts(files: CaseFiles, cases: string, farms: readonly string[]): CaseFiles {
  const { contacts, 'left-out': value } = archiveText;
  const blank = (keys: readonly (readonly string[])[]) => keys.map((at) => ({ at, value }));
  return asIf(files, [
    ...withValues(files, `${cases}/business.md`, blank(contacts.business), business),
    ...farms.flatMap((slug) => withValues(files, `${cases}/${slug}/farm.md`, blank(contacts.farm), farm)),
  ]);
}
