/**
 * Characters that move a terminal's cursor, colour it, turn the writing direction or show nothing: C0 and C1 controls,
 * DEL, zero-width and direction marks, the byte order mark, half surrogates.
 */
const unreadable =
  // eslint-disable-next-line no-control-regex
  /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/**
 * Text from a file made safe for a terminal: each unreadable character becomes one `·`, a tab one `→`,
 * so that columns still hold.
 *
 * @example readableText('a\tb\u001b[31m') // → 'a→b·[31m'
 */
export function readableText(text: string): string {
  return text.replaceAll(unreadable, (character) => (character === '\t' ? '→' : '·'));
}
