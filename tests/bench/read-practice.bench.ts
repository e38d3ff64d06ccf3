import { bench } from 'vitest';
import { readPractice } from '../../src/casefile/read-practice.js';
import type { InMemory } from '../casefile/case-files-in-memory.js';
import { animalText, farmText } from '../casefile/generated-cases.js';
import type { CaseFiles } from '../../src/casefile/source-text.js';

/** A practice of 100 farms with 50 animals of five visits each, without a disk: text to checked records. */
const days = ['2026-01-06', '2026-02-03', '2026-03-03', '2026-04-07', '2026-05-12'];
const [head = '', first = ''] = animalText.replace(/---\n$/, '').split('  - date: 2026-01-06\n');
const folders = new Map<string, Map<string, InMemory>>();
for (let farm = 0; farm < 100; farm += 1) {
  const files = new Map<string, InMemory>([['farm.md', farmText.replace('Quernholt', `Farm ${farm}`)]]);
  for (let animal = 0; animal < 50; animal += 1) {
    const visits = days.map((day, visit) => {
      const top = `top: ${17 + visit * 5}`;
      return `  - date: ${day}\n${first.replace('top: 17', top).replace('first', visit === 0 ? 'first' : 'recheck')}`;
    });
    files.set(
      `${1000 + animal}.md`,
      `${head.replace('2086', String(1000 + animal))}${visits.join('')}---\n\nHer story.\n`,
    );
  }
  folders.set(`cases/farm-${farm}`, files);
}

const contentOf = (path: string): Uint8Array => {
  const at = path.lastIndexOf('/');
  const content = folders.get(path.slice(0, at))?.get(path.slice(at + 1));
  return new TextEncoder().encode(typeof content === 'string' ? content : '');
};
const files: CaseFiles = {
  look: (path) => (path.endsWith('.md') ? { kind: 'file', bytes: 1000 } : { kind: 'folder', bytes: 0 }),
  list: (folder) =>
    folder === 'cases'
      ? [...folders.keys()].map((path) => ({ name: path.slice('cases/'.length), kind: 'folder' }))
      : [...(folders.get(folder)?.keys() ?? [])].map((name) => ({ name, kind: 'file' })),
  read: contentOf,
  readStart: (path, bytes) => contentOf(path).subarray(0, bytes),
  realPath: (path) => path,
};

bench(
  'read 5,000 animals of 100 farms',
  () => {
    const { practice } = readPractice(files, 'cases', { today: '2026-11-25' });
    if (practice.farms.length !== 100) throw new Error('a farm was refused');
  },
  { iterations: 3, warmupIterations: 1, time: 0 },
);
