import { fileURLToPath } from 'node:url';
import nunjucks from 'nunjucks';

const layouts = fileURLToPath(new URL('layouts/', import.meta.url));

/**
 * Eleventy as the engine of the book: it draws `layouts/book.njk`, and the page data come finished from `src/book`.
 * The cases folder is never its input: a template engine must not read what users write.
 */
export default function (config) {
  const loader = new nunjucks.FileSystemLoader([layouts, `${layouts}parts`]);
  const options = { autoescape: true, throwOnUndefined: true, trimBlocks: true, lstripBlocks: true };
  config.setLibrary('njk', new nunjucks.Environment(loader, options));
}
