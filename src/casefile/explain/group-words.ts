import { z } from 'zod';
import type { RecordPath } from '../../problem/problem.js';
import { readShared } from '../../reference/read-shared.js';
import type { Wanted } from '../wanted.js';

/** Which of the three kinds of file. */
export type FileKind = 'animal' | 'farm' | 'business';

const shape = z.record(z.enum(['animal', 'farm', 'business']), z.record(z.string(), z.string()));
let read: Readonly<Record<FileKind, Readonly<Record<string, string>>>> | undefined;

/** What a group of keys is called, such as "a visit"; by its pattern, `[]` for a list's entry and `{}` for a named one. */
export function groupWords(kind: FileKind, pattern: string): string {
  read ??= readShared('case-places.json', shape);
  return read[kind][pattern] ?? `\`${pattern.replaceAll(/\/?(\[\]|\{\})/g, '').replaceAll('/', '.')}\``;
}

/** The pattern of the group a path leads to, following what is wanted there. */
export function patternOf(root: Wanted, path: RecordPath): string {
  const parts: string[] = [];
  let wanted: Wanted | undefined = root;
  for (const part of path) {
    if (wanted?.kind === 'either') {
      wanted = wanted.forms.find((form) =>
        typeof part === 'number' ? form.kind === 'list' : form.kind === 'group',
      );
    }
    if (wanted?.kind === 'list') parts.push('[]');
    else if (wanted?.kind === 'named') parts.push('{}');
    else parts.push(String(part));
    wanted = stepInto(wanted, part);
  }
  return parts.join('/').replace(/\/feet\/(LF|RF|LH|RH)$/, '/feet/*');
}

/** What is wanted one step further in. */
export function stepInto(wanted: Wanted | undefined, part: string | number): Wanted | undefined {
  switch (wanted?.kind) {
    case 'list':
    case 'named':
      return wanted.of;
    case 'group':
      return wanted.keys.get(String(part))?.wanted;
    case 'either':
      return wanted.forms.map((form) => stepInto(form, part)).find((form) => form !== undefined);
    default:
      return undefined;
  }
}

/** The groups of a kind of file that know a key, by pattern. */
export function groupsKnowing(key: string, root: Wanted): string[] {
  const found: string[] = [];
  const visit = (wanted: Wanted, pattern: readonly string[]): void => {
    if (wanted.kind === 'list') visit(wanted.of, [...pattern, '[]']);
    if (wanted.kind === 'named') visit(wanted.of, [...pattern, '{}']);
    if (wanted.kind === 'either') wanted.forms.forEach((form) => visit(form, pattern));
    if (wanted.kind !== 'group') return;
    if (wanted.keys.has(key)) found.push(pattern.join('/'));
    for (const [name, { wanted: inner }] of wanted.keys) {
      if (/^(LF|RF|LH|RH)$/.test(name) && name !== 'LF') continue;
      visit(inner, [...pattern, name === 'LF' ? '*' : name]);
    }
  };
  visit(root, []);
  return [...new Set(found)];
}
