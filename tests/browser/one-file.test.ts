import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import * as fc from 'fast-check';
import { HtmlValidate } from 'html-validate';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { stringify } from 'yaml';
import { visitAsText } from '../../src/form/one-file/visit-as-text.js';
import { renderForm } from '../../src/form/yard/serve.js';
import { valuesOfVisit } from '../../src/form/said-pages.js';
import { visitForm } from '../../src/form/visit-form.js';
import { visitPage } from '../../src/form/visit-page.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import type { VisitDraft } from '../../src/keep/visit-draft.js';
import { doubtsOfDraft } from '../../src/record/doubts.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { wordsOf } from '../../src/reference/words.js';
import { folderWith } from '../cli/run-in-folder.js';
import { anyDraft } from '../form/any-draft.js';
import { asSent, asTaken, farmText, inMemory, recordIn } from '../form/as-taken.js';
import { animal, made } from '../form/made-for.js';
import { demoFarm, farmOf, oneFileFor } from '../form/one-file-for.js';
import { sorted } from '../form/sorted.js';
import { openBrowser } from './find-browser.js';
import { allRules, axe, axeOver } from './axe.js';
import { inPage } from './in-page.js';

const day = '2026-06-16';
/** In the dark nothing but colours differs. */
const colourRules = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] };
const phone: BrowserContextOptions = { viewport: { width: 360, height: 740 } };

let browser: Browser;
let folder: string;
/** A demo farm's form, and one of an animal with a lesion of each kind. */
let demo: string;
let ofEach: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'growdown-one-file-'));
  const put = async (name: string, html: Promise<string>): Promise<string> => {
    writeFileSync(join(folder, name), await html);
    return pathToFileURL(join(folder, name)).href;
  };
  [browser, demo, ofEach] = await Promise.all([
    openBrowser(),
    put('demo.html', oneFileFor(demoFarm('quernholt', day), day)),
    put('each.html', oneFileFor(farmOf(animal), day)),
  ]);
}, 60_000);
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Opens a form from its file; `said` is every complaint on the console, `asked` every address asked for. */
async function withForm<T>(
  address: string,
  options: BrowserContextOptions & { readonly before?: string },
  look: (page: Page, told: { said: string[]; asked: string[] }) => Promise<T>,
): Promise<T> {
  const { before, ...more } = options;
  const context = await browser.newContext(more);
  const told = { said: [] as string[], asked: [] as string[] };
  context.on('request', (request) => told.asked.push(request.url()));
  if (before !== undefined) await context.addInitScript(before);
  const page = await context.newPage();
  page.on('console', (message) => told.said.push(message.text()));
  page.on('pageerror', (error) => told.said.push(error.message));
  await page.clock.setFixedTime(new Date(`${day}T12:00:00`));
  try {
    await page.goto(address);
    return await look(page, told);
  } finally {
    await context.close();
  }
}

const tile = (page: Page, field: string, label: string) =>
  page.locator(`[id="f-${field}"]`).getByLabel(label, { exact: true });

test('opened as a file on a phone: two visits filled in, kept over closing, handed over as one text, and taken', async () => {
  const texts = await withForm(
    demo,
    { ...phone, hasTouch: true, acceptDownloads: true },
    async (page, { said, asked }) => {
      await page.getByRole('link', { name: /^2301/ }).tap();
      // What was read before and what is expected appears nowhere, open or folded, until the visit is written down.
      const readBefore = /top \d|should read|scored \d/;
      expect(await page.locator('main').textContent()).not.toMatch(readBefore);
      const top = page.locator('[id="f-found.a.top"]');
      await tile(page, 'found.a.state', 'Covered').tap();
      await top.fill('51,5 mm');
      await page.locator('[id="f-found.a"] .more > summary').tap();
      await tile(page, 'found.a.tool', 'Tape').tap();
      await page.getByLabel('4 wk').tap();
      await page.getByLabel('Anything else').fill('easier on it\nsince "Monday"');
      await page.getByRole('button', { name: 'Save this visit' }).tap();
      await page.locator('.wrong').getByText('51,5 mm').tap();
      await page.locator('[id="f-found.a.top"]:focus').fill('51,5');
      await page.getByRole('button', { name: 'Save this visit' }).tap();
      await page.getByRole('status').getByText('Saved: 2301, 16 June 2026.').waitFor();
      expect(await page.getByRole('status').textContent()).toMatch(readBefore);

      await page.getByRole('link', { name: /^2078/ }).tap();
      await page.getByLabel('Anything else').fill('seen at the gate');
      // Closed and opened again, the draft is there.
      await page.reload();
      await page.goto(demo);
      await page.getByText('Begun and not saved: 2078.').waitFor();
      await page.getByRole('link', { name: /^2078/ }).tap();
      expect(await page.getByLabel('Anything else').inputValue()).toBe('seen at the gate');
      await page.getByRole('button', { name: 'Save this visit' }).tap();

      await page.getByRole('link', { name: /^Hand the visits over/ }).tap();
      const text = await page.getByLabel('The text').inputValue();
      const saving = page.waitForEvent('download');
      await page.getByRole('button', { name: 'Save it as a file' }).tap();
      const saved = await saving;
      expect(saved.suggestedFilename()).toBe('quernholt-2026-06-16.txt');
      expect(readFileSync(await saved.path(), 'utf8')).toBe(text);
      await page.getByRole('button', { name: 'Copy the text' }).tap();
      await page
        .getByRole('status')
        .getByText(/^(Copied|This browser did not let)/)
        .waitFor();
      expect(said).toEqual([]);
      expect(asked.filter((address) => !/^(file|blob):/.test(address))).toEqual([]);

      await page.getByText('Once it has been taken').tap();
      await page.getByRole('button', { name: 'Take them off this page' }).tap();
      expect(await page.getByRole('link', { name: /^Hand the visits over/ }).count()).toBe(0);
      return text;
    },
  );

  expect(texts).toContain('farm quernholt\ndate 2026-06-16\nanimal 2301.md\n');
  const files = demoFarm('quernholt', day).cases.map(({ slug }) => `cases/quernholt/${slug}.md`);
  const { put, growdown } = folderWith({
    ...Object.fromEntries(files.map((name) => [name, readFileSync(name)])),
    'cases/quernholt/farm.md': readFileSync('cases/quernholt/farm.md'),
  });
  put('note.txt', texts);
  const taken = await growdown('take', 'note.txt', '--yes', '--today', day);
  expect(taken.code, taken.out + taken.err).toBe(0);
  expect(taken.out.match(/^ {2}added$/gm)).toHaveLength(2);
  const again = await growdown('take', 'note.txt', '--yes', '--today', day);
  expect(again.out.match(/^ {2}already there$/gm)).toHaveLength(2);
}, 60_000);

test('a case is opened and a lesion added with no network; the text is taken as it was filled in, once', async () => {
  const text = await withForm(demo, { ...phone, hasTouch: true }, async (page, { said }) => {
    const write = (): Promise<void> => page.getByRole('button', { name: 'Save this visit' }).tap();
    const open = async (number: string): Promise<void> => {
      await page.getByText('Open a case for a cow without one').tap();
      await page.getByLabel('Her number').fill(number);
    };
    await open('2501');
    await page.getByRole('link', { name: 'All animals' }).tap();
    await open('2301');
    await page.locator('[id="f-lesions.a.code"]').selectOption('WL');
    // What fits no gap is not asked of one.
    expect(await page.locator('[id="f-found.a.stage"]').count()).toBe(0);
    await tile(page, 'lesions.a.foot', 'LH').tap();
    await tile(page, 'lesions.a.line', 'Heel line').tap();
    await tile(page, 'found.a.state', 'Open').tap();
    await write();
    await page.locator('.wrong').getByText('2301 already has a case here').waitFor();
    await page.getByLabel('Her number').fill('2500');
    await write();
    await page.getByRole('status').getByText('Saved: 2500').waitFor();
    // Both drafts are kept, each for itself.
    await page.getByText('Begun and not saved: 2501.').waitFor();
    await page.getByRole('link', { name: /^2500/ }).tap();
    await page.getByLabel('Her tag').fill('UK 000123 402500');
    await write();
    await page.getByRole('link', { name: /^2301/ }).tap();
    await page.getByText('Something new, or healed').tap();
    await page.locator('[id="f-found.b"] > summary').tap();
    await page.locator('[id="f-lesions.b.code"]').selectOption('DD');
    await tile(page, 'lesions.b.foot', 'RH').tap();
    await tile(page, 'found.b.stage', 'M2 raw ulcer').tap();
    await page.getByLabel('As last time: covered, top seen, ruler').tap();
    await page.locator('[id="f-found.a.top"]').fill('51');
    await write();
    await page.getByRole('link', { name: /^Hand the visits over/ }).tap();
    expect(said).toEqual([]);
    return page.getByLabel('The text').inputValue();
  });
  const {
    folder: at,
    put,
    growdown,
  } = folderWith({
    'cases/quernholt/farm.md': readFileSync('cases/quernholt/farm.md'),
    'cases/quernholt/2301.md': readFileSync('cases/quernholt/2301.md'),
  });
  put('note.txt', text);
  const taken = await growdown('take', 'note.txt', '--yes', '--today', day);
  expect(taken.code, taken.out + taken.err).toBe(0);
  expect(
    (await growdown('take', 'note.txt', '--yes', '--today', day)).out.match(/already there/g),
  ).toHaveLength(2);
  const file = (slug: string): string => readFileSync(join(at, `cases/quernholt/${slug}.md`), 'utf8');
  expect(file('2500')).toBe(
    `---\ncasefile: 1\nanimal: "2500"\ntag: "UK 000123 402500"\nlesions:\n  a: { code: WL, foot: LH, line: heel }\nvisits:\n  - date: ${day}\n    by: Orla Venn\n    kind: first\n    found:\n      a: { state: open }\n---\n`,
  );
  expect(file('2301')).toContain('  b: { code: DD, foot: RH }\n');
  expect(file('2301')).toContain(
    '      a: { state: covered, top: 51, top-found: seen, tool: ruler }\n      b: { stage: M2 }\n',
  );
}, 60_000);

test('where the browser keeps nothing, that is said before anything is typed, and the form still works', async () => {
  const before = `Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } })`;
  await withForm(ofEach, { ...phone, before }, async (page, { said }) => {
    await page.getByRole('note').getByText('This browser keeps nothing for this page.').waitFor();
    await page.getByRole('link', { name: /^2086/ }).click();
    await page.getByRole('note').getByText('is lost when the page is closed').waitFor();
    await page.getByLabel('Anything else').fill('seen');
    await page.getByRole('button', { name: 'Save this visit' }).click();
    await page.getByRole('link', { name: /^Hand the visits over/ }).click();
    expect(await page.getByLabel('The text').inputValue()).toContain('note "seen"');
    expect(said).toEqual([]);
  });
});

test('with scripts off it says that it needs them, and what there is instead', async () => {
  await withForm(demo, { ...phone, javaScriptEnabled: false }, async (page) => {
    expect(await page.locator('main').innerText()).toMatch(
      /needs scripts[^]*growdown sheet[^]*growdown yard/,
    );
    expect(await page.locator('form').count()).toBe(0);
  });
});

test('axe finds nothing against WCAG 2.2 AA, and nothing is wider than the phone, in any view, light and dark', async () => {
  await withForm(demo, { ...phone, bypassCSP: true }, async (page) => {
    await page.getByRole('link', { name: /^2301/ }).click();
    await page.getByLabel('Anything else').fill('seen');
    await page.getByRole('button', { name: 'Save this visit' }).click();
    await page.evaluate(axe);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      for (const view of ['', 'a=2301', 'a=2203', 'text']) {
        await page.evaluate(`location.hash = ${JSON.stringify(view)}`);
        await page.waitForFunction(`document.activeElement?.tagName === 'H1'`);
        await page.evaluate(inPage.unfold);
        const rules = colorScheme === 'light' ? allRules : colourRules;
        expect(await page.evaluate(axeOver(rules)), `${view} ${colorScheme}`).toEqual([]);
        expect(await page.evaluate(inPage.width), view).toBe(360);
      }
    }
  });
}, 60_000);

test('whatever is in a record is text on every view, and no markup', async () => {
  const evil = `<img src=x onerror="document.title='run'"> &amp; "'{{ 7*7 }}</textarea></main><script>document.title='run'</script>`;
  const marked = farmOf({ ...animal, animal: evil, handling: evil }, evil);
  const cases = marked.cases.map((one) => ({ ...one, slug: '2086' }));
  const file = join(folder, 'evil.html');
  writeFileSync(file, await oneFileFor({ ...marked, cases }, day));
  await withForm(pathToFileURL(file).href, {}, async (page, { said }) => {
    const holds = async (selector: string, text: string): Promise<void> => {
      expect(await page.locator(selector).first().textContent()).toContain(text);
      expect(await page.locator('main').count()).toBe(1);
      expect(await page.locator('img, main script').count()).toBe(0);
      expect(await page.title()).not.toBe('run');
    };
    await holds('h1', evil);
    await holds('.go strong', evil);
    await page.locator('.go a:has(strong)').first().click();
    await page.locator('form').waitFor();
    await holds('.back', evil);
    await holds('h1', evil);
    await holds('.quiet', `Handling: ${evil}`);
    await page.getByLabel('Anything else').fill(evil);
    await page.locator('[id="f-found.a.top"]').fill(evil.slice(0, 16));
    await page.getByRole('button', { name: 'Save this visit' }).click();
    await holds('.wrong a', '<img src=x');
    await holds('.trouble', '<img src=x');
    expect(await page.getByLabel('Anything else').inputValue()).toBe(evil);
    expect(await page.locator('[id="f-found.a.top"]').inputValue()).toBe(evil.slice(0, 16));
    await page.locator('[id="f-found.a.top"]').fill('');
    await page.getByRole('button', { name: 'Save this visit' }).click();
    await page.getByRole('status').waitFor();
    await holds('[role=status]', evil);
    await page.getByRole('link', { name: /^Hand the visits over/ }).click();
    await page.locator('#text').waitFor();
    await holds('.go.small span', evil);
    expect(await page.locator('#text').inputValue()).toContain('onerror=');
    expect(said).toEqual([]);
  });
});

test('what is left out or said twice is reported by its field; asking for more room leaves the reader where she is', async () => {
  await withForm(ofEach, phone, async (page, { said }) => {
    await page.getByRole('link', { name: /^2086/ }).click();
    await page.getByLabel('Anything else').fill('seen');
    await page.getByLabel('4 wk').click();
    await page.locator('[id="f-recheck"]').fill('2026-08-01');
    await page.getByText('General signs, who, time, tools').click();
    await page.locator('[id="f-by"]').fill('');
    await page.getByText('Trimmed, block, wrap, product').click();
    const fields = await page.locator('form .field').count();
    await page.locator('#fold-work').getByRole('button', { name: 'More blank entries' }).click();
    expect(await page.locator('form .field').count()).toBeGreaterThan(fields);
    expect(
      await page.locator('#fold-work[open]').evaluate((one) => one.getBoundingClientRect().top),
    ).toBeCloseTo(0, -1);
    expect(await page.getByLabel('Anything else').inputValue()).toBe('seen');
    await page.getByRole('button', { name: 'Save this visit' }).click();
    expect(await page.locator('.wrong:focus li').allTextContents()).toEqual([
      'Again in: both “2026-08-01” and “4 weeks”, expected one of them',
      'Who was there: nothing, expected an answer',
    ]);
    expect(said).toEqual([]);
  });
});

test('the file is valid HTML', async () => {
  const validator = new HtmlValidate({ extends: ['html-validate:recommended'] });
  const html = await withForm(demo, { javaScriptEnabled: false }, (page) =>
    Promise.resolve(new URL(page.url())),
  );
  const { results } = await validator.validateString(readFileSync(html, 'utf8'));
  expect(results.flatMap(({ messages }) => messages.map(({ ruleId, line }) => `${ruleId} ${line}`))).toEqual(
    [],
  );
});

/** Every control of a form: name, kind, value, whether chosen, and the words of its label. */
const controls = `[...document.querySelector('form').elements]
  .filter((one) => one.name && !['hidden', 'submit', 'button'].includes(one.type))
  .map((one) => [one.name, one.type, one.value, one.checked ?? '', one.labels[0]?.innerText.trim() ?? one.getAttribute('aria-label')])`;
const words = wordsOf('en-GB');
const record = farmOf(animal);
const work = workOutCase(record, record.cases[0]!, { business: {}, today: day, prior: publishedPrior });

test('any visit: the page shows the fields of the served form, and its text is the one written here, which is taken', async () => {
  const text = `---\n${stringify(animal)}---\n`;
  const {
    folder: at2086,
    put,
    growdown,
  } = folderWith({
    'cases/quernholt/farm.md': farmText,
    'cases/quernholt/2086.md': text,
  });
  await withForm(ofEach, {}, async (page, { said }) => {
    const other = await page.context().newPage();
    // What looks like a slip is asked about on every way in: such visits are left to the tests of that.
    const isCertain = (draft: VisitDraft) => {
      const sent = asSent(asTaken(animal, { ...draft, date: '2026-06-15' }));
      return sent !== undefined && doubtsOfDraft(animal, sent, { today: '2026-11-25' }).length === 0;
    };
    const drafts = fc.sample(anyDraft.filter(isCertain), { seed: 20261125, numRuns: 4 });
    for (const [at, draft] of drafts.entries()) {
      const asNote = { ...made, asNote: true } as const;
      const sent = asSent(asTaken(animal, { ...draft, date: '2026-06-15' }));
      if (!sent) continue;
      const values = valuesOfVisit(sent);
      const visit = { id: `${at}`, slug: '2086', values: [...values] };
      await page.evaluate(
        `localStorage.clear(); localStorage.setItem('growdown form 1 quernholt ${at}', ${JSON.stringify(JSON.stringify(visit))}); location.hash = 'v=${at}'`,
      );
      await page.waitForFunction(`document.forms.length === 1 && document.activeElement?.tagName === 'H1'`);
      const drawn = await page.evaluate(controls);
      await page.getByRole('button', { name: 'Save this visit' }).click();
      await page.getByRole('link', { name: /^Hand the visits over/ }).click();
      const own = await page.getByLabel('The text').inputValue();
      // As if nothing had been taken before: no visit, and no seal of one.
      put('cases/quernholt/2086.md', text);
      rmSync(join(at2086, 'cases/quernholt/.growdown'), { recursive: true, force: true });
      put('note.txt', own);
      const { code, out } = await growdown('take', 'note.txt', '--yes', '--today', '2026-11-25');
      expect({ code, out: code === 0 ? '' : out }).toEqual({ code: 0, out: '' });
      expect(out).not.toContain('✗');
      const after = recordIn(inMemory(readFileSync(join(at2086, 'cases/quernholt/2086.md'), 'utf8')));
      const visitThere = after?.visits.find(({ date }) => date === '2026-06-15');
      expect(sorted(JSON.parse(JSON.stringify(visitThere)))).toEqual(sorted(sent));
      const written = visitAsText({ farm: 'quernholt', slug: '2086' }, asNote, values, day, () => true);
      const tokens = (note: string): string[] => note.split(/[\s,]+/).toSorted();
      expect(tokens(own)).toEqual(tokens(written.outcome === 'text' ? written.text : ''));

      await other.setContent(
        renderForm(
          visitPage({
            words, farmName: 'Quernholt', work, isNew: false, sent: [], form: visitForm(asNote, values), id: 'x', today: day, values,
            troubles: new Map(), refused: [], mayKeep: 'no', held: new Map(),
          }), // prettier-ignore
        ),
      );
      expect(drawn).toEqual(await other.evaluate(controls));
    }
    expect(said).toEqual([]);
  });
}, 60_000);
