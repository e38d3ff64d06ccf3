import { isDeepStrictEqual } from 'node:util';
import type { RecordPath } from '../problem/problem.js';
import type { Amendment } from '../record/amendment.js';
import type { Keeping, Worked } from './change.js';
import { cannot } from './change.js';
import type { KeptFile } from './kept-file.js';
import type { Step } from './step.js';
import { workOutSteps } from './work-out.js';

export interface Correction {
  readonly path: RecordPath;
  /** What it should be. */
  readonly value: unknown;
  /** What it is held to be now; where given, another value is not replaced. */
  readonly was?: unknown;
  /** When, by whom and why; written under `amended` of the visit. */
  readonly amendment: Amendment | undefined;
  /** The record is sealed: it may be corrected only in the open. */
  readonly sealed: boolean;
}

/**
 * A value of a record put right, or one that is missing put in; its place in the file stays.
 *
 * In a visit a reason given is always written, under `amended`; of a sealed record one has to be.
 *
 * Checked: tests/keep/correct-value.test.ts
 */
export function correctValue(
  kept: KeptFile,
  farms: readonly string[],
  { path, value, was, amendment, sealed }: Correction,
  keeping: Keeping,
): Worked {
  const name = nameOf(path);
  const visit = path[0] === 'visits' && typeof path[1] === 'number' ? path.slice(0, 2) : undefined;
  if (sealed && (!amendment || !visit))
    return cannot(
      visit
        ? `${name} is sealed, expected a reason with its correction: give \`--why\` and \`--by\``
        : `${name} is sealed, and only a visit can say why it was corrected; nothing was changed`,
    );
  if (amendment && !visit)
    return cannot(`${name} is not in a visit, and only a visit keeps a reason; leave \`--why\` out`);
  const now = valueAt(kept.record, path);
  if (was !== undefined && !isDeepStrictEqual(now, was))
    return cannot(
      `${name} is ${shown(now)} in ${kept.file}, expected ${shown(was)} as said; nothing was changed`,
    );
  if (isDeepStrictEqual(now, value)) return cannot(`${name} is ${shown(now)} in ${kept.file} already`);
  if (valueAt(kept.record, path.slice(0, -1)) === undefined)
    return cannot(
      `${nameOf(path.slice(0, -1))} is not written in ${kept.file}, expected something to put ${name} into`,
    );
  const steps: Step[] = [
    now === undefined
      ? { put: 'key', path: path.slice(0, -1), key: String(path.at(-1)), value }
      : { put: 'value', path, value },
  ];
  if (amendment && visit) {
    const amended = valueAt(kept.record, [...visit, 'amended']);
    const index = Array.isArray(amended) ? amended.length : 0;
    steps.push({ put: 'entry', path: [...visit, 'amended'], index, value: amendment });
  }
  return workOutSteps({ kept, steps }, { what: `${name}: ${shown(now)} → ${shown(value)}`, farms }, keeping);
}

/** Undefined where nothing is written. */
export function valueAt(record: unknown, path: RecordPath): unknown {
  return path.reduce<unknown>(
    (inner, part) =>
      typeof inner === 'object' && inner !== null && Object.hasOwn(inner, part)
        ? (inner as Record<string | number, unknown>)[part]
        : undefined,
    record,
  );
}

function nameOf(path: RecordPath): string {
  return path.length === 0
    ? 'the record'
    : path.map((part) => (typeof part === 'number' ? part + 1 : part)).join('.');
}

function shown(value: unknown): string {
  if (value === undefined) return 'not written';
  return typeof value === 'string' ? value : JSON.stringify(value);
}
