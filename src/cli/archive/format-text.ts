import { readFileSync } from 'node:fs';

const headings = ['## A case file, for somebody who has never seen one', '## How to measure'];

/** How case files are written, what each word and key means, and how lengths are taken: sections of the program's own README, word for word. */
export function formatText(): string {
  const readme = readFileSync(new URL('../../../README.md', import.meta.url), 'utf8');
  return headings.map((heading) => section(readme, heading)).join('\n');
}

function section(readme: string, heading: string): string {
  const from = readme.indexOf(`${heading}\n`);
  if (from < 0) throw new Error(`README.md has no section "${heading}"`);
  const to = readme.indexOf('\n## ', from);
  const text = readme.slice(from, to).replaceAll(/^#(?=#)/gm, '');
  return `${text.replaceAll(/<!--.*?-->\n*/gs, '').trimEnd()}\n`;
}
