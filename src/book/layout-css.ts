import { readFileSync } from 'node:fs';

const folder = new URL('../../layouts/css/', import.meta.url);

/** Sheets of `layouts/css/`, one after the other: of two rules as strong as each other the later holds. */
export function layoutCss(...names: readonly string[]): string {
  return names.map((name) => readFileSync(new URL(name, folder), 'utf8')).join('\n');
}
