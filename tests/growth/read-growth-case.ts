import { readFileSync, readdirSync } from 'node:fs';
import matter from 'gray-matter';
import { CORE_SCHEMA, load } from 'js-yaml';
import { animal, type Animal } from '../../src/record/animal.js';
import { farm, type Farm } from '../../src/record/farm.js';

const folder = new URL('../vectors/growth-cases/', import.meta.url);

function frontMatter(path: string): unknown {
  const engines = { yaml: (text: string) => load(text, { schema: CORE_SCHEMA }) as object };
  return matter(readFileSync(new URL(path, folder), 'utf8'), { engines }).data;
}

/** The farms of the growth cases with their animals, by slug. */
export function readGrowthCases(): {
  slug: string;
  farm: Farm;
  animals: { slug: string; animal: Animal }[];
}[] {
  return readdirSync(new URL('cases/', folder))
    .sort()
    .map((slug) => ({
      slug,
      farm: farm.parse(frontMatter(`cases/${slug}/farm.md`)),
      animals: readdirSync(new URL(`cases/${slug}/`, folder))
        .filter((name) => name !== 'farm.md')
        .sort()
        .map((name) => ({
          slug: name.slice(0, -'.md'.length),
          animal: animal.parse(frontMatter(`cases/${slug}/${name}`)),
        })),
    }));
}

interface ExpectedRange {
  early: number | null;
  best: number | null;
  late: number | null;
}

export interface ExpectedLesion {
  farm: string;
  animal: string;
  lesion: string;
  line: string;
  readings: { date: string; topMm?: number; kind: string; expectedMm?: number; sdMm?: number; z?: number }[];
  factor: { mean: number; variance: number };
  wallMm: number;
  wallSdMm: number;
  wallSource: string;
  from?: string;
  outAfterDays?: ExpectedRange;
  ifSoundHornFollows?: boolean;
  inSixWeeks?: { mean: number; variance: number };
  why?: string;
  held?: { since: string; z: number };
}

export const expectedGrowth = JSON.parse(readFileSync(new URL('expected.json', folder), 'utf8')) as {
  today: string;
  lesions: ExpectedLesion[];
};
