import type { Slip } from './slip.js';

/** A quote opens a value only where one may begin: after a colon and space, a hyphen and space, a bracket or a comma. */
const opening = /(?:^[ \t]*|:[ \t]+|-[ \t]+|[[{,][ \t]*)(["'])/gm;

/**
 * The first quotation that does not end as it should, up to the place where the parser gave up.
 *
 * A quote left open closes at the opening of a later one, so what follows that is no comma, bracket or line end.
 */
export function quoteSlip(yaml: string, upTo: number): Slip | undefined {
  const text = yaml.replaceAll(/(^|[ \t])#[^\n]*/g, (comment) =>
    /["']/.test(comment) ? ' '.repeat(comment.length) : comment,
  );
  opening.lastIndex = 0;
  for (let found = opening.exec(text); found && found.index <= upTo; found = opening.exec(text)) {
    const quote = found[1] ?? '"';
    const start = found.index + found[0].length - 1;
    const end = closingQuote(text, start, quote);
    const rest = end === -1 ? '' : (/^[^\n]*/.exec(text.slice(end + 1))?.[0] ?? '');
    const sound = end !== -1 && /^[ \t\r]*(?:$|[,\]}:]|#)/.test(rest);
    if (!sound) {
      const sameLine = end !== -1 && !text.slice(start, end).includes('\n');
      return sameLine ? afterQuote(yaml, start, end, rest) : unclosed(yaml, start, quote);
    }
    opening.lastIndex = end + 1;
  }
  return undefined;
}

function closingQuote(text: string, start: number, quote: string): number {
  for (let at = start + 1; at < text.length; at += 1) {
    if (quote === '"' && text[at] === '\\') at += 1;
    else if (text[at] === quote) {
      if (quote !== "'" || text[at + 1] !== "'") return at;
      at += 1;
    }
  }
  return -1;
}

function unclosed(yaml: string, start: number, quote: string): Slip {
  const lineEnd = yaml.indexOf('\n', start);
  return {
    id: 'yaml/unclosed-quote',
    message: `the quotation that begins here with \`${quote}\` does not end, expected another \`${quote}\``,
    mend: `write \`${quote}\` at the end of the text; a \`${quote}\` inside it is better left out`,
    stretch: { start, end: lineEnd === -1 ? yaml.length : lineEnd },
  };
}

function afterQuote(yaml: string, start: number, end: number, rest: string): Slip {
  return {
    id: 'yaml/text-after-quote',
    message: `more text follows the closing quote of ${marked(yaml.slice(start, end + 1))}, expected the value to end there`,
    mend:
      yaml[start] === "'"
        ? 'put the whole text between `"` quotes: an apostrophe does no harm there'
        : "put the quotes round the whole text; inside it use `'` or none",
    stretch: { start: end + 1, end: end + 1 + Math.max(1, rest.trimEnd().length) },
  };
}

function marked(text: string): string {
  return text.length > 30 ? `\`${text.slice(0, 30)}…\`` : `\`${text}\``;
}
