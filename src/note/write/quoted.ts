const signs: Readonly<Record<string, string>> = {
  '\n': '\\n',
  '\r': '\\r',
  '\t': '\\t',
  '"': '\\"',
  '\\': '\\\\',
};

/** Free text in quotes, as the grammar reads it back. @example quoted('so "so"') // → '"so \\"so\\""' */
export function quoted(text: string): string {
  return `"${text.replaceAll(/[\n\r\t"\\]/g, (sign) => signs[sign]!)}"`;
}
