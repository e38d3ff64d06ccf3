import { isDeepStrictEqual } from 'node:util';
import type { z } from 'zod';
import { asWanted } from '../casefile/as-wanted.js';
import { parseYaml } from '../casefile/parse-yaml.js';
import { readCaseFile } from '../casefile/read-case-file.js';
import { sourceText } from '../casefile/source-text.js';
import { splitFrontMatter } from '../casefile/split-front-matter.js';
import type { Trouble } from '../casefile/trouble.js';
import { toNewest } from '../casefile/upgrade/to-newest.js';
import type { UpgradeStep } from '../casefile/upgrade/upgrade-step.js';
import { wantedBy } from '../casefile/wanted.js';
import { stepsInText } from './step.js';

/** The newest format: its schema, and the steps that lead to it. */
export interface NewestFormat {
  readonly schema: z.ZodType;
  readonly known: readonly UpgradeStep[];
}

export type UpgradedText =
  | { readonly outcome: 'newest' }
  | {
      readonly outcome: 'upgraded';
      readonly text: string;
      readonly from: number;
      readonly says: readonly string[];
    }
  | { readonly outcome: 'refused'; readonly troubles: readonly Trouble[] }
  /** It is written in a way that cannot be changed piece by piece. */
  | { readonly outcome: 'by-hand' };

/**
 * A case file's text in the newest format: the steps taken in it, every other byte as it was.
 *
 * Held: the new text is of the newest format, and reads as the old one was read, since a reader takes the same steps.
 *
 * Checked: tests/keep/upgrade.test.ts
 */
export function upgradedText(text: string, { schema, known }: NewestFormat): UpgradedText {
  const source = sourceText(text);
  const before = readCaseFile(source, schema, 'animal', known);
  if (before.outcome === 'troubles') return { outcome: 'refused', troubles: before.troubles };
  const way = toNewest(wantedBy(schema), recordWritten(text, schema), known);
  if (way.outcome !== 'older') return { outcome: 'newest' };
  const after = stepsInText(text, way.steps, schema)?.text;
  if (after === undefined) return { outcome: 'by-hand' };
  const read = readCaseFile(sourceText(after), schema, 'animal', known);
  const same =
    read.outcome === 'record' &&
    isDeepStrictEqual(read.record, before.record) &&
    read.narrative === before.narrative &&
    toNewest(wantedBy(schema), recordWritten(after, schema), known).outcome === 'newest';
  return same ? { outcome: 'upgraded', text: after, from: way.from, says: way.says } : { outcome: 'by-hand' };
}

/** What the front matter holds, of whatever version, before any step and any check. */
function recordWritten(text: string, schema: z.ZodType): unknown {
  const split = splitFrontMatter(sourceText(text));
  const parsed = split.outcome === 'split' ? parseYaml(split.yaml) : undefined;
  return parsed?.outcome === 'value' ? asWanted(wantedBy(schema), parsed.value) : {};
}
