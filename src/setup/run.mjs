// Sets up what a task needs, then runs it: plain Node, no dependency, so it works on a fresh clone.
//   node src/setup/run.mjs start | test | bench | study | soak | build  [arguments passed on]
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const installStamp = join(root, 'node_modules', '.installed-from');
const buildStamp = join(root, 'dist', '.built-from');
const vitestConfig = join('tests', 'vitest.config.ts');
const studyConfig = join('tests', 'study', 'vitest.config.ts');
const soakConfig = join('tests', 'soak', 'vitest.config.ts');

/** The demo is always built as on this day, so it never goes stale. */
const demoDay = '2026-06-16';

const [task = '', ...rest] = process.argv.slice(2);
const tasks = { start, test, bench, study, soak, build: () => {} };
if (!Object.hasOwn(tasks, task))
  fail(`unknown task "${task}"; expected one of: ${Object.keys(tasks).join(', ')}`);

process.chdir(root);
checkNode();
install();
await build();
tasks[task]();

function start() {
  node(
    join('dist', 'cli', 'main.js'),
    'books',
    '--cases',
    'cases',
    '--out',
    'books',
    '--today',
    demoDay,
    ...rest,
  );
  console.log('\nOpen one of the files above in a browser. They need no network and no server.');
}

function test() {
  if (rest.length === 0) {
    step('types', () => {
      tool('typescript/bin/tsc', '-p', '.');
      tool('typescript/bin/tsc', '-p', join('src', 'form', 'one-file', 'in-browser'));
    });
    step('lint', () => tool('oxlint/bin/oxlint', '--type-aware', '--quiet', '.'));
    step('format', () => tool('prettier/bin/prettier.cjs', '--check', '--log-level', 'warn', '.'));
  }
  tool('vitest/vitest.mjs', 'run', '--config', vitestConfig, ...rest);
}

function bench() {
  tool('vitest/vitest.mjs', 'bench', '--run', '--config', vitestConfig, ...rest);
  if (rest.length === 0) node(join('tests', 'bench', 'whole-runs.mjs'));
}

/** Draws cows by chance and writes how far the growth model can be trusted: about a minute. */
function study() {
  tool('vitest/vitest.mjs', 'run', '--config', studyConfig, ...rest);
}

/** Kills and refuses every call of the disk of every command that writes, and 500 programs of their own: about half an hour. */
function soak() {
  tool('vitest/vitest.mjs', 'run', '--config', soakConfig, ...rest);
}

function checkNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  fail(
    `Node.js ${process.versions.node} found, 20.19 or later is needed. Install it from nodejs.org, then try again.`,
  );
}

/** Installs exactly what the lock file says, only when it has changed since. */
function install() {
  const wanted = hashOf(['package-lock.json']);
  if (existsSync(installStamp) && readFileSync(installStamp, 'utf8') === wanted) return;
  console.log('Setting up: installing the packages named in package-lock.json …');
  const npm = process.env.npm_execpath;
  const words = ['ci', '--ignore-scripts', '--no-fund', '--no-audit', '--loglevel=error'];
  const done = npm
    ? spawnSync(process.execPath, [npm, ...words], { stdio: 'inherit' })
    : spawnSync('npm', words, { stdio: 'inherit', shell: process.platform === 'win32' });
  if (done.status !== 0)
    fail('the packages could not be installed (is there a network?); nothing else was changed');
  writeFileSync(installStamp, wanted);
}

/** Compiles `src` to `dist`, only when a source has changed since. */
async function build() {
  const sources = readdirSync('src', { recursive: true })
    .filter((name) => /\.(ts|mts|mjs|json)$/.test(name))
    .toSorted((one, other) => (one < other ? -1 : 1))
    .map((name) => join('src', name));
  const wanted = hashOf([
    ...sources,
    join('layouts', 'parts', 'yard', 'form.njk'),
    'tsconfig.json',
    'package-lock.json',
  ]);
  if (existsSync(buildStamp) && readFileSync(buildStamp, 'utf8') === wanted) return;
  rmSync('dist', { recursive: true, force: true });
  tool('typescript/bin/tsc', '-p', join('src', 'setup', 'tsconfig.build.json'));
  const { bundleForm } = await import('./bundle-form.mjs');
  mkdirSync(join('dist', 'cli', 'form'), { recursive: true });
  writeFileSync(join('dist', 'form', 'in-browser.js'), await bundleForm());
  writeFileSync(buildStamp, wanted);
}

function hashOf(files) {
  const hash = createHash('sha256');
  for (const file of files)
    hash.update(file.replaceAll('\\', '/')).update('\0').update(readFileSync(file)).update('\0');
  return hash.digest('hex');
}

function step(name, run) {
  const begun = performance.now();
  run();
  console.log(`${name}: well (${((performance.now() - begun) / 1000).toFixed(1)} s)`);
}

/** Runs a tool out of node_modules by its own script, so that no shell and no PATH is involved. */
function tool(script, ...words) {
  node(join('node_modules', ...script.split('/')), ...words);
}

function node(...words) {
  const done = spawnSync(process.execPath, words, { stdio: 'inherit' });
  if (done.status !== 0) process.exit(done.status ?? 1);
}

function fail(why) {
  console.error(`growdown: ${why}`);
  process.exit(2);
}
