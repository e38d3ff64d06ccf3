import { decodedText } from '../casefile/read-text.js';
import { problemOf } from '../casefile/finding.js';
import { upgradeSteps, toNewest, type UpgradeStep } from '../casefile/upgrade/to-newest.js';
import type { Finding, InText, Problem } from '../problem/problem.js';
import { sortProblems } from '../problem/format-problem.js';
import { animal } from '../record/animal.js';
import { cannot, type FileChange, type Keeping, type Not } from './change.js';
import { findFarm, findFolder, bytesOf } from './kept-file.js';
import { isDeepStrictEqual } from 'node:util';
import type { z } from 'zod';
import { asWanted, wantedBy } from '../casefile/wanted.js';
import { parseYaml } from '../casefile/parse-yaml.js';
import { readCaseFile } from '../casefile/read-case-file.js';
import { sourceText } from '../casefile/source-text.js';
import { splitFrontMatter } from '../casefile/split-front-matter.js';
import { stepsInText } from './step.js';
import { inRow } from '../problem/message.js';

/** What there is to upgrade, worked out and not written. */
export type Upgrades =
  | {
      readonly outcome: 'upgrades';
      /** Case files looked at, older and newest. */
      readonly files: number;
      readonly changes: readonly FileChange[];
      /** Slugs of the farms with an older file. */
      readonly farms: readonly string[];
      /** What becomes different, each said once. */
      readonly says: readonly string[];
    }
  | Not;

/**
 * Looks through the case files of all farms, or of one, for those of an older format.
 *
 * Only animals' files carry a version; `farm.md` and `business.md` are read as they always were.
 *
 * Error: one file with an error, or of a later format, stops it: all problems are reported, nothing is written
 */
export function upgradeCases(
  keeping: Keeping,
  only: string | undefined,
  format: NewestFormat = { schema: animal, known: upgradeSteps },
): Upgrades {
  const found = only === undefined ? findFolder(keeping) : findFarm(keeping, only);
  if (found.outcome !== 'found') return found;
  const farms = 'farms' in found ? found.farms : [found.farm];
  const changes: FileChange[] = [];
  const problems: Problem[] = [];
  const byHand: string[] = [];
  const touched = new Set<string>();
  const says = new Set<string>();
  const all = farms.flatMap(({ slug, animals }) => animals.map(({ entry }) => ({ ...entry, slug })));
  for (const { slug, path, shown: file } of all) {
    const before = bytesOf(keeping.files, path) ?? new Uint8Array();
    const text = decodedText(before);
    if (text.outcome === 'trouble') {
      problems.push(problemOf(text.trouble, file, text.source));
      continue;
    }
    const upgraded = upgradedText(text.source.text, format);
    if (upgraded.outcome === 'by-hand') byHand.push(file);
    if (upgraded.outcome === 'refused')
      for (const one of upgraded.troubles) problems.push(problemOf(one, file, text.source));
    if (upgraded.outcome !== 'upgraded') continue;
    touched.add(slug);
    for (const one of upgraded.says) says.add(one);
    const mark = before[0] === 0xef && before[1] === 0xbb && before[2] === 0xbf ? '\ufeff' : '';
    changes.push({ file, path, before, after: new TextEncoder().encode(mark + upgraded.text) });
  }
  if (problems.length > 0) return { outcome: 'refused', problems: sortProblems(problems) };
  if (byHand.length > 0) return cannot('keep.upgrade-by-hand', { files: inRow('comma', byHand) });
  return { outcome: 'upgrades', files: all.length, changes, farms: [...touched], says: [...says] };
}

/** The newest format: its schema, and the steps that lead to it. */
interface NewestFormat {
  readonly schema: z.ZodType;
  readonly known: readonly UpgradeStep[];
}

type UpgradedText =
  | { readonly outcome: 'newest' }
  | {
      readonly outcome: 'upgraded';
      readonly text: string;
      readonly from: number;
      readonly says: readonly string[];
    }
  | { readonly outcome: 'refused'; readonly troubles: readonly Finding<InText>[] }
  /** It is written in a way that cannot be changed piece by piece. */
  | { readonly outcome: 'by-hand' };

/**
 * A case file's text in the newest format: the steps taken in it, every other byte as it was.
 *
 * Held: the new text is of the newest format, and is read as the old one was read, since a reader takes the same steps.
 *
 * Checked: tests/keep/upgrade.test.ts
 */
export function upgradedText(text: string, { schema, known }: NewestFormat): UpgradedText {
  const source = sourceText(text);
  const before = readCaseFile(source, schema, 'animal', known);
  if (before.outcome === 'troubles') return { outcome: 'refused', troubles: before.troubles };
  const way = toNewest(wantedBy(schema), recordWritten(text, schema), known);
  if (way.outcome !== 'older') return { outcome: 'newest' };
  const after = stepsInText(text, way.steps, schema);
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
