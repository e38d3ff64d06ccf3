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

test('the same visit sent by another form with pictures the first had not is told, and stays waiting', async () => {
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

test('a form sent again with changes after it was taken is not added a second time', async () => {
  const { growdown, keep, text } = inFolder();
  const report: VisitDraft = { date: '2026-06-16', by: 'Orla Venn', kind: 'report', note: 'walks better' };
  keep({ visit: report });
  await growdown('take');
  const after = text();
  keep({ visit: { ...report, note: 'walks worse' } });
  const done = await growdown('take');
  expect(done.code).toBe(1);
  expect(done.err).toContain('growdown correct');
  expect(text()).toBe(after);
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
