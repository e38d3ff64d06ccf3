import type { z } from 'zod';
import { given } from '../record/given.js';
import { messageOf } from '../problem/message.js';
import type { Finding, InText, Place, RecordPath } from '../problem/problem.js';
import { messageWords } from '../reference/words.js';
import { asWanted, isGroup, reservedKeys, keysOf, wantedBy, type Wanted } from './wanted.js';
import { explainIssues } from './explain/explain-issues.js';
import { newerFormat, commentInText } from './explain/explain-value.js';
import { type FileKind, stepInto } from './explain/explain-key.js';
import { type InYaml, inText, slip } from './finding.js';
import { parseYaml, yamlPlaces, type YamlStretch, type YamlPlaces, parseForPlaces } from './parse-yaml.js';
import { explainFailure } from './slips/explain-failure.js';
import type { SourceText } from './source-text.js';
import { splitFrontMatter } from './split-front-matter.js';
import { toNewest, type UpgradeStep, upgradeSteps } from './upgrade/to-newest.js';
import { isAlias, isMap, isScalar, isSeq, type Node, type Scalar } from 'yaml';

/** Signs of an anchor, an alias or a tag: `&`, `*` or `!` where a value may begin. */
const markSign = /(?:^|[\s,[{:])[&*!]/m;
const smartQuoteSign = /(?:[:,[{]|^[ \t]*-)[ \t]*[“”„‟‘‚‛’«»]/m;
const freeTextKey = /\b(?:note|handling|why|caption|reply)\b/;

/** Whether a `#` may swallow words: behind free text, glued to what follows it, or on a line without a key. */
function mayLoseText(yaml: string): boolean {
  if (!/[ \t]#/.test(yaml)) return false;
  return yaml.split('\n').some((line) => {
    const loses = /[ \t]#/.test(line) && !/^[ \t]*#/.test(line);
    return loses && (/[ \t]#[^\s#]/.test(line) || !line.includes(':') || freeTextKey.test(line));
  });
}

/**
 * Slips that the parser takes without a word: anchors, aliases and tags, curly quotes kept as part of the text, text
 * lost behind a `#`. A glance decides whether the slow second reading is needed at all.
 */
function hiddenSlips(yaml: string, wanted: Wanted): Finding<InYaml>[] {
  if (!markSign.test(yaml) && !smartQuoteSign.test(yaml) && !mayLoseText(yaml)) return [];
  const slips: Finding<InYaml>[] = [];
  look(parseForPlaces(yaml)?.contents, wanted, messageWords().say('place.text'), { yaml, slips });
  return slips;
}

interface Gathering {
  readonly yaml: string;
  readonly slips: Finding<InYaml>[];
}

function look(node: unknown, wanted: Wanted | undefined, name: string, gathering: Gathering): void {
  if (isAlias(node)) return mark(node, '*', gathering);
  if (!isMap(node) && !isSeq(node) && !isScalar(node)) return;
  if (node.anchor !== undefined) mark(node, '&', gathering);
  else if (node.tag !== undefined) mark(node, '!', gathering);
  if (isScalar(node)) return lookAtScalar(node, wanted, name, gathering);
  if (isSeq(node)) {
    node.items.forEach((item, index) => look(item, stepInto(wanted, index), name, gathering));
    return;
  }
  for (const { key, value } of node.items) {
    look(key, undefined, name, gathering);
    const text = isScalar(key) ? (key.source ?? String(key.value)) : '';
    look(value, stepInto(wanted, text), text, gathering);
  }
}

function lookAtScalar(
  { type, range }: Scalar,
  wanted: Wanted | undefined,
  name: string,
  { yaml, slips }: Gathering,
): void {
  if (type !== 'PLAIN' || !range || range[0] === range[1]) return;
  const [start, end] = range;
  const quote = yaml[start] ?? '';
  if ('“”„‟‘‚‛’«»'.includes(quote))
    slips.push(slip(messageOf('yaml/smart-quotes', { quote }), { start, end }));
  const [, blanks = '', comment] = /^([ \t]+)(#[^\r\n]*)/.exec(yaml.slice(end, end + 400)) ?? [];
  if (comment === undefined) return;
  if (wanted?.kind !== 'free-text' && (wanted?.kind !== 'text' || !/^#[^\s#]/.test(comment))) return;
  const from = end + blanks.length;
  slips.push(slip(commentInText(name, comment), { start: from, end: from + comment.length }));
}

/** The sign is at the node or, with an anchor or a tag, before it. */
function mark(node: Node, sign: '*' | '&' | '!', { yaml, slips }: Gathering): void {
  const at = node.range?.[0] ?? 0;
  let start = sign === '*' ? at : Math.max(0, yaml.lastIndexOf(sign, at));
  while (yaml[start - 1] === '!' && yaml[start] === '!') start -= 1;
  const written = /^[^\s,[\]{}]+/.exec(yaml.slice(start, start + 200))?.[0] ?? sign;
  const stretch = { start, end: start + Math.max(1, written.length) };
  if (sign === '!') {
    slips.push(slip(messageOf('yaml/exclamation', { found: written }), stretch));
    return;
  }
  const said = messageOf('yaml/anchor', { found: written, sign });
  if (!slips.some(({ message }) => message === said.message)) slips.push(slip(said, stretch));
}

export type CaseFileReading<T> =
  | {
      readonly outcome: 'record';
      readonly record: T;
      readonly narrative: string;
      readonly placeOf: (path: RecordPath) => Place;
      /** A check's finding with its place in this file. */
      readonly located: (finding: Finding) => Finding<InText>;
    }
  | { readonly outcome: 'troubles'; readonly troubles: readonly Finding<InText>[] };

/** More troubles than this in one file are counted, not listed one by one. */
const mostExplained = 200;

/**
 * Text → a record of the right shape, or every trouble with the text and the shape.
 *
 * Shape:   a file of an older version of the format is read as if it were of the newest; `known` leads there
 * Error:   `file/…` (front matter), `yaml/…` (writing), `key/…`, `value/…`; never throws on what a file holds
 * Checked: tests/casefile/bad-cases.test.ts, tests/casefile/any-bytes.test.ts
 */
export function readCaseFile<S extends z.ZodType>(
  source: SourceText,
  schema: S,
  kind: FileKind,
  known: readonly UpgradeStep[] = upgradeSteps,
): CaseFileReading<z.output<S>> {
  const split = splitFrontMatter(source);
  if (split.outcome === 'trouble') return { outcome: 'troubles', troubles: [split.trouble] };
  const { yaml, offset, narrative } = split;
  const placed = (stretch: YamlStretch): Place =>
    source.placeAt(offset + stretch.start, offset + stretch.end);
  const refused = (slips: readonly Finding<InYaml>[]): CaseFileReading<z.output<S>> => ({
    outcome: 'troubles',
    troubles: slips.map((each) => ({ ...inText(each, placed(each.stretch)), ...given({ path: each.path }) })),
  });

  const parsed = parseYaml(yaml);
  const wanted = wantedBy(schema);
  if (parsed.outcome === 'failure') return refused([explainFailure(yaml, parsed, keysOf(wanted))]);
  if (!isGroup(parsed.value)) return refused([notKeys(yaml)]);
  const slips = hiddenSlips(yaml, wanted);
  if (slips.some(({ id }) => id === 'yaml/anchor' || id === 'yaml/exclamation')) return refused(slips);

  const written = asWanted(wanted, parsed.value);
  const upgrade = toNewest(wanted, written, known);
  // Of a later format nothing can be said: what looks like a mistake may be what it is for.
  if (upgrade.outcome === 'newer')
    return refused([slip(newerFormat('casefile', upgrade.version), yamlPlaces(yaml).value(['casefile']))]);
  const value = upgrade.outcome === 'older' ? upgrade.record : written;
  const checked = schema.safeParse(value);
  const reserved = /__proto__|constructor|\\/.test(yaml) ? reservedKeys(value) : [];
  const inFile = (): YamlPlaces => yamlPlaces(yaml);
  if (checked.success && slips.length === 0 && reserved.length === 0) {
    return {
      outcome: 'record',
      record: checked.data,
      narrative,
      placeOf: (path) => placed(inFile().value(path)),
      located: ({ at, ...said }) => ({ ...said, place: placed(inFile()[at](said.path)) }),
    };
  }
  const issues = checked.success ? [] : checked.error.issues;
  const told = issues.slice(0, mostExplained);
  const rest = issues.length - told.length;
  return refused([
    ...slips,
    ...reserved.map((each) => slip(each, inFile().key(each.path))),
    ...explainIssues(told, { kind, root: wanted, value, yaml, places: inFile() }),
    ...(rest > 0 ? [slip(messageOf('file/many-more', { rest }), { start: 0, end: 0 })] : []),
  ]);
}

function notKeys(yaml: string): Finding<InYaml> {
  const start = Math.max(0, yaml.search(/\S/));
  const end = yaml.indexOf('\n', start);
  return slip(messageOf('yaml/not-keys'), { start, end: end === -1 ? yaml.length : end });
}
