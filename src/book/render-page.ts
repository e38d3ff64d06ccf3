import { contentPolicy } from './book-style.js';
import { renderTemplate } from './layout-css.js';

/**
 * Finished page data as one self-contained HTML file in a style of its own: no script, no request, and a policy that
 * lets a browser show this style and nothing else.
 */
export function renderPage(template: string, page: object, style: string): string {
  return renderTemplate(template, { it: page, style, policy: contentPolicy(style) });
}
