/**
 * How many pages a PDF says it has: the count of the page tree's root, which the catalogue names.
 *
 * Error:   throws where the file is none a browser writes
 * Checked: tests/pdf/printed-book.test.ts, by another reader
 */
export function countSheets(pdf: Uint8Array): number {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString('latin1');
  const root = /\/Type\s*\/Catalog\b[^]*?\/Pages (\d+) 0 R/.exec(text)?.[1];
  const tree = root && new RegExp(`[\\r\\n]${root} 0 obj\\b[^]*?\\/Count (\\d+)`).exec(text)?.[1];
  if (!tree) throw new Error('a PDF without a count of its pages');
  return Number(tree);
}
