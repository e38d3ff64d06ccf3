import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { countSheets, openPrinter } from '../../src/pdf/open-printer.js';
import { browserProgram } from '../browser/find-browser.js';

const onUnix = test.skipIf(process.platform === 'win32');

/** A program in the place of a browser. */
function programThat(does: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'growdown-browser-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, 'browser');
  writeFileSync(file, `#!/bin/sh\n${does}\n`, { mode: 0o755 });
  return file;
}

onUnix('a program that ends at once did not start', async () => {
  await expect(openPrinter({ browser: programThat('exit 7') })).rejects.toMatchObject({
    kind: 'did-not-start',
  });
});

onUnix('a program that never answers is ended after its time', async () => {
  await expect(openPrinter({ browser: programThat('exec sleep 60'), startMs: 500 })).rejects.toMatchObject({
    kind: 'no-answer',
  });
});

/** A browser whose process number is in a file, so that a test can do something to it. */
async function watchedBrowser(): Promise<{ browser: string; processId: () => number }> {
  const real = await browserProgram();
  const browser = programThat(`echo $$ > "$0.pid"\nexec "${real}" "$@"`);
  return { browser, processId: () => Number(readFileSync(`${browser}.pid`, 'utf8')) };
}

onUnix('a browser that hangs while it prints is ended after its time, and is gone', async () => {
  const { browser, processId } = await watchedBrowser();
  const printer = await openPrinter({ browser, printMs: 700 });
  process.kill(processId(), 'SIGSTOP');
  await expect(printer.print('<p>never printed</p>')).rejects.toMatchObject({ kind: 'no-answer' });
  await printer.close();
  expect(() => process.kill(processId(), 0)).toThrow();
});

onUnix('a browser that dies while it prints has ended', async () => {
  const { browser, processId } = await watchedBrowser();
  const printer = await openPrinter({ browser });
  const printing = printer.print('<p>never printed</p>');
  process.kill(processId(), 'SIGKILL');
  await expect(printing).rejects.toMatchObject({ kind: 'ended' });
  await printer.close();
});

test('no script of the page runs, and nothing is asked of anybody', async () => {
  const asked: string[] = [];
  const server = createServer((request, answer) => {
    asked.push(request.url ?? '');
    answer.end();
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => void server.close());
  const from = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const printer = await openPrinter({ browser: await browserProgram() });
  onTestFinished(() => printer.close());
  const html = (body: string) =>
    `<!doctype html><title>t</title><link rel=stylesheet href="${from}/s.css"><img alt="" src="${from}/i.png">${body}`;
  const many = '<p>line</p>'.repeat(300);
  expect(countSheets(await printer.print(html(many)))).toBeGreaterThan(1);
  const written = `<script>document.write(${JSON.stringify(many)})</script>`;
  expect(countSheets(await printer.print(html(`<p>line</p>${written}`)))).toBe(1);
  expect(asked).toEqual([]);
});
