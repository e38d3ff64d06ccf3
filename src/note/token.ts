/** A piece of a note: where it is in the text as given, and its bare form for looking up. */
export interface Token {
  readonly kind: 'word' | 'number' | 'fraction' | 'inch' | 'quoted' | 'mark' | 'stop' | 'line';
  /** As written; of quoted text what is between the quotes. */
  readonly text: string;
  /** Small letters, no apostrophes. */
  readonly bare: string;
  readonly from: number;
  readonly to: number;
}

/** In this order: the first that fits at a place is taken. Text in quotes may not run over a line; with nothing between, they are ditto marks. */
const shapes: readonly (readonly [Token['kind'], RegExp])[] = [
  ['line', /\n/uy],
  ['inch', /(?<=[\d½¼¾⅛⅜⅝⅞])(?:["”″]|'')/uy],
  ['quoted', /"((?=[^"\n]*[^"\s])(?:[^"\\\n]|\\.)*)"|“((?:[^”"\\\n]|\\.)*)[”"]/uy],
  // A letter o typed for a zero: 9O7.
  ['number', /\d+(?:[oO](?=\d)\d+)*(?:\.\d+)?/uy],
  // `w/ wood`: with.
  ['word', /w\/(?=\s|$)/iuy],
  ['fraction', /[½¼¾⅛⅜⅝⅞]/uy],
  ['word', /\p{L}(?:[\p{L}\p{M}]|['’](?=\p{L}))*/uy],
  ['stop', /[.;!?]/uy],
  ['mark', /[,:\-–—/()=+&*•·|>]/uy],
  ['word', /[^\s]/uy],
];

/** Spaces of every kind but the end of a line, and what shows nothing. */
const space = /[^\S\n]|[\u200b-\u200f\u2060\ufeff]/u;

const spoken: Readonly<Record<string, string>> = { n: '\n', r: '\r', t: '\t' };

/**
 * The pieces of a note, in order. Spaces of every kind only part them, and so does the border between letters and figures
 * (`TOP24`); what is in double quotes, straight or curly, is one piece and kept as written (`\"`, `\\`, `\n` stand for
 * a quote, a stroke and a new line in it). A quote behind a figure is the sign for inches.
 *
 * Checked: tests/note/token.test.ts
 */
export function tokensOf(text: string): Token[] {
  const tokens: Token[] = [];
  let at = 0;
  while (at < text.length) {
    const found = space.test(text[at]!) ? undefined : tokenAt(text, at);
    if (found) tokens.push(found);
    at = found?.to ?? at + 1;
  }
  return tokens;
}

function tokenAt(text: string, from: number): Token | undefined {
  for (const [kind, shape] of shapes) {
    shape.lastIndex = from;
    const match = shape.exec(text);
    if (!match) continue;
    const inside = match[1] ?? match[2];
    const said =
      kind === 'quoted'
        ? inside!.replaceAll(/\\(.)/gu, (_, letter: string) => spoken[letter] ?? letter)
        : kind === 'number'
          ? match[0].replaceAll(/[oO]/g, '0')
          : match[0];
    return { kind, text: said, bare: bareWord(said), from, to: from + match[0].length };
  }
  return undefined;
}

/** @example bareWord('Didn’t') // → 'didnt' */
export function bareWord(word: string): string {
  return word === 'w/' || word === 'W/' ? 'with' : word.toLowerCase().replaceAll(/['’]/g, '');
}
