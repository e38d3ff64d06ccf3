import { existsSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { findBrowser } from '../../src/pdf/find-browser.js';
import { browserPlaces } from '../../src/cli/node-effects.js';
import { packedBrowser } from './packed-browser.js';

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

/**
 * The program of a browser: what `CHROMIUM_PATH` names, else the one out of the development packages, which is the same
 * everywhere and needs about a third less work than an installed one, else an installed one.
 */
export async function browserProgram(): Promise<string> {
  const env = process.env;
  const packed = (env['CHROMIUM_PATH'] ?? '') === '' ? await packedBrowser() : undefined;
  if (packed !== undefined) return packed;
  const found = findBrowser({
    platform: process.platform,
    env,
    places: browserPlaces,
    isThere: existsSync,
  });
  if ('missing' in found)
    throw new Error(
      'Tests look at pages in a browser and found none: install Chromium, Google Chrome or Microsoft Edge, or set CHROMIUM_PATH',
    );
  return found.path;
}

/** `fonts`: a list of fonts for it to find, in the place of its own. */
export async function openBrowser(fonts?: string): Promise<Browser> {
  const { chromium } = await import('playwright-core');
  const env = { ...process.env, ...(fonts !== undefined && { FONTCONFIG_FILE: fonts }) };
  return chromium.launch({ executablePath: await browserProgram(), args: flags, headless: true, env });
}
