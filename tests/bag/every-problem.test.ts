import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { catalogue } from '../casefile/catalogue.js';

test('each trouble an archive can have is in the catalogue, and a test raises it', () => {
  const room = new URL('../../src/', import.meta.url);
  const source = ['bag/', 'archive/'].flatMap((folder) =>
    readdirSync(new URL(folder, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readFileSync(new URL(folder + name.replaceAll('\\', '/'), room), 'utf8')),
  );
  const raised = new Set(source.flatMap((text) => text.match(/(?<=')archive\/[a-z-]+(?=')/g) ?? []));
  const listed = [...catalogue().keys()].filter((id) => id.startsWith('archive/'));
  expect([...raised].sort()).toEqual(listed.sort());
  const here = new URL('.', import.meta.url);
  const tests = [...readdirSync(here), '../cli/verify.test.ts'].map((name) =>
    readFileSync(new URL(name, here), 'utf8').replaceAll('\\/', '/'),
  );
  expect(listed.filter((id) => !tests.some((text) => text.includes(id)))).toEqual([]);
});
