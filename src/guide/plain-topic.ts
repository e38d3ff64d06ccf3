import MarkdownIt from 'markdown-it';
import type { Topic } from './topics.js';

/** HTML is off, so the marks that tests look for must be taken out before. */
export const guideMarkdown = new MarkdownIt({ html: false });

export function withoutMarks(text: string): string {
  return text.replaceAll(/<!--.*?-->\n*/gs, '');
}

/**
 * A topic as it is read in a terminal, its lines broken by `broken`: pictures left out, links as the command that prints
 * where they lead, each row of a table as its first cell with the others under it.
 *
 * Checked: tests/guide/topics.test.ts
 */
export function plainTopic({ title, text }: Topic, broken: (text: string) => string): string {
  const out: string[] = [title.toUpperCase()];
  let depth = 0;
  let item = false;
  let heads: string[] = [];
  let cells: string[] = [];
  let tag = '';
  for (const token of guideMarkdown.parse(withoutMarks(text), {})) {
    const indent = '  '.repeat(Math.max(0, depth));
    if (token.type.endsWith('_list_open')) depth += 1;
    else if (token.type.endsWith('_list_close')) depth -= 1;
    else if (token.type === 'list_item_open') item = true;
    else if (token.type === 'thead_open') heads = [];
    else if (token.type === 'tr_open') cells = [];
    else if (token.type === 'tbody_open') out.push('');
    else if (token.type === 'fence') out.push('', token.content.trimEnd().replaceAll(/^/gm, `${indent}    `));
    else if (token.type === 'inline') {
      const said = plainInline(token.content);
      if (tag === 'th') heads.push(said);
      else if (tag === 'td') cells.push(said);
      else if (said !== '') {
        if (!item || out.at(-1)?.includes(bullet) !== true) out.push('');
        out.push(tag === 'h2' ? said.toUpperCase() : indent + (item ? bullet : '') + said);
        item = false;
      }
    } else if (token.type === 'tr_close' && cells.length > 0) {
      out.push(`  ${cells[0]}`);
      for (const [at, cell] of cells.entries())
        if (at > 0) out.push(`      ${cells.length > 2 ? `${heads[at]}: ` : ''}${cell}`);
    }
    if (token.nesting === 1) tag = token.tag;
  }
  return `${broken(out.join('\n')).replaceAll(`  ${bullet}`, '- ')}\n`;
}

/** Before an item until lines are broken, so that they go on below its words and not below its hyphen. */
const bullet = '\u2022';

function plainInline(text: string): string {
  return text
    .replaceAll(/!\[[^\]]*\]\([^)]*\)/g, '')
    .replaceAll(/\[([^\]]*)\]\(([a-z-]+)\.md\)/g, '$1 (growdown help $2)')
    .replaceAll(/\[([^\]]*)\]\(([^)]*)\)/g, '$1 ($2)')
    .replaceAll('**', '')
    .replaceAll(/(?<![\w`])_([^_`]+)_(?!\w)/g, '$1')
    .replaceAll('\\|', '|')
    .replaceAll('\n', ' ')
    .trim();
}
