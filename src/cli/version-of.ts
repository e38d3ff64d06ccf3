import { readFileSync } from 'node:fs';

/** Which version of the program this is. */
export function versionOf(): string {
  const pack: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  return String((pack as { version?: unknown }).version);
}
