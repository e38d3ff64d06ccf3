import type { RecordPath } from '../problem/problem.js';

/** One small change to a record, and so to its file. A path in the record is a path in the file. */
export type Step =
  /** Into a list, before the entry at `index`, or last; the list is begun where it is not written yet. */
  | { readonly put: 'entry'; readonly path: RecordPath; readonly index: number; readonly value: unknown }
  /** A key that is not written yet, into a group. */
  | { readonly put: 'key'; readonly path: RecordPath; readonly key: string; readonly value: unknown }
  /** In the place of a value that is written. */
  | { readonly put: 'value'; readonly path: RecordPath; readonly value: unknown }
  /** A key with its value, or an entry of a list, taken out. */
  | { readonly put: 'nothing'; readonly path: RecordPath };

/** The record with the steps taken: what the new text has to be read as. The record given is not touched. */
export function stepsInRecord<T>(record: T, steps: readonly Step[]): T {
  const changed = structuredClone(record);
  for (const step of structuredClone(steps)) {
    if (step.put === 'key') {
      at(changed, step.path)[step.key] = step.value;
      continue;
    }
    const parent = at(changed, step.path.slice(0, -1));
    const last = String(step.path.at(-1));
    if (step.put === 'entry') {
      const list = Array.isArray(parent[last]) ? parent[last] : [];
      parent[last] = list.toSpliced(step.index, 0, step.value);
    } else if (step.put === 'value') parent[last] = step.value;
    else if (Array.isArray(parent)) parent.splice(Number(last), 1);
    else delete parent[last];
  }
  return changed;
}

/** Lists are reached by their index as text. */
function at(record: unknown, path: RecordPath): Record<string, unknown> {
  return path.reduce<unknown>(
    (inner, part) => (inner as Record<string, unknown>)[String(part)],
    record,
  ) as Record<string, unknown>;
}
