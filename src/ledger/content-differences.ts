import type { RecordPath } from '../problem/problem.js';
import { sameContent } from './same-content.js';

/** One place where two contents differ; undefined where nothing stands there. */
export interface ContentDifference {
  readonly path: RecordPath;
  readonly before: unknown;
  readonly now: unknown;
}

/** Where two contents differ, as deep as both go, in the order of their keys. Their `amended` is passed over. */
export function contentDifferences(before: unknown, now: unknown): ContentDifference[] {
  return differences(before, now, []).filter(({ path }) => path[0] !== 'amended');
}

function differences(before: unknown, now: unknown, path: RecordPath): ContentDifference[] {
  if (sameContent(before, now)) return [];
  if (Array.isArray(before) && Array.isArray(now)) {
    if (![...before, ...now].every((one) => isGroup(one))) return [{ path, before, now }];
    const longest = Array.from({ length: Math.max(before.length, now.length) }, (_, at) => at);
    return longest.flatMap((at) => differences(before[at], now[at], [...path, at]));
  }
  if (!isGroup(before) || !isGroup(now)) return [{ path, before, now }];
  const keys = new Set([...Object.keys(before), ...Object.keys(now)]);
  return [...keys].toSorted().flatMap((key) => differences(before[key], now[key], [...path, key]));
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
