import { spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { inject } from 'vitest';
import { stepInto } from '../../src/casefile/explain/explain-key.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { type Wanted, wantedBy } from '../../src/casefile/wanted.js';
import { textOf, laidOut } from '../../src/exchange/import-records.js';
import { recordsOf } from '../../src/exchange/records-json.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Of letters the face of the pages has, where it has one. */
const accented = new Map(
  Object.entries({ a: 'à', b: 'ß', c: 'ç', d: 'đ', e: 'é', f: 'ſ', g: 'ğ', h: 'ĥ', i: 'ï', j: 'ĵ', k: 'ķ', l: 'ł', m: 'µ', n: 'ñ', o: 'ö', p: 'þ', q: 'ɋ', r: 'ŕ', s: 'š', t: 'ţ', u: 'ü', v: 'ŵ', w: 'ẁ', x: '×', y: 'ý', z: 'ž', A: 'Å', B: 'ẞ', C: 'Ç', D: 'Ð', E: 'É', F: 'Ŧ', G: 'Ğ', H: 'Ĥ', I: 'Ï', J: 'Ĵ', K: 'Ķ', L: 'Ł', M: 'Ŋ', N: 'Ñ', O: 'Ö', P: 'Þ', Q: 'Ø', R: 'Ŕ', S: 'Š', T: 'Ţ', U: 'Ü', V: 'Ŵ', W: 'Ẁ', X: 'Ǔ', Y: 'Ý', Z: 'Ž' }), // prettier-ignore
);

/** Letters accented, those that come often written twice, which makes a text some 40 % longer; gaps stay. */
function said(string: string): string {
  const parts = string.split(/(\{[a-zA-Z]+\})/);
  const letters = (text: string) =>
    [...text].map((one) => (accented.get(one) ?? one).repeat(/[aeiounr]/.test(one) ? 2 : 1)).join('');
  return parts.some((part, at) => at % 2 === 0 && /\p{L}/u.test(part))
    ? `‹${parts.map((part, at) => (at % 2 === 0 ? letters(part) : part)).join('')}›`
    : string;
}

/** Forms that English has not, for numbers such as 2 and 5. */
function pseudo(strings: unknown): unknown {
  if (typeof strings === 'string') return said(strings);
  const all = Object.entries(strings as Record<string, unknown>).map(([key, value]) => [key, pseudo(value)]);
  const own = Object.fromEntries(all) as Record<string, unknown>;
  const { one, other } = own;
  return typeof one === 'string' && typeof other === 'string'
    ? { ...own, few: `₂${other}`, many: `₅${other}` }
    : own;
}

const greek = [...'αβψδεφγηιξκλμνοπϙρστυωςχζθ'];
const capitals = [...'ΑΒΨΔΕΦΓΗΙΞΚΛΜΝΟΠϘΡΣΤΥΩϷΧΖΘ'];

/** Latin letters as Greek ones, so that words of a record are told apart from the program's. */
function inGreek(text: string): string {
  return text
    .replaceAll(/(\d)\.(\d)/g, '$1·$2')
    .replaceAll(/[a-z]/g, (one) => greek[one.charCodeAt(0) - 97]!)
    .replaceAll(/[A-Z]/g, (one) => capitals[one.charCodeAt(0) - 65]!);
}

/** What the program goes by, or what has a form of its own. */
const asWritten = new Set(['file', 'email', 'reply-to', 'animal', 'tag', 'electronic', 'currency', 'about']);

function recordInGreek(wanted: Wanted | undefined, value: unknown, key: string | number = ''): unknown {
  if (Array.isArray(value)) return value.map((one) => recordInGreek(stepInto(wanted, 0), one, key));
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(
      Object.entries(value).map(([inner, one]) => [
        inner,
        recordInGreek(stepInto(wanted, inner), one, inner),
      ]),
    );
  const isText = wanted?.kind === 'text' || wanted?.kind === 'free-text';
  return typeof value === 'string' && isText && !asWritten.has(String(key)) ? inGreek(value) : value;
}

const today = '2026-06-16';

/** Every command that makes a page or a file of words. */
const outputs = ['books --annex', 'case quernholt/2086', 'handover quernholt/2155', 'handover quernholt/2244', 'round', 'round --ics', 'overview', 'audit', 'sheet --all', 'form quernholt', 'post quernholt']; // prettier-ignore

/** All that the program makes of the demo with its words in the pseudo-language and the records in Greek letters: paths of files, and what it printed. */
export function madeInPseudo(): { readonly files: readonly string[]; readonly printed: string } {
  const folder = mkdtempSync(join(inject('folder'), 'pseudo-'));
  for (const name of ['dist', 'shared', 'layouts', '.eleventy.js', 'package.json'])
    cpSync(join(root, name), join(folder, name), { recursive: true });
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'), 'junction');
  const words = join(folder, 'shared/words/en-GB.json');
  const inPseudo = pseudo(JSON.parse(readFileSync(words, 'utf8'))) as Record<string, unknown>;
  writeFileSync(words, JSON.stringify({ ...inPseudo, number: { decimal: ',', thousands: ' ' } }));
  writeFileSync(join(folder, 'shared/words/en-US.json'), '{}');
  const staffs = join(folder, 'shared/words/staff-es.json');
  writeFileSync(staffs, JSON.stringify(pseudo(JSON.parse(readFileSync(staffs, 'utf8')))));
  // One, two to four, and five or more are three forms, as in Polish.
  writeFileSync(
    join(folder, 'plurals.mjs'),
    `const Own = Intl.PluralRules; Intl.PluralRules = class extends Own { constructor() { super('pl'); } };`,
  );

  const cases = join(folder, 'cases');
  const { practice } = readPractice(nodeCaseFiles, join(root, 'cases'), { today: today });
  const farms = practice.farms.map((one) =>
    one.slug === 'quernholt' ? { ...one, farm: { ...one.farm, 'staff-languages': ['es' as const] } } : one,
  );
  const records = recordsOf({ ...practice, farms });
  for (const one of laidOut(records, undefined)) {
    const record = recordInGreek(wantedBy(one.schema), one.record) as typeof one.record;
    mkdirSync(join(cases, one.name, '..'), { recursive: true });
    writeFileSync(join(cases, one.name), textOf({ ...one, record, narrative: inGreek(one.narrative) }));
  }
  for (const { slug } of practice.farms)
    cpSync(join(root, 'cases', slug, 'photos'), join(cases, slug, 'photos'), { recursive: true });

  const growdown = (...asked: string[]) =>
    spawnSync(
      process.execPath,
      ['--import', './plurals.mjs', 'dist/cli/main.js', ...asked, '--today', today],
      { cwd: folder, encoding: 'utf8' },
    );
  let printed = '';
  for (const asked of ['seal', ...outputs]) {
    const { status, stdout, stderr } = growdown(...asked.split(' '));
    if (status !== 0) throw new Error(`growdown ${asked}: ${stdout}${stderr}`);
    printed += stdout + stderr;
  }
  const files = ['books', 'audits'].flatMap((place) =>
    readdirSync(join(folder, place), { recursive: true, encoding: 'utf8' })
      .map((name) => join(folder, place, name))
      .filter((path) => /\.[a-z]+$/.test(path)),
  );
  return { files, printed };
}
