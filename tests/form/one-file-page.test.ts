import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { bundleForm } from '../../src/setup/bundle-form.mjs';
import { asInertJson, oneFilePage } from '../../src/form/one-file/one-file-page.js';
import type { FarmData } from '../../src/form/one-file/farm-data.js';
import { wordsOf } from '../../src/words/words.js';
import { animal, today } from './made-for.js';
import { farmOf, oneFileFor } from './one-file-for.js';

const hashOf = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

test('what was built is the script as its source stands (else: npm run build)', async () => {
  const built = readFileSync(new URL('../../dist/cli/form/in-browser.js', import.meta.url), 'utf8');
  expect(await bundleForm()).toBe(built);
});

test('one script and one style run, each named by its hash; nothing is loaded, framed or sent', async () => {
  const html = await oneFileFor(farmOf(animal), today);
  const [, policy = ''] = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html) ?? [];
  const [, script = ''] = /<script>([^]*?)<\/script>/.exec(html) ?? [];
  const [, style = ''] = /<style>([^]*?)<\/style>/.exec(html) ?? [];
  expect(policy.replaceAll('&#39;', "'")).toBe(
    `default-src 'none'; font-src data:; style-src ${hashOf(style)}; base-uri 'none'; script-src ${hashOf(script)}; form-action 'none'`,
  );
  expect(html.match(/<script/g)).toHaveLength(2);
  expect(html.replace(script, '')).not.toMatch(
    / src=| style=| on[a-z]+=|<link|<iframe|@import|url\((?!data:font\/woff2;base64,)/,
  );
  expect(script).not.toMatch(
    /innerHTML|outerHTML|insertAdjacent|document\.write|fetch\(|XMLHttpRequest|import\(/,
  );
});

test('whatever stands in a record ends no element and is no markup', async () => {
  const evil = '</script><script>alert(1)</script><!-- <img src=x onerror=alert(1)> \u2028 "{{ 7*7 }}" &amp;';
  const html = await oneFileFor(farmOf({ ...animal, handling: evil }, evil), today);
  expect(html.match(/<script/g)).toHaveLength(2);
  expect(html).not.toContain('<img');
  const [, json = ''] = /<script type="application\/json" id="farm">([^]*?)<\/script>/.exec(html) ?? [];
  const data = JSON.parse(json) as FarmData;
  expect(data.farm).toBe(evil);
  expect(data.animals[0]?.identity).toEqual([`Handling: ${evil}`]);
  expect(JSON.parse(asInertJson(evil))).toBe(evil);
});

test('a script that would end its own element is refused', async () => {
  const data = { farm: 'X' } as FarmData;
  expect(() => oneFilePage(wordsOf('en-GB'), data, 'x = "</SCRIPT>"')).toThrow('would end it');
});
