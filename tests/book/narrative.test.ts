import { expect, test } from 'vitest';
import { renderNarrative } from '../../src/book/narrative.js';

test('Markdown is set as text, tags print as text', () => {
  expect(renderNarrative('She *limps*.', 4)).toBe('<p>She <em>limps</em>.</p>\n');
  expect(renderNarrative('<script>x()</script> <b>bold</b>', 4)).toBe(
    '<p>&lt;script&gt;x()&lt;/script&gt; &lt;b&gt;bold&lt;/b&gt;</p>\n',
  );
});

test('links and pictures ask for nothing: words and address stay as text', () => {
  expect(renderNarrative('See [the note](https://elsewhere.example/a?b=1&c).', 4)).toBe(
    '<p>See <span class="address">the note</span> (https://elsewhere.example/a?b=1&amp;c).</p>\n',
  );
  expect(renderNarrative('![her foot](https://elsewhere.example/x.png "t")', 4)).toBe('<p>[her foot]</p>\n');
  expect(renderNarrative('<https://elsewhere.example/>', 4)).not.toContain('href');
  expect(renderNarrative('[x](javascript:alert(1))', 4)).not.toMatch(/<a|href/);
});

test('headings sink beneath the page’s own, without a skipped level', () => {
  expect(renderNarrative('# One\n\n### Three\n', 4)).toBe('<h4>One</h4>\n<h5>Three</h5>\n');
  expect(renderNarrative('###### Six\n', 4)).toBe('<h4>Six</h4>\n');
});
