import { chmodSync, createReadStream, createWriteStream, existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'; // prettier-ignore
import { createRequire } from 'node:module';
import { arch, platform } from 'node:os';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { createBrotliDecompress } from 'node:zlib';
import { extract } from 'tar-fs';

const main = createRequire(import.meta.url).resolve('@sparticuz/chromium');
const pack = join(dirname(main), '..', '..');
const modules = join(pack, '..', '..');

/** What starts it: its own libraries and font, given to this one process. A list of fonts that is named wins. */
const start = `#!/bin/sh
here=$(dirname "$0")
export LD_LIBRARY_PATH="$here/lib" FONTCONFIG_FILE="\${FONTCONFIG_FILE:-$here/fonts.xml}"
exec "$here/chromium" "$@"
`;

/** A list of fonts for `FONTCONFIG_FILE`: those of a folder or none, and nothing of the machine's. */
export function fontList(folder: string | undefined, cache: string): string {
  const dir = folder === undefined ? '' : `<dir>${folder}</dir>`;
  return `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig>${dir}<cachedir>${cache}</cachedir></fontconfig>`;
}

/**
 * The browser out of the development packages, unpacked once into `node_modules`, not once a worker; undefined on a
 * machine it is not made for. It starts where nothing is installed: its package brings the libraries a bare system lacks
 * and a font, which are unpacked beside it.
 *
 * It unpacks into a folder of this process's own, which then takes its name: two workers that begin together never meet
 * half a browser.
 */
export async function packedBrowser(): Promise<string | undefined> {
  if (platform() !== 'linux' || arch() !== 'x64') return undefined;
  const folder = join(modules, '.cache', `browser-${packedVersion()}`);
  const program = join(folder, 'start');
  if (existsSync(program)) return program;
  const own = `${folder}-${process.pid}`;
  mkdirSync(own, { recursive: true });
  await Promise.all([
    unpacked('chromium.br', createWriteStream(join(own, 'chromium'))),
    ...['al2023', 'fonts', 'swiftshader'].map((name) => unpacked(`${name}.tar.br`, extract(own))),
  ]);
  chmodSync(join(own, 'chromium'), 0o755);
  writeFileSync(join(own, 'fonts.xml'), fontList(join(folder, 'fonts'), join(folder, 'font-cache')));
  writeFileSync(join(own, 'start'), start, { mode: 0o755 });
  try {
    renameSync(own, folder);
  } catch (error) {
    rmSync(own, { recursive: true, force: true });
    if (!existsSync(program)) throw error;
  }
  return program;
}

function unpacked(name: string, target: NodeJS.WritableStream): Promise<void> {
  return pipeline(createReadStream(join(pack, 'bin', name)), createBrotliDecompress(), target);
}

function packedVersion(): string {
  const { version } = JSON.parse(readFileSync(join(pack, 'package.json'), 'utf8')) as { version: string };
  return version;
}
