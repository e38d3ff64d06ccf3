import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import type { BookOnDisk } from './books-on-disk.js';

/** Opens a book in a context of its own and looks at it; `asked` is every address the page asked for. */
export async function withPage<T>(
  browser: Browser,
  book: BookOnDisk,
  options: BrowserContextOptions,
  look: (page: Page, asked: string[]) => Promise<T>,
): Promise<T> {
  const context = await browser.newContext(options);
  const asked: string[] = [];
  context.on('request', (request) => asked.push(request.url()));
  const page = await context.newPage();
  try {
    await page.goto(book.address);
    return await look(page, asked);
  } finally {
    await context.close();
  }
}
