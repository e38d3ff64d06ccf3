import { bundleForm } from '../../src/setup/bundle-form.mjs';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { composeFarmData, oneFilePage } from '../../src/form/one-file/one-file-page.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import type { Animal } from '../../src/record/animal.js';
import type { FarmRecord } from '../../src/record/practice.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { wordsOf } from '../../src/reference/words.js';

const words = wordsOf('en-GB');
let script: Promise<string> | undefined;

/** The form in one file of a farm, its script made from its source as it stands. */
export async function oneFileFor(record: FarmRecord, today: string): Promise<string> {
  script ??= bundleForm();
  const business = { trimmer: 'Orla Venn' };
  const work = record.cases.map((one) =>
    workOutCase(record, one, { business, today, prior: publishedPrior }),
  );
  return oneFilePage(words, composeFarmData({ words, record, business, work, today }), await script);
}

/** A farm with this one animal, under the file name of her number. */
export function farmOf(animal: Animal, name = 'Quernholt'): FarmRecord {
  const source = { file: '', placeOf: () => ({ line: 1, column: 1 }) };
  const farm = { farm: name, 'gait-scale': 'uk-0-3' } as const;
  return {
    slug: 'quernholt',
    farm,
    narrative: '',
    source,
    cases: [{ slug: animal.animal, animal, narrative: '', source }],
  };
}

export function demoFarm(slug: string, today: string): FarmRecord {
  const { practice } = readPractice(nodeCaseFiles, 'cases', { today });
  const farm = practice.farms.find((one) => one.slug === slug);
  if (!farm) throw new RangeError(`no farm ${slug} in the demo`);
  return farm;
}
