import type { z } from 'zod';
import type { FileKind } from '../casefile/explain/explain-key.js';
import type { CaseFiles } from '../casefile/source-text.js';
import { valueAt } from '../keep/correct-value.js';
import { openKept } from '../keep/kept-file.js';
import { stepsInText } from '../keep/step.js';
import type { RecordPath } from '../problem/problem.js';
import { WrongUse } from '../run/exit-code.js';
import { asIf, type Laid } from '../casefile/as-if.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { archiveText } from '../reference/study-results.js';
import { terminal } from '../problem/message.js';

/**
 * A case file with another value under some of its keys, every other byte the same, for `casefile/as-if`. Keys that it does
 * not have are passed over; nothing where it has none of them.
 *
 * Error: `WrongUse` for a value that cannot be replaced without losing what somebody wrote beside it
 */
export function withValue(
  files: CaseFiles,
  path: string,
  value: string,
  keys: readonly RecordPath[],
  [kind, schema]: readonly [FileKind, z.ZodType],
): Laid[] {
  const opened = files.look(path) && openKept(files, { path, shown: path }, schema, kind);
  if (opened?.outcome !== 'open') return [];
  const { kept } = opened;
  const steps = keys
    .filter((key) => valueAt(kept.record, key) !== undefined)
    .map((key) => ({ put: 'value', path: key, value }) as const);
  if (steps.length === 0) return [];
  const changed = stepsInText(kept.text, steps, schema);
  if (changed === undefined) throw new WrongUse(terminal('archive.remark-within', { path }));
  return [{ path, after: Buffer.from(kept.mark + changed, 'utf8') }];
}

/** Case files as they lie, but for the mail addresses, telephone numbers and postal addresses under their keys. */
export function withoutContacts(files: CaseFiles, cases: string, farms: readonly string[]): CaseFiles {
  const { contacts, 'left-out': value } = archiveText;
  return asIf(files, [
    ...withValue(files, `${cases}/business.md`, value, contacts.business, ['business', business]),
    ...farms.flatMap((slug) =>
      withValue(files, `${cases}/${slug}/farm.md`, value, contacts.farm, ['farm', farm]),
    ),
  ]);
}
