import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import type { BookOnDisk } from './books-on-disk.js';

/** Opens a book in a context of its own and looks at it; `asked` is every address the page asked for, `said` every complaint on its console. */
export async function withPage<T>(
  browser: Browser,
  book: BookOnDisk,
  options: BrowserContextOptions,
  look: (page: Page, asked: string[], said: string[]) => Promise<T>,
): Promise<T> {
  const context = await browser.newContext(options);
  const asked: string[] = [];
  context.on('request', (request) => asked.push(request.url()));
  const page = await context.newPage();
  const said: string[] = [];
  page.on('console', (message) => said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  try {
    await page.goto(book.address);
    return await look(page, asked, said);
  } finally {
    await context.close();
  }
}
