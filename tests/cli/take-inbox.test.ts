import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { nodeDisk } from '../../src/cli/node-disk.js';
import { holdPicture, keepEntry, type Sent } from '../../src/keep/inbox/take-entry.js';
import type { VisitDraft } from '../../src/keep/visit-draft.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const form = '00000000-0000-4000-8000-000000000001';
const other = '00000000-0000-4000-8000-000000000002';
const jpeg = (salt: number): Uint8Array => new Uint8Array([0xff, 0xd8, 0xff, 0xe0, salt]);

const recheck: VisitDraft = {
  date: '2026-06-16',
  by: 'Orla Venn',
  kind: 'recheck',
  found: { a: { state: 'open', top: 25, 'top-found': 'seen', tool: 'tape' } },
};

function inFolder() {
  const made = folderWith({
    'cases/quernholt/farm.md': farmFile,
    'cases/quernholt/2086.md': animalFile('2086'),
  });
  const farm = join(made.folder, 'cases/quernholt');
  const disk = nodeDisk(made.folder, nodeCaseFiles);
  const keep = (sent: Partial<Sent> = {}) =>
    keepEntry(disk, farm, {
      form,
      on: '2026-06-16',
      animal: '2086',
      visit: recheck,
      declares: {},
      pictures: [],
      ...sent,
    });
  const shown = (salt: number, shows: Sent['pictures'][number]['shows']) => ({
    ...holdPicture(disk, farm, form, jpeg(salt)),
    shows,
  });
  const text = (): string => readFileSync(join(farm, '2086.md'), 'utf8');
  return { ...made, farm, disk, keep, shown, text };
}

test('a visit and its pictures go into the case file and the farm’s photos; taking twice adds nothing', async () => {
  const { growdown, keep, shown, text, farm } = inFolder();
  const before = text();
  keep({
    pictures: [
      shown(1, { foot: 'LH', claw: 'outer', view: 'sole', when: 'after' }),
      shown(2, { foot: 'LH', claw: 'outer', view: 'sole', when: 'before' }),
    ],
  });
  const done = await growdown('take');
  expect(done).toMatchObject({ code: 0, err: '' });
  expect(done.out).toContain('quernholt/2086, visit of 2026-06-16: added\n');
  const after = text();
  expect(readdirSync(join(farm, 'photos'))).toEqual([
    '2086-2026-06-16-lh-outer-sole-2.jpg',
    '2086-2026-06-16-lh-outer-sole.jpg',
  ]);
  expect(after).toContain('photos/2086-2026-06-16-lh-outer-sole-2.jpg');
  expect(after.length).toBeGreaterThan(before.length);
  expect((await growdown('check')).code).toBe(0);
  expect(await growdown('take')).toMatchObject({ code: 0, out: 'nothing waits in the inbox\n' });
  expect(text()).toBe(after);
});

test('the same visit sent by another form with pictures the first had not is reported, and stays waiting', async () => {
  const { growdown, keep, shown, text } = inFolder();
  keep();
  await growdown('take');
  const after = text();
  keep({ form: other, pictures: [shown(1, { view: 'sole' })] });
  const again = await growdown('take');
  expect(again.code).toBe(1);
  expect(again.out + again.err).toMatch(
    /on file without the pictures.*growdown photo quernholt\/2086.*pictures\//,
  );
  expect(text()).toBe(after);
  expect((await growdown('take')).out).not.toContain('nothing waits');
});

test('a taking broken off before its mark adds nothing when it is done again', async () => {
  const { growdown, keep, shown, text, farm } = inFolder();
  keep({ pictures: [shown(1, { view: 'sole' })] });
  await growdown('take');
  const after = text();
  writeFileSync(join(farm, '.growdown/inbox/taken.jsonl'), '{"id":"0000');
  expect((await growdown('take')).out).toContain('already there');
  expect(text()).toBe(after);
  expect(readdirSync(join(farm, 'photos'))).toHaveLength(1);
  expect((await growdown('take')).out).toBe('nothing waits in the inbox\n');
});

test('what is refused stays, with its reason, until it is put right or set aside', async () => {
  const { growdown, keep, text } = inFolder();
  keep({ visit: { ...recheck, found: { a: { state: 'open', top: 80, wall: 43, tool: 'tape' } } } });
  keep({ form: other, visit: { ...recheck, date: '2026-06-15' } });
  const before = text();
  const done = await growdown('take');
  expect(done.code).toBe(1);
  expect(done.out).toContain('visit of 2026-06-16: refused');
  expect(done.out).toContain('visit of 2026-06-15: added');
  expect(done.err).toContain('top');
  expect(done.out).toContain(`growdown take --set-aside ${form}`);
  expect(text()).not.toBe(before);
  expect((await growdown('take')).code).toBe(1);
  expect(await growdown('take', '--set-aside', form)).toMatchObject({ code: 0 });
  expect((await growdown('take')).out).toBe('nothing waits in the inbox\n');
  expect((await growdown('take', '--set-aside', form)).code).toBe(2);
});

test('the last sending of a form is the one that is taken', async () => {
  const { growdown, keep, text } = inFolder();
  keep();
  keep({ visit: { ...recheck, gait: 1 } });
  const done = await growdown('take');
  expect(done.out.match(/: added/g)).toHaveLength(1);
  expect(text()).toContain('gait: 1');
});

test('a form sent again with changes after it was taken corrects the visit in the open, and nothing else', async () => {
  const { growdown, keep, shown, text, farm } = inFolder();
  const gone = { ...recheck, gait: 1, note: 'quiet' };
  keep({ visit: gone, pictures: [shown(1, { foot: 'LH' })] });
  await growdown('take');
  const taken = text();
  keep({
    visit: { ...gone, found: { a: { state: 'open', top: 26, 'top-found': 'seen', wall: 43, tool: 'tape' } } },
    pictures: [shown(1, { foot: 'LH' }), shown(2, { foot: 'RH' })],
  });
  expect(await growdown('take')).toMatchObject({ code: 0, err: '' });
  const amended = text();
  expect(amended.split('\n').filter((line) => !taken.includes(line))).toEqual([
    '      a: { state: open, top: 26, top-found: seen, wall: 43, tool: tape }',
    '      - { file: "photos/2086-2026-06-16-rh.jpg", foot: RH }',
    '    amended:',
    '      - { date: 2026-06-16, by: Orla Venn, why: "put right on the form of that day" }',
  ]);
  expect(readdirSync(join(farm, 'photos'))).toHaveLength(2);
  expect((await growdown('take')).out).toBe('nothing waits in the inbox\n');
  // What is taken out of the form is taken out of the visit, and a second change is reported as well.
  keep({ visit: recheck });
  expect(await growdown('take')).toMatchObject({ code: 0, err: '' });
  expect(text()).toContain('found: { a: { state: open, top: 25, top-found: seen, tool: tape } }');
  expect(text()).not.toMatch(/gait: 1|quiet/);
  expect(text().match(/put right on the form/g)).toHaveLength(2);
  const { code, out } = await growdown('check');
  expect({ code, out }).toEqual({ code: 0, out: expect.not.stringContaining('seal/') });
});

test('a mark that was not written after such a change corrects nothing twice', async () => {
  const { growdown, keep, text, farm } = inFolder();
  keep();
  await growdown('take');
  const marks = readFileSync(join(farm, '.growdown/inbox/taken.jsonl'), 'utf8');
  keep({ visit: { ...recheck, gait: 1 } });
  await growdown('take');
  const once = text();
  writeFileSync(join(farm, '.growdown/inbox/taken.jsonl'), marks);
  expect((await growdown('take')).out).toContain('already there');
  expect(text()).toBe(once);
});

test('a visit changed at the desk since, or of another day now, is left as it is', async () => {
  const { growdown, keep, text } = inFolder();
  keep();
  await growdown('take');
  keep({ visit: { ...recheck, date: '2026-06-15' } });
  const moved = await growdown('take');
  expect(moved).toMatchObject({ code: 1 });
  expect(moved.err).toContain('the visit on file is of 2026-06-16');
  await growdown(
    'correct',
    'quernholt/2086',
    '2026-06-16.found.a.top',
    '27',
    '--why',
    'misread',
    '--by',
    'x',
  );
  const there = text();
  keep({ visit: { ...recheck, gait: 1 } });
  const done = await growdown('take');
  expect(done).toMatchObject({ code: 1 });
  expect(done.err).toContain('growdown correct');
  expect(text()).toBe(there);
});

test('a case opened in the yard is a file of hers, once; a number that has a case by then stays in the inbox', async () => {
  const { growdown, keep, shown, farm } = inFolder();
  const first: Partial<Sent> = {
    animal: '2500',
    opens: { animal: '2500', tag: 'UK 000123 402500' },
    declares: { lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' } } },
    visit: { ...recheck, kind: 'first' },
    pictures: [shown(1, { foot: 'LH' })],
  };
  keep(first);
  expect(await growdown('take')).toMatchObject({ code: 0, err: '' });
  const text = (): string => readFileSync(join(farm, '2500.md'), 'utf8');
  expect(text()).toMatch(
    /^---\ncasefile: 1\nanimal: "2500"\ntag: "UK 000123 402500"\nlesions:\n {2}a: \{ code: WL/,
  );
  expect(text()).toContain('photos/2500-2026-06-16-lh.jpg');
  const opened = text();
  keep({ ...first, form: other, visit: { ...recheck, kind: 'first', gait: 1 } });
  const again = await growdown('take');
  expect(again).toMatchObject({ code: 1 });
  expect(text()).toBe(opened);
  // The form that opened it, changed.
  keep({ ...first, visit: { ...recheck, kind: 'first', gait: 2 } });
  await growdown('take');
  expect(text()).toContain('gait: 2');
  // Another number now: that is for the desk.
  keep({ ...first, animal: '2501', opens: { animal: '2501' } });
  expect((await growdown('take')).err).toContain('put it right there with `growdown correct`');
  expect(readdirSync(farm)).not.toContain('2501.md');
});

test('nothing is written where only a look is asked for; the list is there for a program too', async () => {
  const { growdown, keep, text } = inFolder();
  keep();
  const before = text();
  const looked = await growdown('take', '--dry-run');
  expect(looked.out).toContain('+   - date: 2026-06-16');
  expect(looked.out).toContain('would be added');
  expect(text()).toBe(before);
  const json = await growdown('take', '--json');
  expect(JSON.parse(json.out)).toMatchObject({
    entries: [{ farm: 'quernholt', animal: '2086', became: 'added', id: form }],
  });
});

test('a picture that is not the one that was sent is not taken in its place', async () => {
  const { growdown, keep, shown, farm } = inFolder();
  const one = shown(1, { view: 'sole' });
  keep({ pictures: [one] });
  writeFileSync(join(farm, '.growdown/inbox/pictures', one.held), jpeg(9));
  const done = await growdown('take');
  expect(done.code).toBe(1);
  expect(done.err).toContain('is gone or is not the one that was sent');
});

test('a lesion first met in the yard is declared with its visit', async () => {
  const { growdown, keep, text } = inFolder();
  keep({
    visit: { ...recheck, found: { b: { state: 'open', length: 12, tool: 'ruler' } } },
    declares: { lesions: { b: { code: 'SU', foot: 'RH', claw: 'outer', site: 'sole' } } },
  });
  expect((await growdown('take')).code).toBe(0);
  expect(text()).toMatch(/b: \{ code: SU, foot: RH/);
});

test('what is taken and then undone waits again, whole with its pictures, and is taken again; so as often as it is done', async () => {
  const { growdown, keep, shown, text, farm } = inFolder();
  const before = text();
  keep({ form: other, visit: { ...recheck, date: '2026-06-15' } });
  keep({ pictures: [shown(1, { view: 'sole' })] });
  expect((await growdown('take')).code).toBe(0);
  const after = text();
  const photos = readdirSync(join(farm, 'photos'));
  for (let round = 0; round < 2; round += 1) {
    expect(await growdown('undo', 'quernholt')).toMatchObject({ code: 0, err: '' });
    expect((await growdown('take', '--dry-run')).out.match(/would be added/g)).toHaveLength(1);
    expect(await growdown('undo', 'quernholt')).toMatchObject({ code: 0, err: '' });
    expect(text()).toBe(before);
    expect(readdirSync(join(farm, 'photos'))).toEqual([]);
    expect((await growdown('undo', 'quernholt')).err).toContain('nothing is remembered');
    expect((await growdown('take')).out.match(/: added/g)).toHaveLength(2);
    expect(text()).toBe(after);
    expect(readdirSync(join(farm, 'photos'))).toEqual(photos);
    expect((await growdown('take')).out).toBe('nothing waits in the inbox\n');
    expect((await growdown('check')).code).toBe(0);
  }
});

test('what was undone may be set aside, or sent again with changes and taken so', async () => {
  const { growdown, keep, text } = inFolder();
  const before = text();
  keep();
  await growdown('take');
  await growdown('undo', 'quernholt');
  keep({ visit: { ...recheck, gait: 1 } });
  expect((await growdown('take')).out.match(/: added/g)).toHaveLength(1);
  expect(text()).toContain('gait: 1');
  await growdown('undo', 'quernholt');
  expect(await growdown('take', '--set-aside', `${form}.2`)).toMatchObject({ code: 0 });
  expect((await growdown('take')).out).toBe('nothing waits in the inbox\n');
  expect(text()).toBe(before);
});
