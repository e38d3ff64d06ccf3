/**
 * A PDF that says it was made on the book's own day, not at the moment of printing.
 *
 * The dates a browser writes are replaced by one of the same length, so that every place the file points to stays right.
 *
 * Checked: tests/pdf/printed-book.test.ts
 */
export function datedOn(pdf: Uint8Array, day: string): Uint8Array {
  const dated = Buffer.from(pdf);
  const stamp = Buffer.from(`D:${day.replaceAll('-', '')}000000+00'00'`, 'latin1');
  const text = dated.toString('latin1');
  // Only in the one object that tells of the file itself, never in what is printed.
  const info = /\/Info (\d+) 0 R/.exec(text.slice(text.lastIndexOf('trailer')))?.[1];
  const start = info === undefined ? -1 : text.search(new RegExp(`(?<=[\\r\\n])${info} 0 obj\\b`));
  if (start < 0) return dated;
  const object = text.slice(start, text.indexOf('endobj', start));
  for (const { index } of object.matchAll(/D:\d{14}\+00'00'/g)) stamp.copy(dated, start + index);
  return dated;
}
