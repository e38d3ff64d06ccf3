import { expect, test } from 'vitest';
import { findBrowser } from '../../src/pdf/find-browser.js';
import { browserPlaces } from '../../src/cli/node-effects.js';

function search(platform: string, env: Record<string, string>, ...there: string[]) {
  return findBrowser({ platform, env, places: browserPlaces, isThere: (path) => there.includes(path) });
}

test.each([
  ['linux', { PATH: '/opt/mine:/usr/bin' }, '/opt/mine/chromium'],
  ['linux', { PATH: '' }, '/usr/bin/google-chrome'],
  ['linux', {}, '/snap/bin/chromium'],
  ['darwin', { HOME: '/Users/orla' }, '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge'],
  [
    'darwin',
    { HOME: '/Users/orla' },
    '/Users/orla/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  ],
  [
    'win32',
    { 'ProgramFiles(x86)': 'C:\\Program Files (x86)' },
    'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
  ],
  [
    'win32',
    { LOCALAPPDATA: 'C:\\Users\\orla\\AppData\\Local' },
    'C:\\Users\\orla\\AppData\\Local\\Google\\Chrome\\Application\\chrome.exe',
  ],
  ['freebsd', { PATH: '/usr/local/bin' }, '/usr/local/bin/chromium'],
])('an installed browser is found: %s %o', (platform, env, path) => {
  expect(search(platform, env as Record<string, string>, path)).toEqual({ path });
});

test('the first choice wins, and CHROMIUM_PATH before all', () => {
  const env = { PATH: '/usr/bin' };
  const both = ['/usr/bin/google-chrome', '/usr/bin/chromium'];
  expect(search('linux', env, ...both)).toEqual({ path: '/usr/bin/chromium' });
  expect(search('linux', { ...env, CHROMIUM_PATH: '/x/mine' }, ...both, '/x/mine')).toEqual({
    path: '/x/mine',
  });
});

test('none there, and none where CHROMIUM_PATH points, are distinguished', () => {
  expect(search('linux', { PATH: '/usr/bin' })).toEqual({ missing: 'none-installed' });
  expect(search('linux', { CHROMIUM_PATH: '/gone' }, '/usr/bin/chromium')).toEqual({
    missing: 'not-at-named-path',
    named: '/gone',
  });
});

test('a folder of the PATH that is none, or a variable that is not set, is never glued to a name', () => {
  expect(search('linux', { PATH: ':.:bin' }, 'chromium', 'bin/chromium', '/chromium')).toEqual({
    missing: 'none-installed',
  });
  expect(search('win32', {}, '\\Google\\Chrome\\Application\\chrome.exe')).toEqual({
    missing: 'none-installed',
  });
});
