import * as fc from 'fast-check';
import { parse } from 'yaml';
import { expect, test } from 'vitest';
import { stepsInText } from '../../src/keep/step.js';
import type { RecordPath } from '../../src/problem/problem.js';
import { animal } from '../../src/record/animal.js';
import { anyCase, keptTexts } from './any-case.js';
import { difference } from './difference.js';

/** What YAML makes of the front matter, by the library alone. */
function yamlOf(text: string): unknown {
  return parse(text.replaceAll('\r\n', '\n').split(/^---$/m)[1]!);
}

/** Every key and entry that does not stand alone in its group or list. */
function pathsIn(value: unknown, path: RecordPath = []): RecordPath[] {
  if (typeof value !== 'object' || value === null) return [];
  const inner = Object.entries(value).map(
    ([key, one]) => [Array.isArray(value) ? Number(key) : key, one] as const,
  );
  return inner.flatMap(([key, one]) => {
    const at = [...path, key];
    return [...(inner.length > 1 ? [at] : []), ...pathsIn(one, at)];
  });
}

function without(value: unknown, [first, ...rest]: RecordPath): unknown {
  if (Array.isArray(value))
    return rest.length === 0
      ? value.toSpliced(Number(first), 1)
      : value.with(Number(first), without(value[Number(first)], rest));
  const { [String(first)]: taken, ...others } = value as Record<string, unknown>;
  return rest.length === 0 ? others : { ...(value as object), [String(first)]: without(taken, rest) };
}

test('anything taken out of any file in any style: the rest reads as it did and not another byte moves, or a comment is kept', () => {
  const seen = { out: 0, comment: 0 };
  const texts = fc.oneof(
    anyCase.map(({ text }) => text.replace('\ufeff', '')),
    fc.constantFrom(...keptTexts),
  );
  fc.assert(
    fc.property(texts, fc.nat(), (text, pick) => {
      const record = yamlOf(text);
      const paths = pathsIn(record);
      const path = paths[pick % paths.length]!;
      const after = stepsInText(text, [{ put: 'nothing', path }], animal);
      if (after === undefined) {
        expect(text).toContain('#');
        seen.comment += 1;
        return;
      }
      seen.out += 1;
      expect(yamlOf(after), `${path.join('.')}\n${text}\n=>\n${after}`).toEqual(without(record, path));
      expect(difference(text, after).put).toBe('');
      const comments = (of: string): number => of.match(/# (?:said on the farm|- date: 2020)/g)?.length ?? 0;
      expect(comments(after), after).toBe(comments(text));
    }),
    { numRuns: 600, seed: 20261130 },
  );
  expect(seen.out).toBeGreaterThan(300);
  expect(seen.comment).toBeGreaterThan(20);
}, 60_000);
