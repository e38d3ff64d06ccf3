import { readdirSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { expect, test } from 'vitest';

const texts = new Map(
  ['src', 'tests']
    .flatMap((top) =>
      readdirSync(top, { recursive: true, encoding: 'utf8' }).map(
        (name) => `${top}/${name.replaceAll('\\', '/')}`,
      ),
    )
    .filter((file) => /\.(ts|mts|mjs)$/.test(file))
    .map((file) => [file, readFileSync(file, 'utf8')]),
);

/** The files that a file imports or names, types alone apart. */
const uses = new Map(
  [...texts].map(([file, text]) => [
    file,
    [...text.replaceAll(/^(import|export) type [^;]*;/gm, '').matchAll(/'(\.[^'\n]+)'/g)]
      .map(([, path]) => posix.join(posix.dirname(file), path!))
      .flatMap((path) => [path, path.replace(/^dist\//, 'src/').replace(/\.js$/, '.ts')])
      .filter((path) => texts.has(path)),
  ]),
);

/** All that is reached from some files, themselves with it, going on only from those that `through` lets pass. */
function reached(from: readonly string[], through: (file: string) => boolean): Set<string> {
  const all = new Set(from);
  for (const file of all) if (through(file)) for (const used of uses.get(file) ?? []) all.add(used);
  return all;
}

const roomOf = (file: string) => file.split('/')[1];

/** What a test that runs commands runs: what in `cli` is named like it or its folder, and the folder it mirrors. */
function commandsOf(file: string): string[] {
  const [folder, name] = [posix.dirname(file), posix.basename(file, '.test.ts')].map((path) =>
    posix.basename(path),
  );
  return [...texts.keys()].filter(
    (one) =>
      one.startsWith(`${posix.dirname(file).replace('tests/', 'src/')}/`) ||
      (one.startsWith('src/cli/') && (one.includes(`/${folder}/`) || one.split(/[/.]/).includes(name!))),
  );
}

/**
 * Whether a test can test a module: it imports or runs it, or a module that imports it, or comes to it from those
 * through modules of its own room, or of `run`, alone. What is in files of tests that it imports counts as its own.
 */
function canTest(file: string, module: string): boolean {
  const taken = [...reached([file], (one) => one.startsWith('tests/'))];
  if (taken.some((one) => one.startsWith('src/cli/'))) taken.push(...commandsOf(file));
  return (
    reached(taken, (one) => taken.includes(one)).has(module) ||
    reached(taken, (one) => taken.includes(one) || [roomOf(module), 'run'].includes(roomOf(one))).has(module)
  );
}

/** Each `Checked:` in a doc comment, with what it names. */
const claims = [...texts]
  .filter(([file]) => file.startsWith('src/'))
  .flatMap(([file, text]) =>
    [...text.matchAll(/\bChecked:(.*(?:\n\s*\* {3,}\S.*)*)/g)].map(([, said]) => ({
      file,
      names: said!.match(/[\w./-]+\.test\.ts|tests\/[\w./-]+/g) ?? [],
    })),
  );

test('each `Checked:` names a test that exists and comes to what it is said to check', () => {
  expect(claims.length).toBeGreaterThan(200);
  const wrong = claims.flatMap(({ file, names }) => {
    const bad = names.filter((name) => {
      const tests = [...texts.keys()].filter(
        (one) => one === name || (one.startsWith(`${name.replace(/\/$/, '')}/`) && one.endsWith('.test.ts')),
      );
      return !tests.some((one) => canTest(one, file));
    });
    return names.length === 0 ? [`${file}: none`] : bad.map((name) => `${file}: ${name}`);
  });
  expect(wrong).toEqual([]);
});
