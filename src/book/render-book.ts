import { readFileSync } from 'node:fs';
import type { UserConfig } from '@11ty/eleventy';
import type { BookPage } from './book-page.js';
import { bookStyle, contentPolicy } from './book-style.js';
import { marksShown } from './layout-css.js';

const packageFolder = new URL('../../', import.meta.url);

/**
 * A book's page data as one self-contained HTML file, drawn by Eleventy.
 *
 * Eleventy gets the text of `layouts/book.njk` and our own settings, so it looks for no project where the process
 * is; the template is compiled once. Nothing is written: the caller writes.
 * Checked: tests/book/render-book.test.ts
 */
export async function renderBook(book: BookPage): Promise<string> {
  const style = bookStyle(book);
  return marksShown(await (await readyToDraw())({ book, style, policy: contentPolicy(style) }));
}

let compiled: ReturnType<typeof compile> | undefined;

/** Loads what draws books. */
export function readyToDraw(): ReturnType<typeof compile> {
  return (compiled ??= compile());
}

async function compile(): Promise<(data: object) => Promise<string>> {
  const { RenderPlugin } = await import('@11ty/eleventy');
  const { default: configure } = (await import(new URL('.eleventy.js', packageFolder).href)) as {
    default: (config: UserConfig) => void;
  };
  const manager = new RenderPlugin.RenderManager();
  manager.config(configure);
  return await manager.compile(readFileSync(new URL('layouts/book.njk', packageFolder), 'utf8'), 'njk');
}
