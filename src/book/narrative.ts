import MarkdownIt from 'markdown-it';

/**
 * The user's own text as HTML that cannot do anything.
 *
 * Raw HTML is off, so tags print as text. Links become their words followed by the address in brackets, pictures their
 * description: a book asks nothing of the outside. Headings sink beneath the page's own, so the outline stays whole.
 *
 * Checked: tests/book/narrative.test.ts
 */
const markdown = new MarkdownIt({ html: false, linkify: false, typographer: false, xhtmlOut: false });

markdown.renderer.rules['link_open'] = () => '<span class="address">';
markdown.renderer.rules['link_close'] = (tokens, at) => {
  const opening = tokens.slice(0, at).findLast((token) => token.type === 'link_open');
  const address = String(opening?.attrGet('href') ?? '');
  return `</span>${address ? ` (${markdown.utils.escapeHtml(address)})` : ''}`;
};
markdown.renderer.rules['image'] = (tokens, at) =>
  `[${markdown.utils.escapeHtml(tokens[at]?.content ?? '')}]`;

/** Rendered Markdown, never the user's own HTML. */
export interface Story {
  readonly heading: string;
  readonly html: string;
}

/** @example renderNarrative('She *limps*.', 4) // → '<p>She <em>limps</em>.</p>\n' */
export function renderNarrative(text: string, topHeading: number): string {
  const tokens = markdown.parse(text, {});
  const levels = tokens.filter((token) => token.type === 'heading_open').map((token) => Number(token.tag[1]));
  const order = [...new Set(levels)].sort((a, b) => a - b);
  for (const token of tokens) {
    if (token.type === 'heading_open' || token.type === 'heading_close')
      token.tag = `h${Math.min(6, topHeading + order.indexOf(Number(token.tag[1])))}`;
    if (token.type === 'th_open') token.attrSet('scope', 'col');
  }
  return markdown.renderer.render(tokens, markdown.options, {});
}

/** A text of the user's under its heading; undefined where there is none. */
export function storyOf(heading: string, text: string): Story | undefined {
  return text.trim() === '' ? undefined : { heading, html: renderNarrative(text, 4) };
}
