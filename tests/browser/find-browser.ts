import { existsSync } from 'node:fs';
import type { Browser } from 'playwright-core';

const installed = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** Quiet and closed: no sandbox is needed for our own files, and no call home is made. */
const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** `CHROMIUM_PATH`, else an installed Chromium or Chrome, else the one packed in an npm package, unpacked once. */
export async function findBrowser(): Promise<{ path: string; args: string[] }> {
  const named = process.env['CHROMIUM_PATH'];
  const path = named ?? installed.find((candidate) => existsSync(candidate));
  if (path) return { path, args: flags };
  const { default: packed } = await import('@sparticuz/chromium');
  // In a single process the whole browser ends with the first page that is closed.
  const own = packed.args.filter((flag) => flag !== '--single-process');
  return { path: await packed.executablePath(), args: [...own, ...flags] };
}

export async function openBrowser(): Promise<Browser> {
  const { chromium } = await import('playwright-core');
  const { path, args } = await findBrowser();
  return chromium.launch({ executablePath: path, args, headless: true });
}
