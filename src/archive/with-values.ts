import type { z } from 'zod';
import type { CaseFiles } from '../casefile/case-files.js';
import { stepsInText } from '../keep/step.js';
import { frontMatterOf, nodeAt } from '../keep/text/front-matter.js';
import type { RecordPath } from '../problem/problem.js';
import type { Step } from '../record/record-step.js';
import { WrongUse } from '../run/exit-code.js';

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
  if (!changed)
    throw new WrongUse(
      `${path}: a remark (#) stands within a value that the archive is to leave out; move it to a line of its own`,
    );
  return [{ path, after: Buffer.from(mark + changed.text, 'utf8') }];
}
