import { existsSync, readdirSync, statSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { animals, casesFolder, demo, stories, type Story } from './read-demo.js';
import { seenOfStory } from './seen-of-story.js';

/** Lists of which a story names the ones that matter to it; every other key must be matched whole. */
const amongOthers = new Set(['notices', 'due', 'overdue', 'tasksDone', 'tasksOpen', 'gaps', 'blockEvents']);
const ranges = new Set(['latestZ', 'ranUpMm']);

function expectShown(key: string, wanted: unknown, seen: unknown): void {
  if (amongOthers.has(key)) expect(seen, key).toEqual(expect.arrayContaining(wanted as unknown[]));
  else if (ranges.has(key)) {
    const [low, high] = wanted as [number, number];
    expect(seen, key).toBeGreaterThanOrEqual(low);
    expect(seen, key).toBeLessThan(high);
  } else expect(seen, key).toEqual(wanted);
}

describe('the demo', () => {
  it('reads without an error or a warning', () => {
    expect(demo.problems).toEqual([]);
    expect(demo.farmsRefused).toEqual([]);
  });

  it('has three farms, one in US words on Letter paper, sixteen animals or more and sixty visits or more', () => {
    const { farms } = demo.practice;
    expect(farms.map(({ slug }) => slug)).toEqual(['harrowmere', 'quasselbrook', 'quernholt']);
    expect(farms.map(({ farm }) => [farm.language, farm.paper])).toContainEqual(['en-US', 'Letter']);
    expect(animals.size).toBeGreaterThanOrEqual(16);
    const visits = [...animals.values()].flatMap(({ caseRecord }) => caseRecord.animal.visits);
    expect(visits.length).toBeGreaterThanOrEqual(60);
  });

  it('has a farm with nothing due, every case on it closed', () => {
    const there = [...animals.values()].filter(({ farmRecord }) => farmRecord.slug === 'harrowmere');
    expect(there.length).toBeGreaterThan(0);
    for (const { standing, due, missing } of there) {
      expect(standing.closed).toBeDefined();
      expect(due.filter((item) => item.standing !== 'done')).toEqual([]);
      expect(missing).toEqual([]);
    }
  });

  it('leaves gaps in the record only where a story means to', () => {
    const withGaps = [...animals].flatMap(([name, { missing }]) => (missing.length > 0 ? [name] : []));
    expect(withGaps).toEqual([
      'quasselbrook/4096',
      'quasselbrook/4388',
      'quernholt/2078',
      'quernholt/2086',
      'quernholt/2190',
      'quernholt/2301',
    ]);
  });

  it('carries marks that cannot be issued', () => {
    for (const { caseRecord } of animals.values()) {
      expect(caseRecord.animal.tag).toMatch(/^(UK 000\d{3} \d{6}|US 840 000 \d{3} \d{3} \d{3})$/);
      expect(caseRecord.animal.electronic ?? '999').toMatch(/^999/);
    }
  });

  it('uses every picture it carries, each small', () => {
    for (const { slug, cases } of demo.practice.farms) {
      const named = cases.flatMap(({ animal }) =>
        animal.visits.flatMap((visit) => (visit.photos ?? []).map(({ file }) => file)),
      );
      const folder = `${casesFolder}/${slug}/photos`;
      const carried = existsSync(folder) ? readdirSync(folder) : [];
      for (const file of carried) {
        expect(named).toContain(`photos/${file}`);
        expect(statSync(`${folder}/${file}`).size).toBeLessThanOrEqual(60_000);
      }
    }
  });
});

describe('each story of the demo', () => {
  it.each(stories.map((story): [string, Story] => [`${story.story} (${story.farm}/${story.animal})`, story]))(
    '%s',
    (_, story) => {
      const seen = seenOfStory(story);
      const wanted = Object.entries(story.shows);
      expect(wanted.length).toBeGreaterThan(0);
      for (const [key, value] of wanted) expectShown(key, value, seen[key as keyof Story['shows']]);
    },
  );
});
