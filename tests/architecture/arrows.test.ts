import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const src = new URL('../../src/', import.meta.url);

/** Outermost first: a room may use those after it, never those before it. */
const order = [
  'cli',
  'archive',
  'form',
  'post',
  'overview',
  'audit',
  'handover',
  'round',
  'guide',
  'book',
  'figure',
  'words',
  'money',
  'herd',
  'schedule',
  'healing',
  'growth',
  'statistics',
];
/** What everybody may use. */
const open = ['record', 'reference', 'problem'];
/** Rooms beside the line, and all they may use besides themselves. */
const beside: Record<string, readonly string[]> = {
  casefile: [...open, 'ledger'],
  record: ['problem', 'reference'],
  reference: ['record'],
  problem: ['record', 'reference'],
  statistics: ['reference'],
  setup: [],
  picture: open,
  pdf: ['problem'],
  note: open,
  keep: [...open, 'casefile', 'ledger'],
  ledger: open,
  bag: open,
  // What a command is handed: its effects, the records it reads, what all farms teach, what it tells the shell.
  run: [...open, 'casefile', 'keep', 'bag', 'pdf', 'herd'],
  // What is exchanged is laid out by what `casefile` wants at each place, and a wrong file is reported in its words.
  exchange: [...open, 'ledger', 'keep', 'casefile'],
};
/** Rooms beside the line that only some may use. */
const users: Record<string, readonly string[]> = {
  run: ['cli', 'archive', 'form', 'post', 'round'],
  casefile: ['cli', 'archive', 'form', 'post', 'keep', 'exchange', 'run'],
  picture: ['cli', 'archive', 'form', 'book'],
  pdf: ['cli', 'archive', 'post', 'run'],
  note: ['cli', 'form'],
  keep: ['cli', 'archive', 'form', 'post', 'exchange', 'run'],
  ledger: ['cli', 'archive', 'form', 'casefile', 'keep', 'book', 'audit', 'exchange', 'post', 'overview'],
  bag: ['cli', 'archive', 'run'],
  exchange: ['cli', 'archive', 'audit'],
};

function mayUse(from: string, to: string): boolean {
  if (from === to) return true;
  if (from in beside) return beside[from]!.includes(to);
  if (open.includes(to)) return true;
  if (to in users) return users[to]!.includes(from);
  return order.includes(from) && order.indexOf(to) > order.indexOf(from);
}

const arrows = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .map((name) => name.replaceAll('\\', '/'))
  .filter((name) => name.endsWith('.ts') && name.includes('/'))
  .flatMap((file) => {
    const text = readFileSync(new URL(file, src), 'utf8');
    const targets = [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+\.js)'/g)].map((match) => match[1]!);
    return targets.map((written) => {
      const target = new URL(written, new URL(file, src)).pathname
        .slice(src.pathname.length)
        .replace(/\.js$/, '.ts');
      return { file, target, from: file.split('/')[0]!, to: target.split('/')[0]! };
    });
  });

test('imports are found at all', () => {
  expect(arrows.length).toBeGreaterThan(50);
});

test('arrows point inward: no room uses one that is further out', () => {
  const wrong = arrows.filter(({ from, to }) => !mayUse(from, to));
  expect(wrong.map(({ file, to }) => `${file} → ${to}`)).toEqual([]);
});

test('the rule can fail: a wrong arrow is distinguished from a right one', () => {
  expect(mayUse('growth', 'book')).toBe(false);
  expect(mayUse('statistics', 'record')).toBe(false);
  expect(mayUse('healing', 'casefile')).toBe(false);
  expect(mayUse('book', 'keep')).toBe(false);
  expect(mayUse('book', 'growth')).toBe(true);
});

test('no clock and no chance outside the command line, and the page that is its own program', () => {
  const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter(
    (name) =>
      name.endsWith('.ts') && !/^cli\/|^form\/one-file\/in-browser\//.test(name.replaceAll('\\', '/')),
  );
  const guilty = files.filter((file) =>
    /new Date\(\)|Date\.now|Math\.random|performance\.now|randomUUID/.test(
      readFileSync(new URL(file.replaceAll('\\', '/'), src), 'utf8'),
    ),
  );
  expect(guilty).toEqual([]);
});

test('no two files need each other, by whatever way round', () => {
  const uses = new Map<string, string[]>();
  for (const { file, target } of arrows) uses.set(file, [...(uses.get(file) ?? []), target]);
  const circles: string[] = [];
  const done = new Set<string>();
  const visit = (file: string, way: readonly string[]): void => {
    const at = way.indexOf(file);
    if (at >= 0) circles.push([...way.slice(at), file].join(' → '));
    if (at >= 0 || done.has(file)) return;
    for (const next of uses.get(file) ?? []) visit(next, [...way, file]);
    done.add(file);
  };
  for (const file of uses.keys()) visit(file, []);
  expect(circles).toEqual([]);
});

const guide = new URL('../DEVELOPERS.md', src);
const drawn = /(?<=```\n)cli →[\s\S]*?(?=```)/;

/** What each room uses, outermost first, as the code has it. */
function drawing(): string {
  const rooms = [
    ...order,
    ...[...new Set(arrows.map(({ from }) => from))].filter((room) => !order.includes(room)).sort(),
  ];
  return rooms
    .flatMap((room) => {
      const used = [
        ...new Set(arrows.filter(({ from, to }) => from === room && to !== room).map(({ to }) => to)),
      ];
      return used.length === 0 ? [] : [`${room} → ${used.sort().join(', ')}\n`];
    })
    .join('');
}

test('the drawing in DEVELOPERS.md is what the code has', () => {
  const text = readFileSync(guide, 'utf8');
  if (process.env['UPDATE_EXPECTED']) writeFileSync(guide, text.replace(drawn, drawing()));
  expect(drawn.exec(readFileSync(guide, 'utf8'))?.[0]).toBe(drawing());
});

test('before a command is known nothing is loaded that reads, works out or draws records', () => {
  const packages = new Set<string>();
  const seen = new Set<string>();
  const load = (file: string): void => {
    if (seen.has(file)) return;
    seen.add(file);
    const text = readFileSync(new URL(file, src), 'utf8');
    for (const [, written = ''] of text.matchAll(/^(?:import|export) (?!type )[^;]*?from '([^']+)';/gm))
      if (written.startsWith('.'))
        load(new URL(written.replace(/js$/, 'ts'), new URL(file, src)).pathname.slice(src.pathname.length));
      else if (!written.startsWith('node:')) packages.add(written);
  };
  load('cli/main.ts');
  expect([...packages].sort()).toEqual(['commander', 'zod']);
  expect([...seen].filter((file) => /^(?:growth|healing|schedule|book|figure)\//.test(file))).toEqual([]);
});
