import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { topicNames } from '../../src/guide/topics.js';
import { outlineFaults } from '../book/html-findings.js';
import { folderWith } from '../cli/run-in-folder.js';

test('growdown guide writes one page under 3 MB that asks for nothing, the same bytes each time, on the paper asked for', async () => {
  const { folder, growdown } = folderWith({});
  const read = () => readFileSync(join(folder, 'books/guide.html'), 'utf8');
  expect(await growdown('guide')).toEqual({ code: 0, out: `${join('books', 'guide.html')}\n`, err: '' });
  const first = read();
  expect(first.length).toBeLessThan(3e6);
  expect(first.length).toBeGreaterThan(1e6);
  expect(first).not.toMatch(/<script|src="(?!data:)|<link/);
  expect(first).toContain('@page{size:A4;');
  await growdown('guide');
  expect(read()).toBe(first);
  await growdown('guide', '--paper', 'Letter');
  expect(read()).toContain('@page{size:Letter;');
});

test('its outline is whole, every topic is in its contents, and every link in it leads somewhere', async () => {
  const { folder, growdown } = folderWith({});
  await growdown('guide');
  const html = readFileSync(join(folder, 'books/guide.html'), 'utf8');
  expect(outlineFaults(html)).toEqual([]);
  const ids = new Set([...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
  const links = [...html.matchAll(/href="#([^"]+)"/g)].map(([, to]) => to!);
  expect(links.filter((to) => !ids.has(to))).toEqual([]);
  expect(topicNames.filter((name) => !links.includes(name))).toEqual([]);
  // A drawing names what it is filled with: no two drawings by one name.
  expect(ids.size).toBe([...html.matchAll(/ id="/g)].length);
});
