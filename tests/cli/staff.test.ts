import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import PostalMime from 'postal-mime';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const inLanguages = farmFile.replace(
  'farm: Quernholt\n',
  'farm: Quernholt\ncontact: { email: nan@quernholt.example }\nstaff-languages: [es, pl]\n',
);
const files = {
  'cases/quernholt/farm.md': inLanguages,
  'cases/quernholt/2086.md': animalFile('2086'),
  'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
};

test('the lists of a farm whose farm.md names languages: by themselves, beside the book, and in the mail', async () => {
  expect(inLanguages).not.toBe(farmFile);
  const { folder, growdown } = folderWith(files);
  const run = await growdown('staff');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out.replaceAll('\\', '/')).toBe(
    'books/quernholt-staff-es.html  Quernholt: for the staff\nbooks/quernholt-staff-pl.html  Quernholt: for the staff\n',
  );
  const read = (name: string) => readFileSync(join(folder, name), 'utf8');
  const alone = read('books/quernholt-staff-pl.html');
  expect(alone).toContain('<html lang="pl">');
  const books = await growdown('books', '--out', 'all');
  expect(books.out).toContain('quernholt-staff-es.html');
  expect(books.out).not.toContain('harrowmere-staff');
  expect(read('all/quernholt-staff-pl.html')).toBe(alone);
  expect((await growdown('post', 'quernholt')).code).toBe(0);
  const { attachments, text } = await PostalMime.parse(read('books/quernholt.eml'));
  expect(attachments.map(({ filename }) => filename)).toEqual([
    'quernholt-2026-06-16.html',
    'quernholt-staff-es-2026-06-16.html',
    'quernholt-staff-pl-2026-06-16.html',
    'quernholt.ics',
  ]);
  expect(new TextDecoder().decode(attachments[2]!.content as ArrayBuffer)).toBe(alone);
  expect(text!.replaceAll(/\s+/g, ' ')).toContain(
    'the list for the staff in Spanish; the list for the staff in Polish',
  );
});

test('a farm without languages has none, and is told the key; one with an error goes without', async () => {
  const { growdown, put } = folderWith(files);
  expect(await growdown('staff', 'harrowmere')).toMatchObject({
    code: 0,
    out: expect.stringContaining('harrowmere: no list for the staff; name their languages') as string,
  });
  expect(JSON.parse((await growdown('staff', 'harrowmere', '--json')).out)).toEqual({ staff: [] });
  put('cases/quernholt/farm.md', inLanguages.replace('[es, pl]', '[es, pt]'));
  const run = await growdown('staff');
  expect(run.code).toBe(1);
  expect(run.err).toContain('staff-languages');
  expect(run.err).toContain('quernholt: no list for the staff, because of the errors above');
  expect(run.out).toContain('no farm.md names their languages');
});
