import { expect, test } from 'vitest';
import { renderBook } from '../../src/book/render-book.js';

test('what users write prints as text, template marks and tags included', async () => {
  const hostile = '{{ 7 * 7 }} {% include "x" %} <script>alert(1)</script>';
  const html = await renderBook({ slug: 'quernholt', language: 'en-GB', paper: 'A4', title: hostile });
  expect(html).toContain('{{ 7 * 7 }} {% include');
  expect(html).not.toContain('<script');
});
