import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { pageStyle } from '../book/book-style.js';
import type { PrintedPage } from '../book/layout-css.js';
import { renderPage } from '../book/render-page.js';
import type { Paper } from '../record/words.js';
import { readShared } from '../reference/read-shared.js';
import { wordsOf } from '../reference/words.js';
import { guideMarkdown, withoutMarks } from './plain-topic.js';
import { guideFacts, type Topic, topicNamed } from './topics.js';

interface GuidePage extends PrintedPage {
  readonly kicker: string;
  readonly lead: string;
  readonly contents: string;
  readonly back: string;
  readonly parts: readonly { readonly heading: string; readonly topics: readonly TopicPage[] }[];
}

interface TopicPage {
  readonly id: string;
  readonly title: string;
  readonly html: string;
}

/** How wide each kept picture is shown, and what it shows. */
const pictures = readShared(
  'pictures/pictures.json',
  z.record(z.string(), z.strictObject({ width: z.int(), height: z.int(), shows: z.string() })),
);

/**
 * The guide: every topic on one page in the look of a book, with its pictures in it.
 *
 * Shape:   paper → self-contained HTML, the same bytes each time
 * Checked: tests/guide/guide.test.ts, tests/browser/guide.test.ts
 */
export function renderGuide(paper: Paper): string {
  const words = wordsOf('en-GB');
  const page: GuidePage = {
    language: 'en-GB',
    paper,
    title: words.say('guide.title'),
    running: words.say('guide.title'),
    pageWord: words.say('book.page'),
    skip: words.say('guide.skip'),
    kicker: words.say('guide.kicker'),
    lead: words.say('guide.lead'),
    contents: words.say('guide.contents'),
    back: words.say('guide.back'),
    parts: Object.entries(guideFacts.parts).map(([part, names]) => ({
      heading: words.say(`guide.part.${part}`),
      topics: names.map((name) => topicPage(topicNamed(name)!)),
    })),
  };
  return renderPage('guide.njk', page, pageStyle(page, 'guide.css'));
}

function topicPage({ name, title, text }: Topic): TopicPage {
  const tokens = guideMarkdown.parse(withoutMarks(text), {});
  let heads: string[] = [];
  let column = 0;
  for (const [at, token] of tokens.entries()) {
    const inside = tokens[at + 1];
    if (token.type.startsWith('heading_')) token.tag = `h${Number(token.tag[1]) + 1}`;
    if (token.type === 'paragraph_open' && isPicture(inside)) token.tag = tokens[at + 2]!.tag = 'figure';
    if (token.type === 'thead_open') heads = [];
    if (token.type === 'tr_open') column = 0;
    if (token.type === 'th_open') {
      token.attrSet('scope', 'col');
      heads.push(inside?.content ?? '');
    }
    if (token.type === 'td_open') {
      if (column === 0) {
        token.tag = tokens[at + 2]!.tag = 'th';
        token.attrSet('scope', 'row');
      } else token.attrSet('data-head', heads[column] ?? '');
      column += 1;
    }
  }
  return { id: name, title, html: guideMarkdown.renderer.render(tokens, guideMarkdown.options, {}) };
}

function isPicture(inline: ReturnType<typeof guideMarkdown.parse>[number] | undefined): boolean {
  return inline?.children?.length === 1 && inline.children[0]?.type === 'image';
}

const rules = guideMarkdown.renderer.rules;
const { escapeHtml } = guideMarkdown.utils;
rules['table_open'] = () => '<div class="table stack">\n<table>\n';
rules['table_close'] = () => '</table>\n</div>\n';
rules['link_open'] = (tokens, at) => {
  const href = String(tokens[at]!.attrGet('href'));
  return `<a href="${escapeHtml(href.replace(/^([a-z-]+)\.md$/, '#$1'))}">`;
};
rules['image'] = (tokens, at) => {
  const token = tokens[at]!;
  const name = String(token.attrGet('src')).replace('../pictures/', '');
  const file = new URL(`../../shared/pictures/${name}`, import.meta.url);
  const caption = token.attrGet('title');
  const below = caption === null ? '' : `<figcaption>${escapeHtml(String(caption))}</figcaption>`;
  const shown = name.endsWith('.svg')
    ? `<div class="drawing" role="group" tabindex="0" aria-label="${escapeHtml(token.content)}">${drawing(readFileSync(file, 'utf8'), name)}</div>`
    : photograph(name, file, token.content);
  return shown + below;
};

/** A drawing in the page itself, in the face of the page; what it names in itself gets the drawing's name before it. */
function drawing(svg: string, name: string): string {
  const own = name.replaceAll(/\W/g, '-');
  return svg
    .replace(/ font-family="[^"]*"/, '')
    .replaceAll(/ id="(\w+)"/g, ` id="${own}-$1"`)
    .replaceAll(/url\(#(\w+)\)/g, `url(#${own}-$1)`);
}

function photograph(name: string, file: URL, alt: string): string {
  const { width, height } = pictures[name]!;
  const data = readFileSync(file).toString('base64');
  return `<img src="data:image/webp;base64,${data}" alt="${escapeHtml(alt)}" width="${width}" height="${height}">`;
}
