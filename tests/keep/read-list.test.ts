import { expect, test } from 'vitest';
import { dayInList, readRows } from '../../src/keep/list/read-rows.js';
import { listKeys, type AnimalList, readList } from '../../src/keep/list/read-list.js';
import { animal } from '../../src/record/animal.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

function listOf(given: Uint8Array | string, separator?: string): AnimalList {
  const read = readList(typeof given === 'string' ? bytes(given) : given, separator);
  if (read.outcome === 'trouble') throw new Error(JSON.stringify(read.trouble));
  return read;
}

const texts = (list: AnimalList): string[][] => list.rows.map((row) => row.map(({ text }) => text));

test.each([',', ';', '\t'])(
  'columns parted by %j, with quotes, a mark, Windows line ends and empty rows',
  (by) => {
    const list = listOf(
      `\ufeffanimal;breed;handling\r\n"0312";"Holstein; red";"kicks ""left""\r\nneeds two"\r\n\r\n;;\r\n2086; Jersey ;\r\n`.replaceAll(
        ';',
        by,
      ),
    );
    expect(list.columns).toEqual(['animal', 'breed', 'handling']);
    expect(texts(list)).toEqual([
      ['0312', `Holstein${by} red`, 'kicks "left"\nneeds two'],
      ['2086', 'Jersey', ''],
    ]);
    const [first, second] = list.rows;
    expect(first?.map(({ line, column }) => [line, column])).toEqual([
      [2, 1],
      [2, 8],
      [2, 24],
    ]);
    expect(second?.[1]).toMatchObject({ line: 6, column: 6 });
  },
);

test('UTF-8, UTF-16 and Windows-1252 are distinguished', () => {
  const text = 'animal,handling\n1,träge\n';
  expect(listOf(bytes(text))).toMatchObject({ writing: 'UTF-8' });
  const old = Uint8Array.from(text, (letter) => letter.codePointAt(0)!);
  const wide = Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(text, 'utf16le')]);
  for (const [given, writing] of [
    [old, 'Windows-1252'],
    [wide, 'UTF-16'],
  ] as const) {
    const list = listOf(given);
    expect(list.writing).toBe(writing);
    expect(texts(list)).toEqual([['1', 'träge']]);
  }
});

test('a list that cannot be taken apart is reported with its place', () => {
  expect(readList(bytes('a,b\n1,"open\n2,3\n'))).toMatchObject({
    outcome: 'trouble',
    trouble: { line: 2, column: 3 },
  });
  expect(readList(bytes('a,b\n1,x"y\n'))).toMatchObject({ outcome: 'trouble', trouble: { line: 2 } });
  expect(readList(bytes('a,b;c\n1,2;3\n'))).toMatchObject({ outcome: 'trouble', trouble: { line: 1 } });
  expect(readList(bytes('\n \n'))).toMatchObject({ outcome: 'trouble' });
  expect(listOf('a,b;c\n1,2;3\n', ';').columns).toEqual(['a,b', 'c']);
});

test('a row longer than the names gets columns of its own, so that nothing is dropped unseen', () => {
  expect(listOf('animal\n1,x\n').columns).toEqual(['animal', 'column 2']);
});

test.each([
  ['2020-08-21', '2020-08-21'],
  ['20200821', '2020-08-21'],
  ['2020/08/21', '2020-08-21'],
  ['21/08/2020', '2020-08-21'],
  ['21.8.2020', '2020-08-21'],
  ['08/21/2020', '2020-08-21'],
  ['3/3/2021', '2021-03-03'],
  ['21 Aug 2020', '2020-08-21'],
  ['21-August-2020', '2020-08-21'],
  ['Aug 21, 2020', '2020-08-21'],
  ['2020-08-21 00:00:00', '2020-08-21'],
])('%s is one day', (written, day) => {
  expect(dayInList(written)).toEqual({ outcome: 'day', day });
});

test('a day that may be two is not chosen, and one that is none is refused', () => {
  expect(dayInList('3/4/2021')).toEqual({
    outcome: 'either',
    ways: { 'day-first': '2021-04-03', 'month-first': '2021-03-04' },
  });
  expect(dayInList('3/4/2021', 'day-first')).toEqual({ outcome: 'day', day: '2021-04-03' });
  expect(dayInList('3/4/2021', 'month-first')).toEqual({ outcome: 'day', day: '2021-03-04' });
  for (const [written, order] of [
    ['30/02/2021'],
    ['21/08/20'],
    ['21/08/2020', 'month-first'],
    ['2021'],
    ['2020-08-21 09:30:00'],
    ['21 Augst 2020'],
    ['44064'],
  ] as const)
    expect(dayInList(written, order), written).toMatchObject({ outcome: 'none' });
});

const map = {
  No: 'animal',
  Tag: 'tag',
  Born: 'born',
  'Calving 1': 'calvings',
  'Calving 2': 'calvings',
  Before: 'calved-before',
  EID: 'electronic',
};

test('a row is an identity; several columns may make one list, and a cell may hold several days', () => {
  const { rows } = readRows(
    listOf(
      'No,Tag,Born,Calving 1,Calving 2,Before\n0312,UK 000123 400312,21 Aug 2018,2021-09-02; 2020-09-01,2022-09-03,0\n',
    ),
    map,
  );
  expect(rows).toEqual([
    {
      line: 2,
      troubles: [],
      values: {
        animal: '0312',
        tag: 'UK 000123 400312',
        born: '2018-08-21',
        calvings: ['2020-09-01', '2021-09-02', '2022-09-03'],
        'calved-before': 0,
      },
    },
  ]);
});

test('every cell that cannot be taken is reported with line and column, all together', () => {
  const { rows, either } = readRows(
    listOf(
      'No,Born,Before,EID\n1,31/02/2020,,\n2,,two,\n3,,,9.99E+14\n,2020-01-01,,\n5,3/4/2020,,\n6,,,\n6,,,\n',
    ),
    map,
  );
  const told = rows.flatMap(({ troubles }) => troubles.map(({ line, column }) => `${line}:${column}`));
  expect(told).toEqual(['2:3', '3:4', '4:5', '5:1', '7:1', '8:1']);
  expect(either.map(({ line, text }) => [line, text])).toEqual([[6, '3/4/2020']]);
});

test('a list fills every key of an animal that is no group of keys, and no other', () => {
  const groups = ['casefile', 'earlier', 'episodes', 'lesions', 'marks', 'amended', 'visits'];
  expect([...listKeys.keys()]).toEqual(Object.keys(animal.shape).filter((key) => !groups.includes(key)));
});
