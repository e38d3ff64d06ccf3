import type { Wanted, WantedKey } from '../../casefile/wanted.js';
import type { Answer, Answering } from './read-answer.js';
import { readAnswer, trouble, value } from './read-answer.js';
import { readGroup } from './read-group.js';

/**
 * All answers given under one key of a record, in the order given: a flag that came twice, the fields of a form.
 *
 * A list of groups takes one answer an entry; `found`, `feet`, `lesions` and `marks` take one answer a name, with a
 * colon behind it (`a: open, top 21`); a group takes one; a list of words takes them all; anything else takes one.
 *
 * Checked: tests/keep/answers.test.ts
 */
export function readAnswers(wanted: Wanted, typed: readonly string[], answering: Answering): Answer {
  if (wanted.kind === 'named' || (wanted.kind === 'group' && isNames(wanted.keys)))
    return namedGroups(wanted, typed, answering);
  if (wanted.kind === 'either') {
    const group = wanted.forms.find((form) => form.kind === 'group');
    const plain = wanted.forms.find((form) => form.kind !== 'group' && form.kind !== 'list');
    return readAnswers(plain ?? group ?? wanted.forms[0]!, typed, answering);
  }
  if (wanted.kind === 'list') {
    const { of } = wanted;
    if (of.kind === 'group') return each(typed, (text) => readGroup(of.keys, text, answering));
    return readAnswer(wanted, typed.join(','), answering);
  }
  const [only = ''] = typed;
  if (typed.length > 1) return trouble(`given ${typed.length} times, expected once`);
  return wanted.kind === 'group'
    ? readGroup(wanted.keys, only, answering)
    : readAnswer(wanted, only, answering);
}

/** Names that are keys of the format themselves: the four feet. */
function isNames(keys: ReadonlyMap<string, WantedKey>): boolean {
  return [...keys.values()].every(({ wanted }) => wanted.kind === 'group');
}

function each(typed: readonly string[], read: (text: string) => Answer): Answer {
  const values: unknown[] = [];
  for (const text of typed) {
    const one = read(text);
    if (one.outcome === 'trouble') return one;
    values.push(one.value);
  }
  return value(values);
}

function namedGroups(
  wanted: Extract<Wanted, { kind: 'named' | 'group' }>,
  typed: readonly string[],
  answering: Answering,
): Answer {
  const groups: Record<string, unknown> = {};
  const entries =
    wanted.kind === 'named' && wanted.of.kind !== 'group' ? typed.flatMap((text) => text.split(',')) : typed;
  for (const text of entries) {
    const [, name, rest = ''] = /^\s*([A-Za-z0-9][A-Za-z0-9-]*)\s*(?::|=|\s|$)\s*([^]*)$/.exec(text) ?? [];
    if (name === undefined)
      return trouble(
        `\`${text}\`, expected a name, a colon and what belongs to it, such as \`${example(wanted)}\``,
      );
    if (Object.hasOwn(groups, name)) return trouble(`${name} is given twice, expected once`);
    const of = wanted.kind === 'named' ? wanted.of : wanted.keys.get(name.toUpperCase())?.wanted;
    if (!of)
      return trouble(
        `\`${name}\`, expected ${[...(wanted.kind === 'group' ? wanted.keys.keys() : [])].join(', ')}`,
      );
    const read = of.kind === 'group' ? readGroup(of.keys, rest, answering) : readAnswer(of, rest, answering);
    if (read.outcome === 'trouble') return trouble(`${name}: ${read.message}`);
    groups[wanted.kind === 'group' ? name.toUpperCase() : name] = read.value;
  }
  return value(groups);
}

function example(wanted: Wanted): string {
  if (wanted.kind === 'group') return 'LH: signs heat';
  if (wanted.kind === 'named' && wanted.names === 'digits') return '0: 130, 1: 51';
  return 'a: open, top 21';
}
