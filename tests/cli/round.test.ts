import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { nodeDisk } from '../../src/cli/node-disk.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const farm = (name: string, keys = '') =>
  farmFile.replace('farm: Quernholt', `farm: ${name}`).replace('hemisphere', `${keys}hemisphere`);
const animal = (number: string, recheck: string) =>
  animalFile(number).replace('    found:', `    recheck: ${recheck}\n    found:`);
const files = {
  'cases/business.md': '---\nbusiness: Quillfen Foot Trimming\n---\n',
  'cases/quernholt/farm.md': farm('Quernholt', 'next-visit: 2026-06-23\n'),
  'cases/quernholt/2086.md': animal('2086', '2026-06-23'),
  'cases/alderfold/farm.md': farm('Alderfold'),
  'cases/alderfold/31.md': animal('31', '2026-06-01'),
};

test('the round is printed and written as one page; a second run gives the same bytes', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('round');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out).toContain('Trip of Tue 23 June');
  expect(run.out).toMatch(/Alderfold +none planned +1 +1/);
  expect(run.out).toContain('Overdue since Mon 1 June: Lift her and check again');
  const page = () => readFileSync(join(folder, 'books/round.html'), 'utf8');
  const first = page();
  expect((await growdown('round')).out).toBe(run.out);
  expect(page()).toBe(first);
  expect(existsSync(join(folder, 'cases/quernholt/.growdown/calendar.json'))).toBe(false);
});

test('--farm, --from and --to choose; as JSON too', async () => {
  const { growdown } = folderWith(files);
  type Data = {
    trips: { day: string; farms: { lift: unknown[] }[] }[];
    unplanned: { lift: unknown[] }[];
    outside: { farm: string }[];
  };
  const data = async (...words: string[]) =>
    JSON.parse((await growdown('round', '--json', ...words)).out) as Data;
  expect((await data()).trips[0]).toMatchObject({
    day: '2026-06-23',
    farms: [
      {
        farm: 'quernholt',
        lift: [
          { animal: '2086', jobs: [{ what: 'recheck', by: '2026-06-23' }, { what: 'look-other-foot' }] },
        ],
      },
    ],
  });
  expect((await data('--farm', 'alderfold')).trips).toEqual([]);
  expect((await data('--to', '2026-06-20')).outside.map((one) => one.farm)).toEqual(['quernholt']);
  expect((await data()).unplanned[0]?.lift).toHaveLength(1);
  // late since January, and no visit is planned there: no day asked for hides her
  expect((await data('--from', '2026-06-10')).unplanned[0]?.lift).toHaveLength(1);
});

test('days the wrong way round, and a farm that is not there, are wrong use and write nothing', async () => {
  const { folder, growdown } = folderWith(files);
  const turned = await growdown('round', '--from', '2026-07-01', '--to', '2026-06-01');
  expect(turned).toMatchObject({ code: 2, out: '' });
  expect(turned.err).toContain('--from 2026-07-01 is after --to 2026-06-01; give the earlier day as --from');
  expect(await growdown('round', '--farm', 'nowhere')).toMatchObject({ code: 2, out: '' });
  expect(existsSync(join(folder, 'books'))).toBe(false);
});

test('a farm that cannot be read is left out and named, the others go on; the calendar it has is left as it was', async () => {
  const { folder, put, growdown } = folderWith(files);
  await growdown('round', '--ics');
  const had = readFileSync(join(folder, 'books/alderfold.ics'));
  put('cases/alderfold/31.md', animal('31', '2026-06-01').replace('state: open', 'state: opne'));
  const run = await growdown('round', '--ics');
  expect(run.code).toBe(1);
  expect(run.err).toContain('alderfold: not in the round, because of the errors above');
  expect(run.out).toContain('Trip of Tue 23 June');
  expect(run.out).toContain('alderfold: left out, because its files have errors');
  expect(readFileSync(join(folder, 'books/alderfold.ics'))).toEqual(had);
});

test('--ics writes a calendar a farm and one of all; a second run changes no byte and touches no memory', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('round', '--ics');
  expect(run).toMatchObject({ code: 0, err: '' });
  const names = ['alderfold.ics', 'quernholt.ics', 'round.ics'];
  const read = () => names.map((name) => readFileSync(join(folder, 'books', name), 'utf8'));
  const memory = join(folder, 'cases/quernholt/.growdown/calendar.json');
  const [first, kept, written] = [read(), readFileSync(memory), statSync(memory).mtimeMs];
  await growdown('round', '--ics', '--today', '2026-06-16');
  expect(read()).toEqual(first);
  expect(readFileSync(memory)).toEqual(kept);
  expect(statSync(memory).mtimeMs).toBe(written);
  const [alderfold, quernholt, all] = first as [string, string, string];
  expect(alderfold).not.toMatch(/Quernholt|2086/);
  expect(quernholt).not.toMatch(/Alderfold|SUMMARY:31/);
  const events = (ics: string) => ics.match(/BEGIN:VEVENT.*?END:VEVENT/gs)!;
  expect(events(all)).toEqual([...events(alderfold), ...events(quernholt)]);
});

test('a visit put off, then a job done: the calendar on disk is moved and cancelled from run to run', async () => {
  const { folder, put, growdown } = folderWith(files);
  const ics = () => readFileSync(join(folder, 'books/quernholt.ics'), 'utf8').replaceAll('\r\n', '\n');
  await growdown('round', '--ics');
  const uid = /UID:(\S+)\nSEQUENCE:0\n.*\nDTSTART;VALUE=DATE:20260623/.exec(ics())![1]!;
  put('cases/quernholt/farm.md', farm('Quernholt', 'next-visit: 2026-06-30\n'));
  await growdown('round', '--ics');
  expect(ics()).toMatch(new RegExp(`UID:${uid}\\nSEQUENCE:1\\n.*\\nDTSTART;VALUE=DATE:20260630`));
  put('cases/quernholt/farm.md', farm('Quernholt'));
  await growdown('round', '--ics');
  expect(ics()).toMatch(new RegExp(`UID:${uid}\\nSEQUENCE:2\\n[^]*?STATUS:CANCELLED`));
});

test('a memory that cannot be read is said and left as it is; the other farms get their calendar', async () => {
  const { folder, put, growdown } = folderWith(files);
  await growdown('round', '--ics');
  const had = readFileSync(join(folder, 'books/quernholt.ics'));
  put('cases/quernholt/.growdown/calendar.json', '{"calendar": 1, "ent');
  const run = await growdown('round', '--ics');
  expect(run.code).toBe(1);
  expect(run.err).toContain(
    'cases/quernholt/.growdown/calendar.json: cannot be read as what was last written',
  );
  expect(run.err).toContain('Put back a copy of it');
  expect(readFileSync(join(folder, 'cases/quernholt/.growdown/calendar.json'), 'utf8')).toBe(
    '{"calendar": 1, "ent',
  );
  expect(readFileSync(join(folder, 'books/quernholt.ics'))).toEqual(had);
  expect(run.out).toContain('alderfold.ics');
});

test('a memory that cannot be opened, or not be written, is no fault of the program’s', async () => {
  const { folder, put, growdown } = folderWith(files);
  put('cases/quernholt/.growdown/calendar.json/x', '');
  const run = await growdown('round', '--ics');
  expect(run.code).toBe(1);
  expect(run.err).toContain('calendar.json: cannot be read as what was last written');
  const full = folderWith(files, {
    writeFile: (path, content) => {
      if (path.endsWith('calendar.json')) throw Object.assign(new Error('full'), { code: 'ENOSPC' });
      nodeDisk('', nodeCaseFiles).replace(path, content);
    },
  });
  const refused = await full.growdown('round', '--ics', '--farm', 'quernholt');
  expect(refused).toMatchObject({ code: 2 });
  expect(refused.err).toContain('calendar.json could not be written (ENOSPC)');
  expect(existsSync(join(folder, 'books/alderfold.ics'))).toBe(true);
});

test('no cases folder, and one with no farm in it', async () => {
  expect(await folderWith({}).growdown('round')).toMatchObject({ code: 2 });
  const empty = await folderWith({ 'cases/business.md': '---\nbusiness: Q\n---\n' }).growdown('round');
  expect(empty.out).toContain('No farm has anything due or a visit planned in these days.');
});
