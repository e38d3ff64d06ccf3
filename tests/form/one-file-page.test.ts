import { signsShown } from '../../src/record/signs.js';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { bundleForm } from '../../src/setup/bundle-form.mjs';
import { asInertJson, oneFilePage } from '../../src/form/one-file/one-file-page.js';
import type { FarmData } from '../../src/form/one-file/farm-data.js';
import { visitAsText } from '../../src/form/one-file/visit-as-text.js';
import { wordsOf } from '../../src/reference/words.js';
import { animal, today } from './made-for.js';
import { farmOf, oneFileFor } from './one-file-for.js';

const hashOf = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

test('what was built is the script as its source is written (else: npm run build)', async () => {
  const built = readFileSync(new URL('../../dist/form/in-browser.js', import.meta.url), 'utf8');
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
  // Sentences for the terminal do not come with it, so nothing there may ask for one.
  expect(html).not.toContain('terminal.');
  // What the templates give is set in one place, by a parser that runs nothing.
  expect(script.match(/parseFromString/g)).toHaveLength(1);
});

test('whatever is in a record ends no element and is no markup', async () => {
  const evil = '</script><script>alert(1)</script><!-- <img src=x onerror=alert(1)> \u2028 "{{ 7*7 }}" &amp;';
  const html = await oneFileFor(farmOf({ ...animal, handling: evil }, evil), today);
  expect(html.match(/<script/g)).toHaveLength(2);
  expect(html).not.toContain('<img');
  const [, json = ''] = /<script type="application\/json" id="farm">([^]*?)<\/script>/.exec(html) ?? [];
  const data = JSON.parse(json) as FarmData;
  expect(data.farm).toBe(evil);
  expect(data.animals[0]?.identity).toEqual([`Handling: ${signsShown(evil)}`]);
  expect(JSON.parse(asInertJson(evil))).toBe(evil);
});

test('a script that would end its own element is refused', async () => {
  const data = { farm: 'X' } as FarmData;
  expect(() => oneFilePage(wordsOf('en-GB'), data, 'x = "</SCRIPT>"')).toThrow('would end it');
});

test('the page knows what it takes to ask about a slip, and asks in the words of all ways in', async () => {
  const html = await oneFileFor(
    farmOf({
      casefile: 1,
      animal: '2086',
      calvings: ['2023-09-30'],
      lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' } },
      visits: [
        {
          date: '2026-05-19',
          by: 'Orla Venn',
          kind: 'first',
          found: { a: { state: 'open', top: 33, wall: 43, tool: 'ruler', note: 'dry' } },
        },
      ],
    }),
    '2026-06-16',
  );
  const [, json = ''] = /<script type="application\/json" id="farm">([^]*?)<\/script>/.exec(html) ?? [];
  const { animals, shared } = JSON.parse(json) as FarmData;
  expect(Object.keys(shared)).toContain('growth.json');
  expect(animals[0]!.record.visits[0]!.found).toEqual({
    a: { state: 'open', top: 33, wall: 43, tool: 'ruler' },
  });
  const made = { animal: animals[0]!.record, gaitScale: undefined, asNote: true as const };
  const written = (top: string, ...right: string[]) =>
    visitAsText(
      { farm: 'quernholt', slug: '2086' },
      made,
      new Map([
        ['date', ['2026-06-16']],
        ['by', ['Orla Venn']],
        ['kind', ['recheck']],
        ['found.a.state', ['open']],
        ['found.a.top', [top]],
        ['found.a.tool', ['ruler']],
      ]),
      '2026-06-16',
      (doubt) => right.includes(doubt),
    );
  expect(written('4.1')).toEqual({
    outcome: 'asked',
    doubts: new Map([['found.a.top', '4.1 mm? 41 would fit.']]),
  });
  expect(written('4.1', '4.1 mm? 41 would fit.')).toMatchObject({ outcome: 'text' });
  expect(written('41')).toMatchObject({ outcome: 'text' });
});
