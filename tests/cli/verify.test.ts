import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { bagInFolder } from '../../src/bag/bag-in-folder.js';
import { bagWriter } from '../../src/bag/bag-writer.js';
import { zipOfBag } from '../../src/bag/zip/zip-of-bag.js';
import { nodeArchiveDisk } from '../../src/cli/node-disk.js';
import { twoFarms } from './archived-farms.js';
import { folderWith, type Run } from './run-in-folder.js';

const name = 'archives/quernholt-2026-06-16';
const ledgerPath = 'cases/quernholt/.growdown/ledger.jsonl';

describe('an archive of a sealed farm', async () => {
  const farms = await twoFarms();
  const all: { folder: string; growdown: (...words: string[]) => Promise<Run>; head: string } = {} as never;
  beforeAll(async () => {
    const { folder, growdown } = folderWith(farms, {}, afterAll);
    await growdown('seal');
    const run = await growdown('archive', '--zip', '--farm', 'quernholt', '--no-pdf');
    const [, head] = /head of the ledger: ((?:[0-9a-f]{4} ?){4})/.exec(run.out)!;
    Object.assign(all, { folder, growdown, head: head!.trim() });
  }, 60_000);

  /** The payload with some files changed, in a bag whose lists fit: what somebody who means harm would make. */
  function madeAnew(to: string, change: (path: string, text: string) => string | undefined) {
    const disk = nodeArchiveDisk(all.folder);
    const { files } = bagInFolder(disk, name);
    const bag = bagWriter(disk, to);
    for (const path of files.sizes.keys()) {
      if (!path.startsWith('data/')) continue;
      const bytes = Buffer.concat([...files.read(path)]);
      const text = bytes.toString('latin1');
      const changed = change(path.slice('data/'.length), text);
      if (changed !== undefined) bag.add(path.slice('data/'.length), Buffer.from(changed, 'latin1'));
    }
    const info = {
      sourceOrganization: 'x',
      externalDescription: 'x',
      externalIdentifier: 'x',
      softwareAgent: 'x',
      baggingDate: '2026-06-16',
    };
    bag.finish(info, 'x\n');
    return all.growdown('verify', to);
  }

  test('is whole, each record as it was sealed, though pictures were changed and renamed on the way', async () => {
    const { growdown, head } = all;
    for (const path of [name, `${name}/`, `${name}.zip`]) {
      const run = await growdown('verify', path);
      expect(run).toMatchObject({ code: 0, err: '' });
      expect(run.out).toMatch(/whole and unchanged, \d+ files; all \d+ records as they were sealed/);
      expect(run.out).toContain(`head of the ledger: ${head}`);
    }
    expect((await growdown('verify', name, '--head', head)).out).toContain('the head given is in it');
    expect((await growdown('verify', name, '--head', head.toUpperCase(), '--json')).code).toBe(0);
    const json = JSON.parse((await growdown('verify', name, '--json')).out) as object;
    expect(json).toMatchObject({
      archive: name,
      problems: [],
      head: { entries: expect.any(Number) as number },
    });
  });

  test('another head than any of the chain is reported; what is no head is wrong use', async () => {
    const { growdown } = all;
    const other = await growdown('verify', name, '--head', '0123 4567 89ab cdef');
    expect(other.code).toBe(1);
    expect(other.err).toMatch(/ledger\.jsonl: error archive\/head: no entry of the chain has the head given/);
    expect((await growdown('verify', name, '--head', 'abc')).code).toBe(2);
    expect((await growdown('verify', 'archives/nowhere')).err).toContain('nothing is there');
    expect((await growdown('verify', 'cases')).err).toMatch(/archive\/no-archive: .*this is not a bag/);
  });

  test('a byte changed in a file of each kind: caught, that file named and no other', async () => {
    const { folder, growdown } = all;
    for (const path of [
      'data/cases/quernholt/2086.md',
      `data/${ledgerPath}`,
      'data/cases/quernholt/photos/2086.jpg',
      'data/cases/business.md',
      'data/archive.json',
      'data/pictures.csv',
      'data/books/quernholt.html',
      'data/records/records.json',
      'manifest-sha512.txt',
      'tagmanifest-sha512.txt',
      'README.txt',
    ]) {
      const file = `${folder}/${name}/${path}`;
      const before = readFileSync(file);
      const changed = Buffer.from(before);
      const at = Math.floor(changed.length / 2);
      changed[at] = changed[at]! ^ 1;
      writeFileSync(file, changed);
      const { code, out } = await growdown('verify', name, '--json');
      writeFileSync(file, before);
      expect(code).toBe(1);
      const { problems } = JSON.parse(out) as { problems: { file: string }[] };
      expect([...new Set(problems.map((one) => one.file))]).toEqual([`${name}/${path}`]);
    }
  });

  test('a record changed and listed anew does not fit its seal; the place and both values are said', async () => {
    const run = await madeAnew('forged', (path, text) =>
      path === 'cases/quernholt/2086.md' ? text.replace('top: 17', 'top: 18') : text,
    );
    expect(run.code).toBe(1);
    expect(run.err).toMatch(
      /^forged\/data\/cases\/quernholt\/2086\.md:\d+:\d+: error seal\/differs: .*18, expected 17 as sealed/m,
    );
    expect(run.err).toContain('ask whoever made it');
  });

  test('a picture exchanged, an animal taken out, a tail cut off and an edited ledger do not pass, though listed anew', async () => {
    const { growdown, head } = all;
    const gone = await madeAnew('gone', (path, text) =>
      path === 'cases/quernholt/2117.md' ? undefined : text,
    );
    expect(gone.err).toMatch(/error seal\/animal-missing: the file of 2117 is missing/);
    const swapped = await madeAnew('swapped', (path, text) =>
      path === 'pictures.csv' ? text.replace(/removed,\d+,[0-9a-f]/, 'removed,1,0') : text,
    );
    expect(swapped.err).toMatch(/2086\.md:\d+:\d+: error seal\/picture-differs/);
    const cutTail = (path: string, text: string) =>
      path === ledgerPath ? text.split('\n').slice(0, -2).join('\n') + '\n' : text;
    expect((await madeAnew('cut', cutTail)).err).toMatch(
      /error archive\/head: the chain of seals ends with entry \d+ .*expected entry \d+ .*as archive.json says/,
    );
    // Cut in the chain and in what the archive says of it: only the head from outside shows it.
    const cutClean = await madeAnew('cut-clean', (path, text) => {
      if (path === ledgerPath) return cutTail(path, text);
      if (path !== 'archive.json') return text;
      const lines = readFileSync(`${all.folder}/${name}/data/${ledgerPath}`, 'utf8').trim().split('\n');
      const { number, hash } = JSON.parse(lines.at(-2)!) as { number: number; hash: string };
      const facts = JSON.parse(text) as object;
      return `${JSON.stringify({ ...facts, head: { entries: number, hash } })}\n`;
    });
    expect(cutClean.code).toBe(0);
    expect((await growdown('verify', 'cut-clean', '--head', head)).err).toContain(
      'no entry of the chain has the head given',
    );
    const edited = await madeAnew('edited', (path, text) =>
      path === ledgerPath ? text.replace('"top":17', '"top":18') : text,
    );
    expect(edited.err).toMatch(/ledger\.jsonl:\d+:1: error ledger\/edited/);
  });

  test('another farm in it, or no word of what was archived, is reported', async () => {
    const stray = await madeAnew('stray', (path, text) => (path === 'archive.json' ? undefined : text));
    expect(stray.err).toMatch(/archive\/not-our-form: it is not as growdown archive writes it/);
    const noList = await madeAnew('no-list', (path, text) => (path === 'pictures.csv' ? `${text}x` : text));
    expect(noList.err).toMatch(/pictures\.csv: error archive\/not-our-form/);
    const { files } = bagInFolder(nodeArchiveDisk(all.folder), name);
    const disk = nodeArchiveDisk(all.folder);
    const bag = bagWriter(disk, 'two');
    for (const path of files.sizes.keys())
      if (path.startsWith('data/')) bag.add(path.slice(5), files.read(path));
    bag.add('cases/harrowmere/farm.md', '---\nfarm: Other\n---\n');
    bag.finish(
      {
        sourceOrganization: 'x',
        externalDescription: 'x',
        externalIdentifier: 'x',
        softwareAgent: 'x',
        baggingDate: '2026-06-16',
      },
      'x\n',
    );
    expect((await all.growdown('verify', 'two')).err).toMatch(
      /the archive is of `quernholt`, and holds another farm/,
    );
  });

  test('a file the system does not let be read is reported as that', async () => {
    const disk = nodeArchiveDisk(all.folder);
    const open: typeof disk.open = (path) => {
      if (path.endsWith('farm.md')) throw Object.assign(new Error('no'), { code: 'EACCES', path });
      return disk.open(path);
    };
    const { growdown } = folderWith({}, { bags: { ...disk, open }, folder: all.folder });
    const run = await growdown('verify', name);
    expect(run.code).toBe(2);
    expect(run.err).toMatch(/farm\.md could not be read \(EACCES\)/);
  });

  test('a byte of the zip names the file in it', async () => {
    const { folder, growdown } = all;
    const zip = readFileSync(`${folder}/${name}.zip`);
    const at = zip.indexOf('animal: "2086"');
    zip[at + 9] = zip[at + 9]! ^ 1;
    writeFileSync(`${folder}/archives/changed.zip`, zip);
    const { err, code } = await growdown('verify', 'archives/changed.zip');
    expect(code).toBe(1);
    expect(err).toMatch(
      /^archives\/changed\.zip\/data\/cases\/quernholt\/2086\.md: error archive\/changed-file/,
    );
    expect(err).toContain('1 thing is wrong in 1 file');
    const pieces: Uint8Array[] = [];
    for await (const piece of zipOfBag(
      bagInFolder(nodeArchiveDisk(folder), name).files,
      'quernholt-2026-06-16',
    ))
      pieces.push(piece);
    expect(Buffer.concat(pieces).equals(readFileSync(`${folder}/${name}.zip`))).toBe(true);
  });
});
