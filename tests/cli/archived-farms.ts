import { animalFile, farmFile } from './run-in-folder.js';
import { fromAPhone, roughPicture } from '../picture/made-up-pictures.js';

/** Two invented farms with pictures: one as a phone writes it, one with a name not every system takes, a film and a list of thumbnails. */
export async function twoFarms(): Promise<Record<string, string | Uint8Array>> {
  const photos = (...files: string[]) =>
    `    photos:\n${files.map((file) => `      - { file: "${file}", foot: LH, claw: outer, view: sole, when: after }\n`).join('')}`;
  const withPhotos = (text: string, ...files: string[]) =>
    text.replace('    found:\n', `${photos(...files)}    found:\n`);
  return {
    'cases/business.md': `---
business: Venn Foot Trimming
email: orla@venn.example
phone: "+44 1632 960001"   # the yard's
address: >
  Lower Barn
  Nether Oddering
reply-to: desk@venn.example
---

Open from six.
`,
    'cases/quernholt/farm.md': farmFile
      .replace(
        'farm: Quernholt\n',
        'farm: Quernholt\nvet: { practice: Oak, phone: "01632 960002", email: vet@oak.example }\n',
      )
      .replace(
        'hemisphere: north\n',
        'hemisphere: north\naddress: Long Lane\ncontact: { name: Ada Fold, phone: "01632 960003" }\nplan: { date: 2025-11-12, file: plan.pdf }\n',
      ),
    'cases/quernholt/2086.md': withPhotos(animalFile('2086'), 'photos/2086.jpg', 'photos/Böck.jpg'),
    'cases/quernholt/2117.md': animalFile('2117')
      .replaceAll('2026-01-06', '2024-01-06')
      .replace(
        'lesions:',
        'episodes: [{ lame-since: 2024-01-05, ended: 2024-02-01, result: sold }]\nlesions:',
      ),
    'cases/quernholt/photos/2086.jpg': await fromAPhone(),
    'cases/quernholt/photos/Böck.jpg': await roughPicture(3, 60, 40),
    'cases/quernholt/photos/walk-2026-01-06.mp4': Buffer.from('a film'),
    'cases/quernholt/plan.pdf': '%PDF-1.4 plan',
    'cases/quernholt/Thumbs.db': 'thumbnails',
    'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere Secretfold'),
    'cases/harrowmere/587.md': animalFile('587').replace(
      'Invented for a test.',
      'Secretfold keeps this to itself.',
    ),
    'cases/harrowmere/photos/587.jpg': await roughPicture(4, 60, 40),
  };
}
