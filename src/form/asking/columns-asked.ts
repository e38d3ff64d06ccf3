import { terminal } from '../../problem/message.js';
import { nearestWord } from '../../casefile/nearest-word.js';
import {
  type ColumnMap,
  identityKeys,
  keyOfColumn,
  listKeys,
  takesSeveral,
  type AnimalList,
} from '../../keep/list/read-list.js';
import type { Dialogue } from '../../run/dialogue.js';
import { WrongUse } from '../../run/exit-code.js';

const leftOut = '';

/** `Ear No=tag`, as typed; nothing behind the sign leaves the column out. @example mapTyped(['Ear No=tag', 'Sire=']) // → { 'Ear No': 'tag', Sire: '' } */
export function mapTyped(typed: readonly string[]): ColumnMap {
  return Object.fromEntries(
    typed.map((one) => {
      const at = one.lastIndexOf('=');
      const [column, key] = [one.slice(0, at).trim(), one.slice(at + 1).trim()];
      if (at < 1) throw new WrongUse(terminal('columns.not-a-pair', { typed: one }));
      if (key === leftOut || listKeys.has(key)) return [column, key];
      const near = nearestWord(key, [...listKeys.keys()]);
      const said = { typed: one, key, keys: keyList() };
      throw new WrongUse(
        near === undefined
          ? terminal('columns.no-key', said)
          : terminal('columns.no-key-near', { ...said, near }),
      );
    }),
  );
}

/**
 * Which key each column of a list fills: as typed, else as remembered, else by its name, else as answered. Where nobody can
 * be asked, columns that are left are reported, all at once.
 */
export async function columnsAsked(
  list: AnimalList,
  typed: ColumnMap,
  remembered: ColumnMap,
  dialogue: Dialogue | undefined,
): Promise<ColumnMap> {
  for (const column of Object.keys(typed))
    if (!list.columns.includes(column))
      throw new WrongUse(terminal('columns.no-column', { column, columns: quoted(list.columns) }));
  const map: Record<string, string> = {};
  const open: string[] = [];
  for (const [at, column] of list.columns.entries()) {
    const key = typed[column] ?? remembered[column] ?? keyOfColumn(column);
    if (key !== undefined) map[column] = key;
    else if (!list.rows.some((row) => (row[at]?.text ?? '') !== '')) map[column] = leftOut;
    else open.push(column);
  }
  for (const column of dialogue ? open : []) map[column] = await askedOf(column, list, dialogue!);
  const [first] = dialogue ? [] : open;
  if (first !== undefined)
    throw new WrongUse(
      terminal('columns.not-said', { count: open.length, columns: quoted(open), first, keys: keyList() }),
    );
  return checked(map, list.columns);
}

async function askedOf(column: string, list: AnimalList, dialogue: Dialogue): Promise<string> {
  const at = list.columns.indexOf(column);
  const shown = [...new Set(list.rows.map((row) => row[at]?.text ?? ''))]
    .filter((text) => text !== '')
    .slice(0, 3);
  const answer = await dialogue.choose(terminal('columns.what', { column, shown: shown.join(' · ') }), [
    { label: terminal('columns.leave-out'), value: leftOut },
    ...[...listKeys.keys()].map((key) => ({ label: key, value: key })),
  ]);
  if (answer === undefined) throw new WrongUse(terminal('asking.left-questions'));
  return answer;
}

function checked(map: ColumnMap, columns: readonly string[]): ColumnMap {
  const named = columns.filter((column) => map[column]);
  for (const key of new Set(named.map((column) => map[column]!))) {
    const several = named.filter((column) => map[column] === key);
    if (several.length > 1 && !takesSeveral(key))
      throw new WrongUse(terminal('columns.several', { columns: quoted(several), key }));
  }
  const twice = named.find((column, at) => named.indexOf(column) !== at && !takesSeveral(map[column]!));
  if (twice !== undefined) throw new WrongUse(terminal('columns.twice', { column: twice }));
  if (!identityKeys.some((key) => named.some((column) => map[column] === key)))
    throw new WrongUse(terminal('columns.nobody'));
  return map;
}

function keyList(): string {
  return [...listKeys.keys()].join(', ');
}

function quoted(columns: readonly string[]): string {
  return columns.map((column) => `\`${column}\``).join(', ');
}
