import { isDeepStrictEqual } from 'node:util';
import type { RecordPath } from '../problem/problem.js';
import type { Amendment } from '../record/measures.js';
import { type Keeping, type Worked, cannot } from './change.js';
import type { KeptFile } from './kept-file.js';
import type { Step } from '../record/record-step.js';
import { workOutSteps } from './work-out.js';
import { terminal } from '../problem/message.js';

export interface CorrectionAsked {
  readonly path: RecordPath;
  /** What it should be. */
  readonly value: unknown;
  /** What it is held to be now; where given, another value is not replaced. */
  readonly was?: unknown;
  /** When, by whom and why; written under `amended` of the record it is in. */
  readonly amendment: Amendment | undefined;
}

/**
 * A value of a record put right, or one that is missing put in; its place in the file stays.
 *
 * A reason given is always written, under `amended` beside what it is the reason for; of a sealed record one has to be.
 *
 * Checked: tests/keep/correct-value.test.ts
 */
export function correctValue(
  kept: KeptFile,
  farms: readonly string[],
  { path, value, was, amendment }: CorrectionAsked,
  keeping: Keeping,
): Worked {
  const name = nameOf(path);
  const record = amendable(kept, path);
  if (amendment && !record) return cannot('keep.correct.not-sealed', { name });
  const now = valueAt(kept.record, path);
  if (was !== undefined && !isDeepStrictEqual(now, was))
    return cannot('keep.correct.otherwise', {
      name,
      found: shown(now),
      file: kept.file,
      expected: shown(was),
    });
  if (isDeepStrictEqual(now, value))
    return cannot('keep.correct.already', { name, found: shown(now), file: kept.file });
  if (valueAt(kept.record, path.slice(0, -1)) === undefined)
    return cannot('keep.correct.nothing-above', { above: nameOf(path.slice(0, -1)), file: kept.file, name });
  const steps: Step[] = [
    now === undefined
      ? { put: 'key', path: path.slice(0, -1), key: String(path.at(-1)), value }
      : { put: 'value', path, value },
  ];
  if (amendment && record) {
    const amended = valueAt(kept.record, [...record, 'amended']);
    const index = Array.isArray(amended) ? amended.length : 0;
    steps.push({ put: 'entry', path: [...record, 'amended'], index, value: amendment });
  }
  const worked = workOutSteps(
    { kept, steps },
    { what: terminal('keep.what.correction', { name, was: shown(now), value: shown(value) }), farms },
    keeping,
  );
  const sealed =
    worked.outcome === 'refused' &&
    !worked.asked &&
    worked.problems.every(({ id, severity }) => severity !== 'error' || id === 'seal/differs');
  return sealed && !amendment ? cannot('keep.correct.sealed', { name }) : worked;
}

/** Lists and groups whose entries are sealed and corrected each for itself. */
const ofTheirOwn = ['visits', 'lesions', 'marks', 'episodes', 'gait-rounds', 'footbath'];

/** What is written anew as things change, and is not sealed. */
const unsealed = ['casefile', 'handling', 'due-to-calve'];

/** The record a value is in, where that keeps corrections. */
function amendable({ kind }: KeptFile, path: RecordPath): RecordPath | undefined {
  const first = String(path[0]);
  if (ofTheirOwn.includes(first)) return path.length > 2 ? path.slice(0, 2) : undefined;
  if (first === 'plan') return path.length > 1 ? ['plan'] : undefined;
  if (kind === 'animal') return unsealed.includes(first) ? undefined : [];
  return kind === 'farm' && first.endsWith('-scale') ? [] : undefined;
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
    ? terminal('keep.correct.record')
    : path.map((part) => (typeof part === 'number' ? part + 1 : part)).join('.');
}

function shown(value: unknown): string {
  if (value === undefined) return terminal('keep.correct.not-written');
  return typeof value === 'string' ? value : JSON.stringify(value);
}
