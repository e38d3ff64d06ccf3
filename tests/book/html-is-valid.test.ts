import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import { farmWith, fullFarm, fullPractice } from './full-practice.js';
import { htmlFindings, outlineFaults } from './html-findings.js';

test.each([
  ['every field filled', fullFarm],
  ['no animal', farmWith([])],
])('the page is valid HTML: %s', async (_, farm) => {
  const html = await renderBook(composeBook(fullPractice, farm, '2026-03-10'));
  expect(await htmlFindings(html)).toEqual([]);
});

test('the outline has one h1 and skips no level', async () => {
  const html = await renderBook(composeBook(fullPractice, fullFarm, '2026-03-10'));
  expect(outlineFaults(html)).toEqual([]);
});

test('a page that is not valid and an outline that skips a level are reported', async () => {
  const html =
    '<!DOCTYPE html><html lang="en"><head><title>x</title></head><body><h2>a</h2><h4>b<p>c</p></h4></body></html>';
  expect((await htmlFindings(html)).join(' ')).toContain('element-permitted-content');
  expect(outlineFaults(html)).toEqual(['0 headings of the first level', 'h4 after h2']);
});
