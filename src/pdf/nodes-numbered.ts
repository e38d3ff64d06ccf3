const node = /(?<!\\)\(node(\d{8})\)/g;

/**
 * A tagged PDF with the nodes of its structure numbered from 1.
 *
 * A browser names table cells and their heads by a number that runs through all it has opened so far, so now and then the
 * same page gets other names. The order of the names stays, since the file's list of them is sorted, and so does their
 * length, since places in the file are counted in bytes.
 *
 * Checked: tests/pdf/nodes-numbered.test.ts
 */
export function nodesNumbered(pdf: Uint8Array): Uint8Array {
  const numbered = Buffer.from(pdf);
  const text = numbered.toString('latin1');
  const found = [...text.matchAll(node)];
  const names = [...new Set(found.map(([, name]) => name!))].sort();
  const numbers = new Map(names.map((name, index) => [name, String(index + 1).padStart(8, '0')]));
  for (const { index, 1: name } of found)
    numbered.write(numbers.get(name!)!, index + '(node'.length, 'latin1');
  return numbered;
}
