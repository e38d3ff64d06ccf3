/**
 * Signs that no text of a record may hold: controls but tab and line ends, separators of lines that show as none, signs
 * that turn the direction of all that follows, halves of characters. The joiners that some scripts
 * and emoji need may stay.
 *
 * Source: Unicode 15.1: category Cc, U+2028, U+2029; Unicode Standard Annex 9, the explicit directional formatting characters
 */
const hidden =
  // eslint-disable-next-line no-control-regex
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/;
const everyHidden = new RegExp(hidden.source, 'g');

/**
 * The first sign in a text that no record may hold, by its number in Unicode; undefined where there is none.
 *
 * @example hiddenSign('lame\u202e') // → 'U+202E'
 * Checked: tests/record/signs.test.ts
 */
export function hiddenSign(text: string): string | undefined {
  const found = hidden.exec(text)?.[0];
  return found && nameOf(found);
}

/**
 * Text out of an old file on its way to a page, a table or a terminal: each such sign is shown by its number.
 *
 * @example signsShown('lame\u202e') // → 'lame[U+202E]'
 * Checked: tests/record/signs.test.ts
 */
export function signsShown(text: string): string {
  return hidden.test(text) ? text.replaceAll(everyHidden, (sign) => `[${nameOf(sign)}]`) : text;
}

/**
 * A value as JSON for another program: such signs as escapes, so that it means the same and shows nothing of its own.
 *
 * Checked: tests/record/signs.test.ts
 */
export function jsonText(value: unknown): string {
  return `${escaped(JSON.stringify(value, null, 2))}\n`;
}

/** JSON with such signs as escapes. */
export function escaped(json: string): string {
  return json.replaceAll(everyHidden, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

function nameOf(sign: string): string {
  return `U+${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
}
