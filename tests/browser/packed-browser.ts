import { existsSync, mkdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { arch, platform, tmpdir } from 'node:os';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

const require = createRequire(import.meta.url);

/**
 * The browser out of the development packages, unpacked once a machine and version, not once a worker; undefined on a
 * machine it is not made for.
 *
 * It unpacks into a folder of this process's own, which then takes its name: two workers that begin together never meet
 * half a browser.
 */
export async function packedBrowser(): Promise<string | undefined> {
  if (platform() !== 'linux' || arch() !== 'x64') return undefined;
  const folder = join(tmpdir(), `growdown-test-browser-${packedVersion()}`);
  const program = join(folder, 'chromium');
  if (existsSync(program)) return program;
  const own = `${folder}-${process.pid}`;
  const before = process.env['TMPDIR'];
  mkdirSync(own, { recursive: true });
  process.env['TMPDIR'] = own;
  try {
    const { default: packed } = await import('@sparticuz/chromium');
    await packed.executablePath();
  } finally {
    if (before === undefined) delete process.env['TMPDIR'];
    else process.env['TMPDIR'] = before;
  }
  try {
    renameSync(own, folder);
  } catch (error) {
    rmSync(own, { recursive: true, force: true });
    if (!existsSync(program)) throw error;
  }
  return program;
}

function packedVersion(): string {
  const main = require.resolve('@sparticuz/chromium');
  const pack: unknown = JSON.parse(readFileSync(join(dirname(main), '../../package.json'), 'utf8'));
  return String((pack as { version?: unknown }).version);
}
