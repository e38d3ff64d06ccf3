// What whole commands cost on an invented business, each as a ratio to plain Eleventy building one trivial page a case
// from the same files, in turn with it: the median of the ratios. Plain Node, after `npm run build`.
// The table is written to tests/bench/README.md.
//   node tests/bench/whole-runs.mjs [--farms 100] [--runs 5]
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { makeBusiness } from './make-business.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));
const { values } = parseArgs({ options: { farms: { type: 'string' }, runs: { type: 'string' } } });
const [farms, runs] = [Number(values.farms ?? 100), Number(values.runs ?? 5)];
const folder = mkdtempSync(join(tmpdir(), 'growdown-bench-'));
const cases = join(folder, 'cases');
const eleventy = join(folder, 'eleventy');

/** Seconds a command takes from start to end. */
function seconds(words, cwd = folder) {
  const began = performance.now();
  const done = spawnSync(process.execPath, words, { cwd, stdio: 'ignore' });
  if (done.status !== 0) throw new Error(`${words.join(' ')}: ${done.status ?? done.signal}`);
  return (performance.now() - began) / 1000;
}

const growdown = (...words) => seconds([join(root, 'dist', 'cli', 'main.js'), ...words]);
const on = (command, today, ...more) => growdown(command, '--cases', cases, '--today', today, ...more);
const books = (today, ...more) => on('books', today, '--out', join(folder, 'books'), ...more);
const yardstick = () =>
  seconds(
    [join(root, 'node_modules', '@11ty', 'eleventy', 'cmd.cjs'), '--config=config.mjs', '--quiet'],
    eleventy,
  );
const bare = () => seconds(['-e', '0']);

function saveOneWord() {
  const file = join(cases, 'farm-0000', '1000.md');
  const text = readFileSync(file, 'utf8');
  writeFileSync(file, text.includes('gates') ? text.replace('gates', 'gate') : text.replace('gate', 'gates'));
}

let day = 0;
const nextDay = () => new Date(Date.parse('2026-06-16') + (day += 1) * 86_400_000).toISOString().slice(0, 10);
const today = () => new Date(Date.parse('2026-06-16') + day * 86_400_000).toISOString().slice(0, 10);
const forget = () => rmSync(join(cases, '.growdown'), { recursive: true, force: true });

const figures = [
  { name: 'books, nothing kept', beside: yardstick, before: forget, measure: () => books(today()) },
  { name: 'books, nothing changed', beside: yardstick, before: () => {}, measure: () => books(today()) },
  { name: 'books, a new day', beside: yardstick, before: () => {}, measure: () => books(nextDay()) },
  { name: 'books, one word saved', beside: yardstick, before: saveOneWord, measure: () => books(today()) },
  {
    name: 'books of one farm',
    beside: yardstick,
    before: saveOneWord,
    measure: () => books(today(), '--farm', 'farm-0000'),
  },
  { name: 'check, nothing kept', beside: yardstick, before: forget, measure: () => on('check', today()) },
  { name: 'check again', beside: yardstick, before: () => {}, measure: () => on('check', today()) },
  { name: '--help, to bare Node', beside: bare, before: () => {}, measure: () => growdown('--help') },
];

try {
  makeBusiness(cases, { farms });
  mkdirSync(join(eleventy, 'includes'), { recursive: true });
  writeFileSync(
    join(eleventy, 'includes', 'page.njk'),
    '<!DOCTYPE html><title>{{ animal }}</title><h1>{{ animal }}</h1>{{ content | safe }}\n',
  );
  writeFileSync(
    join(eleventy, 'config.mjs'),
    "export default (c) => {\n  c.addGlobalData('layout', 'page.njk');\n" +
      "  return { dir: { input: '../cases', includes: '../eleventy/includes', output: 'out' } };\n};\n",
  );
  yardstick();
  const rows = figures.map(({ name, beside, before, measure }) => {
    const ratios = Array.from({ length: runs }, () => {
      before();
      const took = measure();
      return took / beside();
    }).sort((a, b) => a - b);
    const row = `| ${[name, ...[Math.floor(runs / 2), 0, runs - 1].map((at) => ratios[at].toFixed(2))].join(' | ')} |`;
    console.log(row);
    return row;
  });
  const table = join(root, 'tests', 'bench', 'README.md');
  writeFileSync(
    table,
    `# Whole commands beside plain Eleventy

Written by \`npm run bench\`: ${farms * 50} invented cases on ${farms} farms, each figure as a ratio to plain Eleventy building one trivial page a case from the same files, ${runs} times in turn with it. \`--help\` is compared with the bare start of Node.

| what | median | least | most |
| --- | --- | --- | --- |
${rows.join('\n')}
`,
  );
  spawnSync(process.execPath, [
    join(root, 'node_modules', 'prettier', 'bin', 'prettier.cjs'),
    '--write',
    table,
  ]);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
