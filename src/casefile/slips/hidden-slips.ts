import { isAlias, isMap, isScalar, isSeq } from 'yaml';
import type { Node, Scalar } from 'yaml';
import { stepInto } from '../explain/group-words.js';
import { commentInText } from '../explain/comment-in-text.js';
import { parseForPlaces } from '../yaml-places.js';
import type { Wanted } from '../wanted.js';
import { exclamation, smartQuotes } from './line-slips.js';
import type { Slip } from './slip.js';

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
export function hiddenSlips(yaml: string, wanted: Wanted): Slip[] {
  if (!markSign.test(yaml) && !smartQuoteSign.test(yaml) && !mayLoseText(yaml)) return [];
  const slips: Slip[] = [];
  look(parseForPlaces(yaml)?.contents, wanted, 'this text', { yaml, slips });
  return slips;
}

interface Gathering {
  readonly yaml: string;
  readonly slips: Slip[];
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
  scalar: Scalar,
  wanted: Wanted | undefined,
  name: string,
  { yaml, slips }: Gathering,
): void {
  const { range } = scalar;
  if (scalar.type !== 'PLAIN' || !range || range[0] === range[1]) return;
  const [start, end] = range;
  const first = yaml[start] ?? '';
  if ('“”„‟‘‚‛’«»'.includes(first)) slips.push({ ...smartQuotes(first), stretch: { start, end } });
  const [all, blanks, comment] = /^([ \t]+)(#[^\r\n]*)/.exec(yaml.slice(end, end + 400)) ?? [];
  if (all === undefined || blanks === undefined || comment === undefined) return;
  const free = wanted?.kind === 'free-text';
  const glued = wanted?.kind === 'text' && /^#[^\s#]/.test(comment);
  if (!free && !glued) return;
  const from = end + blanks.length;
  slips.push({ ...commentInText(name, comment), stretch: { start: from, end: from + comment.length } });
}

/** The sign stands at the node or, with an anchor or a tag, before it. */
function mark(node: Node, sign: '*' | '&' | '!', { yaml, slips }: Gathering): void {
  const at = node.range?.[0] ?? 0;
  let start = sign === '*' ? at : Math.max(0, yaml.lastIndexOf(sign, at));
  while (yaml[start - 1] === '!' && yaml[start] === '!') start -= 1;
  const written = /^[^\s,[\]{}]+/.exec(yaml.slice(start, start + 200))?.[0] ?? sign;
  const stretch = { start, end: start + Math.max(1, written.length) };
  if (sign === '!') {
    slips.push({ ...exclamation(written), stretch });
    return;
  }
  const message = `\`${written}\` refers from one place to another, expected every record written out`;
  if (slips.some((slip) => slip.message === message)) return;
  const mend = `write the value itself; text that begins with \`${sign}\` stands in straight quotes`;
  slips.push({ id: 'yaml/anchor', message, mend, stretch });
}
