import { fileURLToPath } from 'node:url';
import nunjucks from 'nunjucks';
import type { FormPage } from './form-view.js';
import { formStyle } from './form-style.js';

let environment: nunjucks.Environment | undefined;

/** A form's page data as HTML: plain, whole, with no script. */
export function renderForm(page: FormPage): string {
  return renderTemplate('yard/page.njk', { it: page, style: formStyle() });
}

/** One of the forms' templates with finished data. */
export function renderTemplate(name: string, data: object): string {
  environment ??= new nunjucks.Environment(
    new nunjucks.FileSystemLoader(fileURLToPath(new URL('../../layouts/parts/', import.meta.url))),
    { autoescape: true, throwOnUndefined: true, trimBlocks: true, lstripBlocks: true },
  );
  return environment.render(name, data);
}
