import type { RowOutcome } from '../../keep/list/import-list.js';
import { formatProblem } from '../../problem/format-problem.js';
import { readableText } from '../../problem/readable-text.js';

/** Every row that cannot be taken, with its place in the list and what is wrong. */
export function badRowsInWords(rows: readonly RowOutcome[], list: string): string[] {
  return rows.flatMap((one) => {
    if (one.became !== 'bad') return [];
    const own = one.row.troubles.map(
      ({ line, column, message }) => `${list}:${line}:${column}: error: ${message}`,
    );
    const more = one.messages.map((message) => `${list}:${one.row.line}:1: error: ${message}`);
    return [...[...own, ...more].map(readableText), ...one.problems.map(formatProblem)].map(
      (line) => `${line}\n`,
    );
  });
}

/** What is new, what differs, and who has no case: a line or two an animal. */
export function rowsInWords(rows: readonly RowOutcome[], { replace }: { readonly replace: boolean }): string {
  const lines = rows.flatMap((one) => {
    if (one.became === 'started') return [`${one.file}: a new case`];
    if (one.became !== 'compared') return [];
    const { fills, adds, differs, mayBeAnother } = one.changes;
    const held = mayBeAnother && !replace;
    const said = [
      ...(held ? [] : fills.map(({ key, value }) => `fills ${key}: ${shown(value)}`)),
      ...(held ? [] : adds.map(({ key, day }) => `adds to ${key}: ${day}`)),
      ...differs.map(({ key, has, says }) =>
        replace ? `${key}: ${has} becomes ${says}` : `differs in ${key}: ${has} on file, ${says} in the list`,
      ),
      ...(held ? ['she may be another animal of that number, so nothing of the row is taken'] : []),
    ];
    return said.map((line) => `${one.file}: ${line}`);
  });
  const same = rows.filter(({ became, ...one }) => became === 'compared' && isSame(one as RowOutcome)).length;
  const without = rows.filter(({ became }) => became === 'no-case').map(({ row }) => nameOf(row.values));
  return [
    ...lines,
    ...(same > 0 ? [`${same} ${same === 1 ? 'animal is' : 'animals are'} on file as in the list`] : []),
    ...(!replace && rows.some((one) => one.became === 'compared' && one.changes.differs.length > 0)
      ? ['what differs is left as it is on file; --replace writes what the list says']
      : []),
    ...(without.length > 0
      ? [`${without.length} without a case here: ${without.join(', ')}. --start NUMBER opens one`]
      : []),
  ]
    .map((line) => `${readableText(line)}\n`)
    .join('');
}

function isSame(one: RowOutcome): boolean {
  if (!('changes' in one)) return false;
  const { fills, adds, differs } = one.changes;
  return fills.length + adds.length + differs.length === 0;
}

function nameOf(values: Readonly<Record<string, unknown>>): string {
  const name = values['animal'] ?? values['tag'] ?? values['electronic'];
  return typeof name === 'string' ? name : '';
}

function shown(value: unknown): string {
  return Array.isArray(value) ? value.join(', ') : String(value);
}
