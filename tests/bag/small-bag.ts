import { bagInFolder } from '../../src/bag/bag-in-folder.js';
import { bagWriter } from '../../src/bag/bag-writer.js';
import { zipOfBag } from '../../src/bag/zip/zip-of-bag.js';
import { diskInMemory } from './disk-in-memory.js';

/** A bag of a few invented files, in memory, in the folder `bag`. */
export function smallBag() {
  const memory = diskInMemory(new Map());
  const bag = bagWriter(memory.disk, 'bag');
  bag.add('cases/quernholt/farm.md', '---\nfarm: Quernholt\n---\n');
  bag.add('cases/quernholt/2086.md', '---\ncasefile: 1\nanimal: "2086"\nlesions: {}\nvisits: []\n---\n');
  bag.add(
    'cases/quernholt/photos/2086.jpg',
    Uint8Array.from({ length: 300 }, (_, n) => (n * 7919) % 256),
  );
  bag.add('cases/quernholt/.growdown/ledger.jsonl', '{"a":1}\n{"a":2}\n');
  bag.add('empty.txt', '');
  bag.finish(
    {
      sourceOrganization: 'Orla Venn, foot trimming',
      externalDescription: 'Case records of lame cows: Quernholt',
      externalIdentifier: 'quernholt 2026-06-16',
      softwareAgent: 'growdown 0',
      baggingDate: '2026-06-16',
    },
    'What this is, for a stranger.\n',
  );
  return memory;
}

/** The zip of a bag that lies in the folder `bag`. */
export async function zipped(memory: ReturnType<typeof smallBag>): Promise<Buffer> {
  const pieces: Uint8Array[] = [];
  for await (const piece of zipOfBag(bagInFolder(memory.disk, 'bag').files, 'bag')) pieces.push(piece);
  return Buffer.concat(pieces);
}
