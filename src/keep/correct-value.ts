import { isDeepStrictEqual } from 'node:util';
import type { RecordPath } from '../problem/problem.js';
import type { Amendment } from '../record/measures.js';
import { type Cannot, type Keeping, type Worked, cannot } from './change.js';
import type { KeptFile } from './kept-file.js';
import { given } from '../record/given.js';
import { stepsInRecord, type Step } from '../record/record-step.js';
import { changeIn } from './work-out.js';
import { inRow, terminal } from '../problem/message.js';

export interface CorrectionAsked {
  readonly path: RecordPath;
  /** What it should be; undefined: it is taken out. */
  readonly value: unknown;
  /** What it is held to be now; where given, another value is not replaced. */
  readonly was?: unknown;
}

/**
 * Values of a record put right, put in where they are missing, or taken out where they should not be; their places in
 * the file stay. Several are one change: what is wrong halfway does not matter.
 *
 * A reason given, with its day and by whom, is always written, under `amended` beside what it is the reason for; of a
 * sealed record one has to be. Of a whole record taken out, such as a visit, it is in the ledger alone.
 *
 * Checked: tests/keep/correct-value.test.ts
 */
export function correctValues(
  kept: KeptFile,
  farms: readonly string[],
  asked: readonly CorrectionAsked[],
  amendment: Amendment | undefined,
  keeping: Keeping,
): Worked {
  const steps: Step[] = [];
  const records = new Map<string, RecordPath>();
  const now = (): unknown => stepsInRecord(kept.record, steps);
  for (const one of inOrder(asked)) {
    const { path } = one;
    const trouble = troubleOf(kept, one, amendment);
    if (trouble) return trouble;
    const record = one.value === undefined && isOfItsOwn(path) ? undefined : amendable(kept, path);
    if (record) records.set(record.join(), record);
    // What a record owns of its corrections stays with it.
    const amended = path.length === record?.length ? valueAt(kept.record, [...path, 'amended']) : undefined;
    const value = amended === undefined ? one.value : { ...(one.value as object), amended };
    const more = value === undefined ? takenOut(now(), path) : putAt(now(), path, value);
    if (more.length === 0) return cannot('keep.correct.no-place', { file: kept.file, name: nameOf(path) });
    for (const step of more) steps.push(step);
  }
  if (amendment) for (const record of records.values()) steps.push(amending(now(), record, amendment));
  const said = asked.map(({ path, value }) => {
    const [name, was] = [nameOf(path), valueAt(kept.record, path)];
    return value === undefined && typeof was === 'object'
      ? terminal('keep.what.taken-out', { name: 'date' in was! ? `${name} (${String(was.date)})` : name })
      : terminal('keep.what.correction', { name, was: shown(was), value: shown(value) });
  });
  const worked = changeIn({ outcome: 'open', kept }, farms, keeping, () => ({
    what: inRow('comma', said),
    steps,
    ...given({ withdraws: amendment && { by: amendment.by, why: amendment.why } }),
  }));
  return sealedOr(worked, nameOf(asked[0]!.path), amendment);
}

/** What is taken out last, and of a list the last entry first, so that each path leads where it did. */
function inOrder(asked: readonly CorrectionAsked[]): CorrectionAsked[] {
  const out = asked.filter(({ value }) => value === undefined);
  const place = ({ path }: CorrectionAsked): number => path.findLast((part) => typeof part === 'number') ?? 0;
  return [
    ...asked.filter(({ value }) => value !== undefined),
    ...out.toSorted((a, b) => b.path.length - a.path.length || place(b) - place(a)),
  ];
}

function troubleOf(
  kept: KeptFile,
  { path, value, was }: CorrectionAsked,
  amendment: Amendment | undefined,
): Cannot | undefined {
  const [name, file] = [nameOf(path), kept.file];
  const now = valueAt(kept.record, path);
  const found = shown(now);
  if (path.includes('casefile')) return cannot('keep.correct.casefile', { name });
  if (path.includes('amended')) return cannot('keep.correct.amended', { name });
  if (path.length === 1 && ofTheirOwn.includes(name)) return cannot('keep.correct.several', { name });
  if (amendment && !amendable(kept, path) && !isOfItsOwn(path))
    return cannot('keep.correct.not-sealed', { name });
  if (was !== undefined && !isDeepStrictEqual(now, was))
    return cannot('keep.correct.otherwise', { name, found, file, expected: shown(was) });
  return isDeepStrictEqual(now, value) ? cannot('keep.correct.already', { name, found, file }) : undefined;
}

/** Where only a seal is in the way of a change, a reason is needed. */
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
 * behind the one value that is where several may. None where it has no place.
 */
function putAt(record: unknown, path: RecordPath, value: unknown): Step[] {
  if (valueAt(record, path) !== undefined) return [{ put: 'value', path, value }];
  const written = path.findIndex((_, at) => valueAt(record, path.slice(0, at + 1)) === undefined);
  const above = path.slice(0, written);
  const key = path[written]!;
  const rest = path.slice(written + 1);
  if (rest.some((part) => typeof part === 'number' && part > 0)) return [];
  const inner = rest.reduceRight((of, part) => (typeof part === 'number' ? [of] : { [part]: of }), value);
  const beside = valueAt(record, above);
  if (Array.isArray(beside))
    return key === beside.length ? [{ put: 'entry', path: above, index: key, value: inner }] : [];
  if (typeof key === 'number') {
    if (key !== 1 || above.length !== 1 || rest.length > 0) return [];
    const first = above[0] === 'gait-scale' ? { scale: beside } : beside;
    return [{ put: 'value', path: above, value: [first, inner] }];
  }
  return typeof beside === 'object' ? [{ put: 'key', path: above, key, value: inner }] : [];
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
function amendable({ kind }: KeptFile, path: RecordPath): RecordPath | undefined {
  const first = String(path[0]);
  if (ofTheirOwn.includes(first)) return path.length === 2 ? path : path.slice(0, 2);
  if (first === 'plan') return ['plan'];
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
