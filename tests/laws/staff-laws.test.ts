import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { composePageOne } from '../../src/book/page-one.js';
import { placeCases } from '../../src/book/compose-book.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { composeStaff } from '../../src/post/staff-page.js';
import type { Practice } from '../../src/record/practice.js';
import { papers, staffLanguages } from '../../src/record/words.js';
import { wordsOf } from '../../src/reference/words.js';
import { workOutFarm } from '../../src/schedule/work-out-case.js';
import { jobInShort } from '../../src/words/compose-due.js';
import { planDay, sentenceCase } from '../../src/words/day-and-place.js';
import { anyBusyFarm, practiceWith } from '../book/busy-cows.js';
import { anyPractice } from '../money/any-business.js';
import { anyTroubledPractice, today } from './any-trouble.js';

const anyOfThem: fc.Arbitrary<Practice> = fc.oneof(
  { weight: 6, arbitrary: anyTroubledPractice },
  { weight: 3, arbitrary: anyPractice(undefined) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(...papers).chain((paper) => anyBusyFarm(paper, 14).map(practiceWith)),
  },
);

const numbersIn = (rows: readonly { readonly number: string }[]) =>
  rows.flatMap(({ number }) => number.split(', '));
const sorted = (texts: readonly string[]) => texts.toSorted();

/** What a list for the staff says, against what is worked out of its farm and what page one of the book says. */
function reachedBy(practice: Practice, language: (typeof staffLanguages)[number]): string[] {
  const farm = practice.farms[0]!;
  const { priors } = pooledOn(practice, today);
  const work = workOutFarm(farm, { business: practice.business, today, priors });
  const page = composeStaff(language, practice, farm, work, today);
  const one = composePageOne(wordsOf(farm.farm.language ?? 'en-GB'), practice, farm, placeCases(work), today);
  const words = wordsOf(language);

  // What stays out of the tank and away from slaughter, each animal with her own days.
  const held = work.filter(({ withheld }) =>
    Object.values(withheld).some(({ outcome }) => outcome !== 'nothing'),
  );
  expect(sorted(numbersIn(page.tank.rows))).toEqual(sorted(held.map(({ record }) => record.animal.animal)));
  for (const { record, withheld } of held) {
    const row = page.tank.rows.find(({ number }) => number.split(', ').includes(record.animal.animal))!;
    for (const side of ['milk', 'meat'] as const) {
      const of = withheld[side];
      const wanted =
        of.outcome === 'withheld'
          ? [planDay(words, of.lastWithheld, today), planDay(words, of.firstClear, today)]
          : [words.say(`jobs.withheld.${of.outcome === 'nothing' ? 'not-held' : 'not-known'}`)];
      for (const text of wanted) expect(row[side]).toContain(text);
    }
  }
  const ofTheHerd = one.withheld?.lines.filter(({ what }) => what === '') ?? [];
  expect(page.tank.herd).toHaveLength(ofTheHerd.length);

  // Every job of the farm's, one way or another; of one that is left out the number is reported.
  const open = work.flatMap(
    (hers) =>
    hers.due
      .filter(({ standing, who, what }) => (standing === 'open' || standing === 'overdue') && (who === 'farm' || what === 'vet-ask')) // prettier-ignore
      .filter(({ what }) => what !== 'milk-clear' && what !== 'meat-clear')
      .map((item) => ({ number: hers.record.animal.animal, item, job: item.what === 'farm-task-done' ? '' : sentenceCase(jobInShort(words, hers.record.animal, item).job) })), // prettier-ignore
  );
  const stopped = work.flatMap(({ stop }) => stop?.animals ?? []);
  const isNow = ({ item: { urgency, what } }: (typeof open)[number]) => what !== 'vet-answer' && (urgency === 'same-day' || urgency === 'stop-work'); // prettier-ignore
  const named = (jobs: typeof open) => [...new Set(jobs.map(({ number, job }) => `${number} ${job}`))];
  const now = open.filter(
    (job) => isNow(job) && !(job.item.urgency === 'stop-work' && stopped.includes(job.number)),
  );
  expect(
    sorted(page.urgent.rows.flatMap(({ number, job }) => number.split(', ').map((each) => `${each} ${job}`))),
  ).toEqual(sorted(named(now)));
  expect(page.urgent.rows.length <= one.urgent.length).toBe(true);
  const later = open.filter((job) => !isNow(job));
  const reported = later.filter(({ item }) => item.what === 'farm-task-done');
  const jobs = named(later.filter((job) => !reported.includes(job)));
  const { rows, more, yesOrNo = '' } = page.farmJobs;
  const listed = rows.map(({ number, job }) => `${number} ${job.split('; ')[0]!}`);
  for (const each of listed) expect(jobs).toContain(each);
  expect(new Set(listed).size).toBe(listed.length);
  const cut = jobs.length - rows.length;
  expect(more).toBe(cut === 0 ? undefined : words.say('one.more', { count: cut }));
  // What is late is left out last.
  expect(rows.filter(({ late }) => late)).toHaveLength(Math.min(rows.length, one.farmJobs.rows.filter(({ late }) => late).length)); // prettier-ignore
  for (const { number, item } of reported)
    expect(yesOrNo).toContain(words.say('one.farm.asked', { animal: number, task: words.say(`vocabulary.task.${item.task!}`), day: `${Number(item.by.slice(8))} ` }).split(` (`)[0]); // prettier-ignore

  // Whom to pen, but not while work has stopped.
  const stop = work.find((hers) => hers.stop)?.stop;
  expect(page.stop !== undefined).toBe(stop !== undefined);
  for (const animal of stop?.animals ?? []) expect(page.stop?.text).toContain(animal);
  expect(page.pen === undefined).toBe(stop !== undefined);
  if (page.pen) {
    expect(page.pen.numbers).toEqual(one.pen.numbers);
    expect(page.pen.later.map(({ numbers }) => numbers)).toEqual(one.pen.later.map(({ numbers }) => numbers));
    expect(page.pen.notes).toHaveLength(one.pen.notes.length);
  }
  return [
    ...(stop ? ['stop'] : []),
    ...(held.length > 0 ? ['withheld'] : []),
    ...(page.tank.herd.length > 0 ? ['herd'] : []),
    ...(now.length > 0 ? ['urgent'] : []),
    ...(rows.length > 0 ? ['jobs'] : []),
    ...(cut > 0 ? ['jobs left out'] : []),
    ...(page.tank.rows.some(({ number }) => number.includes(', ')) ? ['in one row'] : []),
    ...(reported.length > 0 ? ['done?'] : []),
    ...((page.pen?.notes.length ?? 0) > 0 ? ['calving'] : []),
    page.isLarge ? 'large' : 'small',
    language,
  ];
}

test('over 300 businesses nothing that page one withholds or asks of the farm is missing for its staff', () => {
  const reached = new Set<string>();
  fc.assert(
    fc.property(anyOfThem, fc.constantFrom(...staffLanguages), (practice, language) => {
      for (const one of reachedBy(practice, language)) reached.add(one);
    }),
    { seed: 20260616, numRuns: 300, endOnFailure: true },
  );
  expect(sorted([...reached])).toEqual(
    sorted(['stop', 'withheld', 'herd', 'urgent', 'jobs', 'jobs left out', 'in one row', 'done?', 'calving', 'large', 'small', ...staffLanguages]), // prettier-ignore
  );
}, 240_000);
