import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const src = new URL('../../src/', import.meta.url);
const exported = /^export (?:async )?(?:function|const|class|interface|type) (\w+)/gm;

test('no name is exported twice with two meanings', () => {
  const places = new Map<string, Set<string>>();
  for (const file of readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  ))
    for (const [, name] of readFileSync(new URL(file.replaceAll('\\', '/'), src), 'utf8').matchAll(exported))
      places.set(name!, (places.get(name!) ?? new Set()).add(file.replaceAll('\\', '/')));
  expect(places.size).toBeGreaterThan(1000);
  // The page's own door to `shared/` takes the place of the program's.
  const twice = [...places].filter(([name, files]) => files.size > 1 && name !== 'readShared');
  expect(twice.map(([name, files]) => `${name}: ${[...files].join(', ')}`)).toEqual([]);
});
