import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as fc from 'fast-check';
import { HtmlValidate } from 'html-validate';
import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { readForm } from '../../src/form/read-form.js';
import { renderForm } from '../../src/form/yard/serve.js';
import { valuesOfVisit } from '../../src/form/said-pages.js';
import { visitForm } from '../../src/form/visit-form.js';
import { visitPage } from '../../src/form/visit-page.js';
import { withoutEmpty } from '../../src/note/same-visit.js';
import type { Visit } from '../../src/record/visit.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { wordsOf } from '../../src/reference/words.js';
import { anyDraft } from '../form/any-draft.js';
import { animal, made } from '../form/made-for.js';
import { sorted } from '../form/sorted.js';
import { openBrowser } from './find-browser.js';
import { allRules, axe, axeOver } from './axe.js';

const today = '2026-06-16';
const program = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
/** In the dark nothing but colours differs. */
const colourRules = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] };
const phone: BrowserContextOptions = { viewport: { width: 360, height: 740 }, javaScriptEnabled: false };

/** Its screen is what two of are enough for a recheck. */
const handset: BrowserContextOptions = { viewport: { width: 375, height: 812 }, javaScriptEnabled: false };

let browser: Browser;
let folder: string;
let home: string;
let end: () => void;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'growdown-yard-form-'));
  cpSync(fileURLToPath(new URL('../../cases', import.meta.url)), join(folder, 'cases'), { recursive: true });
  const child = spawn(process.execPath, [program, 'yard', '--port', '0', '--today', today], { cwd: folder });
  end = () => void child.kill('SIGTERM');
  const address = new Promise<string>((resolve, reject) => {
    let said = '';
    child.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const found = /http:\/\/127\S+/.exec(said)?.[0];
      if (found) resolve(found);
    });
    child.on('exit', () => reject(new Error(said)));
  });
  [browser, home] = await Promise.all([openBrowser(), address]);
}, 60_000);
afterAll(async () => {
  end?.();
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function withPage<T>(options: BrowserContextOptions, look: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext(options);
  try {
    return await look(await context.newPage());
  } finally {
    await context.close();
  }
}

test('with scripts off, at the size of a phone: choose her, fill in, add a picture, send; then it is in her case file', async () => {
  const picture = readFileSync(join(folder, 'cases/quernholt/photos/1988-2026-02-03-lh-sole.jpg'));
  await withPage({ ...phone, hasTouch: true }, async (page) => {
    await page.goto(home);
    await page.getByRole('link', { name: 'Quernholt' }).tap();
    await page.getByRole('link', { name: /^2301/ }).tap();
    // What was read before and what is expected is reported once the visit is kept, and not before.
    const readBefore = /top \d|should read|scored \d/;
    expect(await page.locator('main').textContent()).not.toMatch(readBefore);
    const top = page.locator('[id="f-found.a.top"]');
    await page.locator('[id="f-found.a.state"]').getByLabel('Covered', { exact: true }).tap();
    await top.fill('999');
    await page.locator('[id="f-found.a"] .more > summary').tap();
    await page.locator('[id="f-found.a.tool"]').getByLabel('Tape', { exact: true }).tap();
    await page.getByText('Pictures', { exact: true }).tap();
    await page
      .locator('[id="f-photos.0.camera"]')
      .setInputFiles({ name: 'IMG_1.JPG', mimeType: 'image/jpeg', buffer: picture });
    await page.locator('[id="f-photos.0"]').getByLabel('LH', { exact: true }).tap();
    await page.getByLabel('4 wk').tap();
    await page.getByLabel('Anything else').fill('easier on it\nsince Monday');
    await page.getByRole('button', { name: 'Send this visit' }).tap();
    // Too long for any foot: said at the field, nothing lost, the picture held.
    await page.locator('.wrong').getByText('999').first().waitFor();
    expect(await page.getByLabel('Anything else').inputValue()).toBe('easier on it\nsince Monday');
    expect(await page.locator('.held').count()).toBe(1);
    await page.locator('[id="f-found.a.top"]').fill('51,5');
    await page.getByRole('button', { name: 'Send this visit' }).tap();
    await page.getByRole('heading', { name: 'Kept' }).waitFor();
    expect(await page.locator('.known').textContent()).toMatch(readBefore);
  });
  const inbox = join(folder, 'cases/quernholt/.growdown/inbox/visits.jsonl');
  expect(readFileSync(inbox, 'utf8').trim().split('\n')).toHaveLength(1);

  const taken = await new Promise<string>((resolve) => {
    const child = spawn(process.execPath, [program, 'take', '--today', today], { cwd: folder });
    let said = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (chunk: Buffer) => void (said += chunk.toString()));
    child.on('exit', () => resolve(said));
  });
  expect(taken).toContain('quernholt/2301, visit of 2026-06-16: added');
  const { practice } = readPractice(nodeCaseFiles, join(folder, 'cases'), { today });
  const quernholt = practice.farms.find(({ slug }) => slug === 'quernholt');
  const visit = quernholt?.cases.find(({ slug }) => slug === '2301')?.animal.visits.at(-1);
  expect(visit).toEqual({
    date: today,
    by: 'Marra Quillfen',
    kind: 'recheck',
    found: { a: { state: 'covered', top: 51.5, tool: 'tape' } },
    photos: [{ file: 'photos/2301-2026-06-16-lh.jpg', foot: 'LH' }],
    recheck: '2026-07-14',
    note: 'easier on it\nsince Monday',
  });
  const photos = readdirSync(join(folder, 'cases/quernholt/photos')).filter((name) =>
    name.startsWith('2301-2026-06-16'),
  );
  expect(photos).toEqual(['2301-2026-06-16-lh.jpg']);
  expect(readFileSync(join(folder, 'cases/quernholt/photos', photos[0]!)).equals(picture)).toBe(true);
}, 60_000);

/** The visits of an animal of the demo's copy, as its file is read. */
function visitsOf(farm: string, slug: string): readonly Visit[] {
  const { practice } = readPractice(nodeCaseFiles, join(folder, 'cases'), { today });
  const cases = practice.farms.find((one) => one.slug === farm)?.cases;
  return cases?.find((one) => one.slug === slug)?.animal.visits ?? [];
}

function take(): string {
  const run = spawnSync(process.execPath, [program, 'take', '--today', today], { cwd: folder, encoding: 'utf8' });
  return run.stdout + run.stderr;
} // prettier-ignore

/** Taps beside those that every recheck takes: a tile of a field, or what is unfolded. */
const tileOf = (name: string, value: string): string => `input[name="${name}"][value="${value}"]`;
const checked = [tileOf('on-block', 'yes'), tileOf('blocks.0.event', 'checked')];
const fitted = ['#fold-work > summary', tileOf('blocks.0.foot', 'LH'), tileOf('blocks.0.claw', 'inner'), tileOf('blocks.0.event', 'fitted')]; // prettier-ignore

test.each([
  ['whose block is looked at', '2190', checked, { top: 24, wall: 43, tool: 'ruler' }, { 'on-block': true, blocks: [{ foot: 'RH', claw: 'inner', event: 'checked' }] }],
  ['who is given a block', '1932', fitted, { top: 31, wall: 44, tool: 'calliper' }, { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }],
] as const)('a recheck of a cow with a gap, %s, takes twelve taps at most beside the digits; what was not tapped is not recorded', async (_, cow, own, { tool, ...lengths }, said) => {
  let taps = 0;
  await withPage({ ...handset, hasTouch: true }, async (page) => {
    const tap = async (at: Locator): Promise<void> => {
      taps += 1;
      await at.tap();
    };
    await page.goto(home);
    await tap(page.getByRole('link', { name: 'Quernholt' }));
    await tap(page.getByRole('link', { name: new RegExp(`^${cow}`) }));
    expect(await page.locator('input:checked:not([value=""])').count()).toBe(0);
    await tap(page.locator('[id="f-gait"]').getByLabel('1', { exact: true }));
    await tap(page.getByLabel(`As last time: open, top seen, ${tool}`));
    for (const [key, digits] of Object.entries(lengths)) {
      await tap(page.locator(`[id="f-found.a.${key}"]`));
      await page.keyboard.type(String(digits));
    }
    for (const at of own) await tap(page.locator(at));
    await tap(page.getByLabel('4 wk'));
    await tap(page.getByRole('button', { name: 'Send this visit' }));
    await page.getByRole('heading', { name: 'Kept' }).waitFor();
  });
  expect(taps).toBeLessThanOrEqual(12);
  expect(take()).toContain(`quernholt/${cow}, visit of 2026-06-16: added`);
  expect(visitsOf('quernholt', cow).at(-1)).toEqual({
    date: today,
    by: 'Marra Quillfen',
    kind: 'recheck',
    gait: 1,
    found: { a: { state: 'open', 'top-found': 'seen', tool, ...lengths } },
    recheck: '2026-07-14',
    ...said,
  });
}, 60_000); // prettier-ignore

test('the form of a recheck is two screens of a phone at most, of every open case of the demo with up to two lesions', async () => {
  const { practice } = readPractice(nodeCaseFiles, join(folder, 'cases'), { today });
  const measured: [string, number][] = [];
  await withPage(handset, async (page) => {
    for (const { slug: farm, cases } of practice.farms)
      for (const { slug, animal: one } of cases) {
        await page.goto(`${home}${farm}/${slug}`);
        // A name of a tool and words alone: no length read before is there.
        for (const last of await page.locator('.again > .tiles').allTextContents())
          expect(last).not.toMatch(/\d/);
        if (Object.keys(one.lesions).length > 2) continue;
        measured.push([`${farm}/${slug}`, (await page.locator('html').boundingBox())!.height]);
      }
  });
  expect(measured.length).toBeGreaterThan(20);
  expect(measured.filter(([, height]) => height > 2 * 812)).toEqual([]);
}, 60_000);

test('a case is opened in the yard, changed before it is taken and corrected after, each recorded in her file', async () => {
  const text = (): string => readFileSync(join(folder, 'cases/harrowmere/620.md'), 'utf8');
  await withPage({ ...handset, hasTouch: true }, async (page) => {
    const send = async (): Promise<void> => {
      await page.getByRole('button', { name: 'Send this visit' }).tap();
      await page.getByRole('heading', { name: 'Kept' }).waitFor();
    };
    const inField = (field: string, label: string): Locator =>
      page.locator(`[id="f-${field}"]`).getByLabel(label, { exact: true });
    await page.goto(`${home}harrowmere/`);
    await page.getByText('Open a case for a cow without one').tap();
    await page.getByLabel('Her number').fill('412');
    await page.locator('[id="f-lesions.a.code"]').selectOption('DD');
    await inField('lesions.a.foot', 'RH').tap();
    await inField('found.a.stage', 'M2 raw ulcer').tap();
    await page.getByRole('button', { name: 'Send this visit' }).tap();
    await page.locator('.wrong').getByText('412 already has a case here').waitFor();
    await page.getByLabel('Her number').fill('620');
    await send();
    await page.getByRole('link', { name: 'Change this visit' }).tap();
    await inField('found.a.stage', 'M1 small').tap();
    await send();
    await page.getByRole('link', { name: 'All animals' }).tap();
    await page.getByRole('link', { name: /^620 sent/ }).tap();
    expect(await page.getByLabel('Her number').inputValue()).toBe('620');
    await page.getByLabel('4 wk').tap();
    await send();
    expect(take()).toContain('harrowmere/620, visit of 2026-06-16: added');
    expect(visitsOf('harrowmere', '620')).toEqual([
      {
        date: today,
        by: 'Marra Quillfen',
        kind: 'first',
        found: { a: { stage: 'M1' } },
        recheck: '2026-07-14',
      },
    ]);
    expect(text()).not.toContain('amended');
    await page.goto(`${home}harrowmere/620`);
    await page.getByRole('link', { name: 'Change the visit of 16 June 2026 that was sent' }).tap();
    // The day is shown as it was tapped, so that another tap is another day.
    expect(await page.getByLabel('4 wk').isChecked()).toBe(true);
    expect(await page.locator('[id="f-recheck"]').inputValue()).toBe('');
    await inField('found.a.stage', 'M2 raw ulcer').tap();
    await send();
  });
  const before = text();
  expect(take()).toContain('harrowmere/620, visit of 2026-06-16: added');
  const own = new Set(before.split('\n'));
  expect(
    text()
      .split('\n')
      .filter((line) => !own.has(line)),
  ).toEqual([
    '      a: { stage: M2 }',
    '    amended:',
    `      - { date: ${today}, by: Marra Quillfen, why: "put right on the form of that day" }`,
  ]);
}, 60_000);

test('going back after sending shows what was typed, and sending it again keeps it once', async () => {
  await withPage(phone, async (page) => {
    await page.goto(`${home}quasselbrook/`);
    await page.locator('.go a:has(strong)').first().click();
    await page.getByLabel('Anything else').fill('seen at the gate');
    await page.getByRole('button', { name: 'Send this visit' }).click();
    await page.getByRole('heading', { name: 'Kept' }).waitFor();
    await page.goBack();
    expect(await page.getByLabel('Anything else').inputValue()).toBe('seen at the gate');
    await page.getByRole('button', { name: 'Send this visit' }).click();
    await page.getByText('Already kept').waitFor({ timeout: 5000 });
  });
  const inbox = join(folder, 'cases/quasselbrook/.growdown/inbox/visits.jsonl');
  expect(readFileSync(inbox, 'utf8').trim().split('\n')).toHaveLength(1);
}, 60_000);

test.each(['light', 'dark'] as const)(
  'axe finds nothing against WCAG 2.2 AA, and nothing is wider than the phone: %s',
  async (colorScheme) => {
    const pages = ['', 'quernholt/', 'quernholt/2086', 'quernholt/2190', 'quernholt/+', 'harrowmere/'];
    await withPage({ viewport: { width: 320, height: 740 }, colorScheme, bypassCSP: true }, async (page) => {
      for (const at of pages) {
        await page.goto(`${home}${at}`);
        await page.evaluate("document.querySelectorAll('details').forEach((one) => (one.open = true))");
        await page.evaluate(axe);
        expect(
          await page.evaluate(
            axeOver(colorScheme === 'light' ? { type: 'tag', values: allRules } : colourRules),
          ),
          at,
        ).toEqual([]);
        expect(await page.evaluate('document.documentElement.scrollWidth'), at).toBe(320);
        const small =
          await page.evaluate(`[...document.querySelectorAll('button:not([aria-hidden]), summary, .tiles label, .go a, .back a, select, input:not([type=hidden], .tiles input), textarea')]
        .filter((one) => one.getClientRects().length > 0 && (one.getBoundingClientRect().height < 44 || one.getBoundingClientRect().width < 44))
        .map((one) => one.outerHTML.slice(0, 120))`);
        expect(small, at).toEqual([]);
      }
    });
  },
  60_000,
);

test('the pages are valid HTML', async () => {
  const validator = new HtmlValidate({
    extends: ['html-validate:recommended'],
    rules: {
      'long-title': 'off',
      // HTML takes any id without blanks; these are the ways to the keys of a visit.
      'valid-id': ['error', { relaxed: true }],
      // Several words ticked under one key, and the same question beside each expected reading.
      'form-dup-name': 'off',
    },
  });
  // All are fetched first: judging one takes longer than the server holds a line open.
  const pages = ['', 'quernholt/', 'quernholt/2086', 'quernholt/2190', 'quernholt/+'];
  const texts = await Promise.all(pages.map(async (at) => (await fetch(`${home}${at}`)).text()));
  for (const [index, html] of texts.entries()) {
    const { results } = await validator.validateString(html);
    expect(
      results.flatMap(({ messages }) =>
        messages.map(({ ruleId, message, line }) => `${ruleId} ${line}: ${message}`),
      ),
      pages[index],
    ).toEqual([]);
  }
});

test('any visit, drawn on its form and sent by a browser, is the same record', async () => {
  const words = wordsOf('en-GB');
  const farm = {
    slug: 'x',
    farm: { farm: 'X' },
    narrative: '',
    source: { file: '', placeOf: () => ({ line: 1, column: 1 }) },
    cases: [],
  };
  const record = { slug: '2086', animal, narrative: '', source: farm.source };
  const work = workOutCase(farm, record, { business: {}, today, prior: publishedPrior });
  await withPage({}, async (page) => {
    for (const draft of fc.sample(anyDraft, { seed: 20261125, numRuns: 15 })) {
      const values = valuesOfVisit(draft);
      const html = renderForm(
        visitPage({
          words, farmName: 'X', work, isNew: false, sent: [], form: visitForm(made, values), id: 'x', today, values,
          troubles: new Map(), refused: [], mayKeep: 'no', held: new Map(),
        }), // prettier-ignore
      );
      await page.setContent(html);
      const sent = new Map<string, string[]>();
      const pairs: [string, string][] = await page.evaluate(
        "[...new FormData(document.forms[0])].filter(([, value]) => typeof value === 'string')",
      );
      for (const [name, value] of pairs) sent.set(name, [...(sent.get(name) ?? []), value]);
      const read = readForm(visitForm(made, sent), sent, today);
      expect([...read.troubles]).toEqual([]);
      expect(sorted(read.draft)).toEqual(sorted(withoutEmpty(draft)));
    }
  });
}, 60_000);
