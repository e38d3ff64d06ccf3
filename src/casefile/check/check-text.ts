import { formFor, isGroup, type Wanted } from '../wanted.js';
import type { RecordPath } from '../../problem/problem.js';
import { hiddenSign } from '../../record/signs.js';
import { type Findings, warn } from './check-context.js';

/** What is looked for in text: an old file that holds it is read, and nothing that would bring it is written. */
export const neverWritten = ['record/hidden-sign', 'record/line-end-in-name'];

/**
 * Signs no text of a record may hold, and line ends in what is a name and so one line, one finding a text.
 *
 * Checked: tests/casefile/hidden-signs.test.ts
 */
export function* checkText(wanted: Wanted, value: unknown, path: RecordPath = []): Findings {
  if (typeof value === 'string') {
    const sign = hiddenSign(value);
    if (sign !== undefined) yield warn('hidden-sign', path, { sign });
    else if (wanted.kind === 'text' && /[\r\n]/.test(value)) yield warn('line-end-in-name', path);
  } else if (wanted.kind === 'either') {
    yield* checkText(formFor(wanted.forms, value), value, path);
  } else if (Array.isArray(value)) {
    if (wanted.kind !== 'list') return;
    for (const [at, one] of value.entries()) yield* checkText(wanted.of, one, [...path, at]);
  } else if (isGroup(value)) {
    for (const [key, one] of Object.entries(value)) {
      const of =
        wanted.kind === 'group'
          ? wanted.keys.get(key)?.wanted
          : wanted.kind === 'named'
            ? wanted.of
            : undefined;
      if (of) yield* checkText(of, one, [...path, key]);
    }
  }
}
