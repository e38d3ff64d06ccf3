import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const root = new URL('../../', import.meta.url);
const guide = readFileSync(new URL('DEVELOPERS.md', root), 'utf8');
const mapped = [...guide.matchAll(/^\| `([a-z/]+\/)` +\|/gm)].map((match) => match[1]!);

function foldersIn(folder: string): string[] {
  return readdirSync(new URL(folder, root), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => `${folder}${entry.name}/`);
}

test('every folder of src has its line in DEVELOPERS.md, and every line its folder', () => {
  expect(mapped.filter((place) => place.startsWith('src/')).sort()).toEqual(foldersIn('src/').sort());
  expect(mapped.filter((place) => !existsSync(new URL(place, root)))).toEqual([]);
});

test('the top level holds what the guide maps, the fixed files, dotfiles and what the tasks make, nothing else', () => {
  const fixed = [
    'README.md',
    'DEVELOPERS.md',
    'package.json',
    'package-lock.json',
    'tsconfig.json',
    'LICENSE',
  ];
  const folders = ['cases', 'layouts', 'src', 'tests', 'shared'];
  const made = ['node_modules', 'dist', 'books', 'coverage'];
  const top = readdirSync(root).filter((name) => !name.startsWith('.'));
  expect(top.filter((name) => ![...fixed, ...folders, ...made].includes(name))).toEqual([]);
});

/** The packages a table of reasons names. */
function reasonsIn(table: string): string[] {
  return [...table.matchAll(/^\| (@?[a-z\d][\w/.-]*) +\|/gm)]
    .map((match) => match[1]!)
    .filter((name) => name !== 'package')
    .sort();
}

test('every dependency has its line of reason, and no line is left over', () => {
  const pack = JSON.parse(readFileSync(new URL('package.json', root), 'utf8')) as {
    dependencies: Record<string, string>;
    devDependencies: Record<string, string>;
  };
  const [, runtime = '', development = ''] = guide.split(/^(?:Runtime|Development):\n/m);
  expect(reasonsIn(runtime)).toEqual(Object.keys(pack.dependencies).sort());
  const named = Object.keys(pack.devDependencies).filter((name) => !name.startsWith('@types/'));
  expect(reasonsIn(development)).toEqual(named.sort());
});

test('versions are pinned exactly', () => {
  const pack = JSON.parse(readFileSync(new URL('package.json', root), 'utf8')) as Record<
    string,
    Record<string, string>
  >;
  const all = { ...pack['dependencies'], ...pack['devDependencies'] };
  expect(Object.entries(all).filter(([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version))).toEqual([]);
});
