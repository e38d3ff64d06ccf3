import { readFileSync } from 'node:fs';
import type { UserConfig } from '@11ty/eleventy';
import type { BookPage } from './book-page.js';
import { bookStyle, contentPolicy } from './book-style.js';
import { marksShown } from './layout-css.js';

const packageFolder = new URL('../../', import.meta.url);

/**
 * A book's page data as one self-contained HTML file, drawn by an Eleventy instance of its own: memory stays flat
 * however many there are.
 *
 * Eleventy gets the text of `layouts/book.njk` and our own settings, so it looks for no project where the process
 * is. Nothing is written: the caller writes.
 * Checked: tests/book/render-book.test.ts
 */
export async function renderBook(page: BookPage): Promise<string> {
  const { RenderPlugin } = await import('@11ty/eleventy');
  const { default: configure } = (await import(new URL('.eleventy.js', packageFolder).href)) as {
    default: (config: UserConfig) => void;
  };
  const manager = new RenderPlugin.RenderManager();
  manager.config(configure);
  manager.config((config) => {
    const style = bookStyle(page);
    config.addNunjucksGlobal('book', page);
    config.addNunjucksGlobal('style', style);
    config.addNunjucksGlobal('policy', contentPolicy(style));
  });
  const render = await manager.compile(
    readFileSync(new URL('layouts/book.njk', packageFolder), 'utf8'),
    'njk',
  );
  return marksShown(await render({}));
}
