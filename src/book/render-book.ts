import { fileURLToPath } from 'node:url';
import type { BookPage } from './book-page.js';
import { bookStyle, contentPolicy } from './book-style.js';

const packageFolder = fileURLToPath(new URL('../../', import.meta.url));

/** A book's page data as one self-contained HTML file. */
export async function renderBook(page: BookPage): Promise<string> {
  const [html] = await renderBooks([page]);
  if (html === undefined) throw new Error(`the book of ${page.slug} was not rendered`);
  return html;
}

/**
 * Several books, in the order given, one Eleventy instance each: memory stays flat however many there are.
 *
 * Eleventy looks for a project where the process stands, so the process stands in our own package while it works.
 * Nothing is written: the caller writes. Not to be called twice at the same time.
 */
export async function renderBooks(pages: readonly BookPage[]): Promise<string[]> {
  const { default: Eleventy } = await import('@11ty/eleventy');
  const before = process.cwd();
  process.chdir(packageFolder);
  try {
    const books: string[] = [];
    for (const page of pages) {
      const style = bookStyle(page);
      const eleventy = new Eleventy('layouts', 'books', {
        configPath: `${packageFolder}.eleventy.js`,
        quietMode: true,
        source: 'script',
        config: (config) => {
          config.addNunjucksGlobal('book', page);
          config.addNunjucksGlobal('style', style);
          config.addNunjucksGlobal('policy', contentPolicy(style));
        },
      });
      eleventy.disableLogger();
      const [rendered, ...others] = await eleventy.toJSON();
      if (rendered === undefined || others.length > 0)
        throw new Error(`layouts/ should give one page a book, gave ${others.length + (rendered ? 1 : 0)}`);
      books.push(rendered.content);
    }
    return books;
  } finally {
    process.chdir(before);
  }
}
