import type { z } from 'zod';
import { stepInto } from '../casefile/explain/group-words.js';
import type { Wanted } from '../casefile/wanted.js';
import { wantedBy } from '../casefile/wanted.js';
import type { Step } from '../record/record-step.js';
import { frontMatterOf } from './text/front-matter.js';
import { putEntry } from './text/put-entry.js';
import { putKey } from './text/put-key.js';
import { putValue } from './text/put-value.js';
import type { Splice } from './text/splice.js';
import { spliced } from './text/splice.js';

/** The text with the steps taken, one after another, and what was cut and put in; undefined where one cannot be taken. */
export function stepsInText(
  text: string,
  steps: readonly Step[],
  schema: z.ZodType,
): { readonly text: string; readonly splices: readonly Splice[] } | undefined {
  const splices: Splice[] = [];
  let now = text;
  for (const step of steps) {
    const splice = spliceOf(now, step, wantedBy(schema));
    if (!splice) return undefined;
    splices.push(splice);
    now = spliced(now, splice);
  }
  return { text: now, splices };
}

function spliceOf(text: string, step: Step, root: Wanted): Splice | undefined {
  const front = frontMatterOf(text);
  const wanted = step.path.reduce<Wanted | undefined>(stepInto, root);
  if (!front) return undefined;
  switch (step.put) {
    case 'value':
      return putValue(front, step.path, step.value, wanted);
    case 'key':
      return putKey(front, step.path, step.key, step.value, {
        group: wanted,
        value: stepInto(wanted, step.key),
      });
    case 'entry': {
      const written = putEntry(front, step.path, step.index, step.value, stepInto(wanted, 0));
      if (written) return written;
      const group = step.path.slice(0, -1);
      return putKey(front, group, String(step.path.at(-1)), [step.value], {
        group: group.reduce<Wanted | undefined>(stepInto, root),
        value: wanted,
      });
    }
  }
}
