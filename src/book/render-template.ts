import { fileURLToPath } from 'node:url';
import nunjucks from 'nunjucks';

let environment: nunjucks.Environment | undefined;

/** One template of `layouts/parts/` with finished data: for a page that is no book, and so needs no engine around it. */
export function renderTemplate(name: string, data: object): string {
  environment ??= new nunjucks.Environment(
    new nunjucks.FileSystemLoader(fileURLToPath(new URL('../../layouts/parts/', import.meta.url))),
    { autoescape: true, throwOnUndefined: true, trimBlocks: true, lstripBlocks: true },
  );
  return environment.render(name, data);
}
