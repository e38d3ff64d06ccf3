import type { z } from 'zod';
import type { RecordPath } from '../../problem/problem.js';
import { isGroup } from '../as-wanted.js';
import { isReserved } from '../reserved-keys.js';
import type { Stretch } from '../yaml-places.js';
import type { YamlPlaces } from '../yaml-places.js';
import type { Wanted } from '../wanted.js';
import { explainBadName, explainMissingKey, explainUnknownKey } from './explain-key.js';
import { explainValue } from './explain-value.js';
import { stepInto } from './group-words.js';
import type { FileKind } from './group-words.js';
import { nameOfPath } from './name-of-path.js';
import { declaredIn, explainNotIndented, notIndented } from './not-indented.js';
import type { NotIndented } from './not-indented.js';
import { mustStand } from './not-known.js';
import type { Said } from './said.js';
import {
  decimalCommaInBraces,
  gluedHyphenIn,
  ranIntoNextLine,
  swallowedByComment,
} from './slips-in-place.js';

type Issue = z.core.$ZodIssue;

/** More unknown keys than this in one place are not told one by one: it is another kind of file. */
const mostKeys = 50;

/** A refused file: its kind, what it may hold, what it holds, its front matter and the way to places in it. */
export interface Refused {
  readonly kind: FileKind;
  readonly root: Wanted;
  readonly value: unknown;
  readonly yaml: string;
  readonly places: YamlPlaces;
}

export interface Explained extends Said {
  readonly stretch: Stretch;
}

/** Turns the schema's issues into troubles in the words of the trade, one a place. */
export function explainIssues(issues: readonly Issue[], refused: Refused): Explained[] {
  const all = issues.flatMap((issue) => explainIssue(issue, [], refused));
  const seen = new Set<string>();
  return all.filter(({ id, message, stretch }) => {
    const mark = `${id} ${stretch.start} ${message}`;
    return seen.has(mark) ? false : Boolean(seen.add(mark));
  });
}

function explainIssue(issue: Issue, above: RecordPath, refused: Refused): Explained[] {
  const path = [...above, ...issue.path.map((part) => (typeof part === 'number' ? part : String(part)))];
  if (issue.code === 'unrecognized_keys') {
    const astray = astrayAt(path, refused);
    const told = new Set(astray.flatMap(({ keys }) => keys));
    const unknown = issue.keys.filter((key) => !isReserved(key) && !told.has(key)).slice(0, mostKeys);
    return [
      ...astray.map((each) => besideIts(each, path, refused)),
      ...unknown.map((key) => unknownKey(key, path, refused)),
    ];
  }
  if (issue.code === 'invalid_key') return isReserved(String(path.at(-1))) ? [] : [badName(path, refused)];
  const inner =
    issue.code === 'invalid_union' ? issue.errors.find((form) => !form.some(isAboutTheWhole)) : undefined;
  if (inner) return inner.flatMap((innerIssue) => explainIssue(innerIssue, path, refused));
  const holder = astrayAt(path.slice(0, -1), refused).some((each) => each.holder === path.at(-1));
  return holder ? [] : [badValue(path, refused)];
}

/** Keys of the group at a path that belong under an empty key beside them. */
function astrayAt(path: RecordPath, refused: Refused): NotIndented[] {
  return notIndented(at(refused.value, path), wantedAt(refused.root, path), declaredIn(refused.value));
}

function besideIts(astray: NotIndented, path: RecordPath, refused: Refused): Explained {
  const stretch = refused.places.key([...path, astray.keys[0] ?? '']);
  return { ...explainNotIndented(astray, declaredIn(refused.value)), stretch };
}

function isAboutTheWhole(issue: Issue): boolean {
  return issue.path.length === 0 && issue.code !== 'unrecognized_keys';
}

function unknownKey(key: string, path: RecordPath, refused: Refused): Explained {
  const stretch = refused.places.key([...path, key]);
  const value = at(refused.value, [...path, key]);
  const comma = value === null ? decimalCommaInBraces(refused.yaml, stretch) : undefined;
  if (comma) return comma;
  const wanted = wantedAt(refused.root, path);
  const group = at(refused.value, path);
  const present = isGroup(group) ? Object.keys(group) : [];
  const keys = wanted?.kind === 'group' ? [...wanted.keys.keys()] : [];
  return { ...explainUnknownKey(key, value, { ...refused, path, keys, present }), stretch };
}

function badName(path: RecordPath, refused: Refused): Explained {
  const wanted = wantedAt(refused.root, path.slice(0, -1));
  const names = wanted?.kind === 'named' ? wanted.names : 'short-name';
  const key = String(path.at(-1));
  const stretch = refused.places.key(path);
  const comma = at(refused.value, path) === null ? decimalCommaInBraces(refused.yaml, stretch) : undefined;
  return comma ?? { ...explainBadName(key, names), stretch };
}

function badValue(path: RecordPath, refused: Refused): Explained {
  const parent = at(refused.value, path.slice(0, -1));
  const key = path.at(-1);
  if (typeof key === 'string' && isGroup(parent) && !Object.hasOwn(parent, key)) {
    const above = path.slice(0, -1);
    const missing = explainMissingKey(key, wantedAt(refused.root, path), { ...refused, path: above });
    return { ...missing, stretch: refused.places.key(above) };
  }
  const value = at(refused.value, path);
  const stretch = refused.places.value(path);
  const ranOn = ranIntoNextLine(refused.yaml, stretch);
  if (ranOn) return ranOn;
  const swallowed = value === null ? swallowedByComment(refused.yaml, refused.places.key(path)) : undefined;
  if (swallowed) return swallowed;
  const wanted = wantedAt(refused.root, path) ?? { kind: 'text' };
  const glued = wanted.kind === 'list' ? gluedHyphenIn(value) : undefined;
  if (glued)
    return {
      ...glued.said,
      stretch: glued.key === undefined ? stretch : refused.places.key([...path, glued.key]),
    };
  const said = explainValue(nameOfPath(path) || 'the front matter', wanted, value);
  const around = wantedAt(refused.root, path.slice(0, -1));
  const required = around?.kind === 'group' && around.keys.get(String(key))?.required === true;
  return { ...mustStand(said, { required, entry: typeof key === 'number' }), stretch };
}

function wantedAt(root: Wanted, path: RecordPath): Wanted | undefined {
  let wanted: Wanted | undefined = root;
  for (const part of path) wanted = stepInto(wanted, part);
  if (wanted?.kind === 'either') return wanted.forms.find((form) => form.kind === 'group') ?? wanted;
  return wanted;
}

/** What a path holds, own keys only. */
function at(value: unknown, path: RecordPath): unknown {
  let inner = value;
  for (const part of path) {
    if (typeof inner !== 'object' || inner === null || !Object.hasOwn(inner, part)) return undefined;
    inner = (inner as Record<string | number, unknown>)[part];
  }
  return inner;
}
