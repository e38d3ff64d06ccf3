import { renderTemplate } from '../book/render-template.js';
import type { FormPage } from './form-view.js';
import { formStyle } from './form-style.js';

/** A form's page data as HTML: plain, whole, with no script. */
export function renderForm(page: FormPage): string {
  return renderTemplate('yard/page.njk', { it: page, style: formStyle() });
}
