import { HtmlValidate } from 'html-validate';
import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import { farmWith, fullFarm, fullPractice } from './full-practice.js';

/**
 * Everything html-validate recommends, but three rules of taste that do not fit a printed document:
 * `long-title` counts letters for search engines, `no-inline-style` and the rest stay on.
 */
const validator = new HtmlValidate({
  extends: ['html-validate:recommended'],
  rules: { 'long-title': 'off' },
});

test.each([
  ['every field filled', fullFarm],
  ['no animal', farmWith([])],
])('the page is valid HTML: %s', async (_, farm) => {
  const html = await renderBook(composeBook(fullPractice, farm, '2026-03-10'));
  const report = await validator.validateString(html);
  const said = report.results.flatMap(({ messages }) =>
    messages.map(({ ruleId, message, line }) => `${ruleId} ${line}: ${message}`),
  );
  expect(said).toEqual([]);
});

test('the outline has one h1 and skips no level', async () => {
  const html = await renderBook(composeBook(fullPractice, fullFarm, '2026-03-10'));
  const levels = [...html.matchAll(/<h([1-6])[ >]/g)].map((match) => Number(match[1]));
  expect(levels.filter((level) => level === 1)).toHaveLength(1);
  expect(levels.filter((level, at) => at > 0 && level > levels[at - 1]! + 1)).toEqual([]);
});
