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
  /** What it should be; undefined: it is taken out. */
  readonly value: unknown;
  /** What it is held to be now; where given, another value is not replaced. */
  readonly was?: unknown;
  /** When, by whom and why; written under `amended` of the record it is in. */
  readonly amendment: Amendment | undefined;
}

/**
 * A value of a record put right, one that is missing put in, or one that should not be there taken out; its place in
 * the file stays.
 *
 * A reason given is always written, under `amended` beside what it is the reason for; of a sealed record one has to be.
 * Of a whole record taken out, such as a visit, it stands in the ledger alone.
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
  const whole = value === undefined && isOfItsOwn(path);
  const record = whole ? undefined : amendable(kept, path);
  if (path.some((part) => part === 'amended' || part === 'casefile'))
    return cannot(`keep.correct.${path.includes('amended') ? 'amended' : 'casefile'}`, { name });
  if (amendment && !record && !whole) return cannot('keep.correct.not-sealed', { name });
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
  const steps = value === undefined ? takenOut(kept.record, path) : [putAt(kept.record, path, value)];
  const [first] = steps;
  if (!first)
    return cannot('keep.correct.nothing-above', { above: nameOf(path.slice(0, -1)), file: kept.file, name });
  if (amendment && record) steps.push(amending(kept.record, record, amendment));
  const what = terminal('keep.what.correction', { name, was: shown(now), value: shown(value) });
  const withdraws = whole && amendment ? { withdraws: { by: amendment.by, why: amendment.why } } : {};
  return sealedOr(
    workOutSteps({ kept, steps: steps as Step[] }, { what, farms, ...withdraws }, keeping),
    name,
    amendment,
  );
}

/** Where only a seal stands against a change, a reason is what it wants. */
export function sealedOr(worked: Worked, name: string, amendment: Amendment | undefined): Worked {
  const sealed =
    worked.outcome === 'refused' &&
    !worked.asked &&
    worked.problems.every(({ id, severity }) => severity !== 'error' || id.startsWith('seal/'));
  return sealed && !amendment ? cannot('keep.correct.sealed', { name }) : worked;
}

/** The entry that owns a correction, behind those a record has. */
export function amending(record: unknown, path: RecordPath, amendment: Amendment): Step {
  const amended = valueAt(record, [...path, 'amended']);
  const index = Array.isArray(amended) ? amended.length : 0;
  return { put: 'entry', path: [...path, 'amended'], index, value: amendment };
}

/**
 * A value put at a path: in place of what is written, else into the last group or list of the path that is written, or
 * behind the one value that stands where several may. Undefined where it has no place.
 */
function putAt(record: unknown, path: RecordPath, value: unknown): Step | undefined {
  if (valueAt(record, path) !== undefined) return { put: 'value', path, value };
  const written = path.findIndex((_, at) => valueAt(record, path.slice(0, at + 1)) === undefined);
  const above = path.slice(0, written);
  const key = path[written]!;
  const rest = path.slice(written + 1);
  if (rest.some((part) => typeof part === 'number' && part > 0)) return undefined;
  const inner = rest.reduceRight((of, part) => (typeof part === 'number' ? [of] : { [part]: of }), value);
  const beside = valueAt(record, above);
  if (Array.isArray(beside))
    return key === beside.length ? { put: 'entry', path: above, index: key, value: inner } : undefined;
  if (typeof key === 'number')
    return key === 1 && above.length === 1 && rest.length === 0
      ? { put: 'value', path: above, value: [above[0] === 'gait-scale' ? { scale: beside } : beside, inner] }
      : undefined;
  return typeof beside === 'object' ? { put: 'key', path: above, key, value: inner } : undefined;
}

/** Groups and lists a file has even where nothing is in them. */
const always = ['lesions', 'visits'];

/** A value taken out, and with the last of them the list or the group it stood in; none where nothing is written. */
export function takenOut(record: unknown, path: RecordPath): Step[] {
  if (valueAt(record, path) === undefined) return [];
  const parent = path.slice(0, -1);
  const beside = valueAt(record, parent) as object;
  if (parent.length === 0 || Object.keys(beside).length > 1) return [{ put: 'nothing', path }];
  return parent.length === 1 && always.includes(String(parent[0]))
    ? [{ put: 'value', path: parent, value: Array.isArray(beside) ? [] : {} }]
    : takenOut(record, parent);
}

/** Lists and groups whose entries are sealed and corrected each for itself. */
const ofTheirOwn = ['visits', 'lesions', 'marks', 'episodes', 'gait-rounds', 'footbath'];

/** What is written anew as things change, and is not sealed. */
const unsealed = ['casefile', 'handling', 'due-to-calve'];

function isOfItsOwn(path: RecordPath): boolean {
  return (path.length === 2 && ofTheirOwn.includes(String(path[0]))) || path.join() === 'plan';
}

/** The record a value is in, where that keeps corrections. */
export function amendable({ kind }: KeptFile, path: RecordPath): RecordPath | undefined {
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

export function nameOf(path: RecordPath): string {
  return path.length === 0
    ? terminal('keep.correct.record')
    : path.map((part) => (typeof part === 'number' ? part + 1 : part)).join('.');
}

function shown(value: unknown): string {
  if (value === undefined) return terminal('keep.correct.not-written');
  return typeof value === 'string' ? value : JSON.stringify(value);
}
