import { createHash } from 'node:crypto';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { stringify } from 'yaml';
import { visitAsText } from '../../src/form/one-file/visit-as-text.js';
import { readForm } from '../../src/form/read-form.js';
import { valuesOfVisit } from '../../src/form/said-pages.js';
import { type FormFor, visitForm } from '../../src/form/visit-form.js';
import { addVisit, placeByDate } from '../../src/keep/add-visit.js';
import { asIf } from '../../src/casefile/as-if.js';
import { takeEntry } from '../../src/keep/inbox/take-entry.js';
import type { VisitDraft } from '../../src/keep/visit-draft.js';
import { writeNote } from '../../src/note/write/write-note.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';
import { folderWith } from '../cli/run-in-folder.js';
import { anyCase, anyVisit } from '../keep/any-case.js';
import { difference } from '../keep/difference.js';
import { asSent, asTaken, farmText, inMemory, name, recordIn } from './as-taken.js';
import { anyDraft } from './any-draft.js';
import { asFlags } from './as-flags.js';
import { animal as oneOfEach, today } from './made-for.js';

const decode = (bytes: Uint8Array): string => new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);

type Growdown = ReturnType<typeof folderWith>;

/** The file after each of the four ways; undefined where the record refuses the visit. */
async function byAllWays(
  { folder, put, growdown }: Growdown,
  text: string,
  draft: VisitDraft,
): Promise<Record<string, string> | undefined> {
  // Any visit may look like a slip; here it is right.
  const keeping = { ...inMemory(text), evenSo: true as const };
  const animal = recordIn(keeping);
  if (!animal) return undefined;
  const made: FormFor = { animal, gaitScale: 'uk-0-3' };
  const values = valuesOfVisit(draft);

  const sent = readForm(visitForm(made, values), values, today);
  expect([...sent.troubles]).toEqual([]);
  const worked = addVisit(keeping, 'quernholt', '2086', sent.draft as VisitDraft);
  if (worked.outcome !== 'change') return undefined;
  const served = decode(worked.change.files[0]!.after!);

  const run = async (...words: string[]): Promise<string> => {
    put(name, text);
    rmSync(join(folder, 'cases/quernholt/.growdown'), { recursive: true, force: true });
    const { code, out, err } = await growdown(...words, '--even-so', '--today', today);
    expect({ code, said: code === 0 ? '' : out + err }, JSON.stringify(words)).toEqual({ code: 0, said: '' });
    return decode(readFileSync(join(folder, name)));
  };
  const flags = await run('visit', 'quernholt/2086', ...asFlags(draft));
  const note = writeNote({ farm: 'quernholt', slug: '2086', animal }, draft);
  put('note.txt', note);
  const noted = await run('take', 'note.txt', '--yes');
  const of = { farm: 'quernholt', slug: '2086' };
  const form = visitAsText(of, { ...made, asNote: true }, values, today, () => true);
  if (form.outcome !== 'text') throw new Error(JSON.stringify(form));
  if (form.text === note) return { served, flags, note: noted, form: noted };
  put('form.txt', form.text);
  return { served, flags, note: noted, form: await run('take', 'form.txt', '--yes') };
}

/** True where all four ways gave the same record, and every other byte of the file is as it was. */
async function isSameByAll(growdown: Growdown, text: string, draft: VisitDraft): Promise<boolean> {
  const before = recordIn(inMemory(text));
  const after = before && (await byAllWays(growdown, text, draft));
  if (!after) return false;
  const index = placeByDate(before.visits, draft);
  const expected: unknown = JSON.parse(
    JSON.stringify({ ...before, visits: before.visits.toSpliced(index, 0, draft) }),
  );
  for (const [way, now] of Object.entries(after)) {
    expect(JSON.parse(JSON.stringify(recordIn(inMemory(now)) ?? 'does not read')), way).toEqual(expected);
    expect(['', '[]'], way).toContain(difference(text, now).cut);
  }
  return true;
}

/** Says more than when, by whom and what kind of visit it was: with nothing more the flags would ask. */
const says = (draft: VisitDraft): boolean =>
  Object.keys(draft).some((key) => !['date', 'at', 'by', 'kind'].includes(key));

const business = { 'cases/quernholt/farm.md': farmText };

test('any visit into any case in any style: by flags, by note, by form text and by served form the same record', async () => {
  const growdown = folderWith(business);
  let added = 0;
  await fc.assert(
    fc.asyncProperty(anyCase, anyVisit, async ({ text }, drawn) => {
      const draft = asSent(drawn);
      if (draft && says(draft) && (await isSameByAll(growdown, text, draft))) added += 1;
    }),
    { numRuns: 18, seed: 20261125 },
  );
  expect(added).toBeGreaterThan(9);
}, 60_000);

test('the same for any visit by the record model, to an animal with a lesion of each kind and a mark', async () => {
  const growdown = folderWith(business);
  const text = `---\n${stringify(oneOfEach)}---\n\nWords about her.\n`;
  let added = 0;
  const keys = new Set<string>();
  await fc.assert(
    fc.asyncProperty(anyDraft, async (drawn) => {
      const draft = asSent(asTaken(oneOfEach, drawn));
      if (!draft || !says(draft) || !(await isSameByAll(growdown, text, draft))) return;
      added += 1;
      for (const key of valuesOfVisit(draft).keys()) keys.add(key.split('.').at(-1) ?? '');
    }),
    { numRuns: 18, seed: 20261125 },
  );
  expect(added).toBeGreaterThan(9);
  expect(keys.size).toBeGreaterThan(40);
}, 60_000);

const picture = Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, ...Array.from({ length: 300 }, () => 7)]);
const formId = '0e9be6a2-9f6a-4a0e-9d3f-6d5c1b7a2e41';
const held = `${formId}-0123456789abcdef`;

test('with pictures, by the served form: the same record and the pictures beside it', () => {
  let added = 0;
  fc.assert(
    fc.property(anyCase, anyVisit, ({ text }, drawn) => {
      const draft = asSent(drawn);
      const files = {
        'cases/quernholt/farm.md': farmText,
        [name]: text,
        [`cases/quernholt/.growdown/inbox/pictures/${held}`]: picture,
      };
      const keeping = { files: caseFilesInMemory(files), cases: 'cases', today, evenSo: true as const };
      const animal = recordIn(keeping);
      if (!draft || !animal) return;
      const values = new Map([
        ...valuesOfVisit(draft),
        ['photos.0.view', ['sole']],
        ['photos.0.when', ['after']],
      ]);
      const form = visitForm({ animal, gaitScale: 'uk-0-3' }, values);
      const sent = readForm(form, values, today);
      const worked = takeEntry(keeping, 'quernholt', {
        format: 1,
        id: formId,
        on: today,
        animal: '2086',
        visit: sent.draft,
        declares: {},
        pictures: [
          {
            held,
            sha256: createHash('sha256').update(picture).digest('hex'),
            shows: sent.shows.get('photos.0') ?? {},
          },
        ],
      });
      if (worked.outcome !== 'change') return;
      added += 1;
      const now = { ...keeping, files: asIf(keeping.files, worked.change.files) };
      const file = `photos/2086-${draft.date}-sole.jpg`;
      const photos = [{ file, view: 'sole', when: 'after' }];
      const index = placeByDate(animal.visits, draft);
      const expected = { ...animal, visits: animal.visits.toSpliced(index, 0, { ...draft, photos } as VisitDraft) }; // prettier-ignore
      expect(JSON.parse(JSON.stringify(recordIn(now)))).toEqual(JSON.parse(JSON.stringify(expected)));
      expect(now.files.read(`cases/quernholt/${file}`)).toEqual(picture);
      expect(['', '[]']).toContain(difference(text, decode(now.files.read(name))).cut);
    }),
    { numRuns: 20, seed: 20261125 },
  );
  expect(added).toBeGreaterThan(10);
});
