import { expect, it } from 'vitest';
import { footbathSums } from '../../src/herd/footbath/bath-sums.js';
import type { TimeToEvent } from '../../src/herd/time-to-event.js';
import type { Farm } from '../../src/record/farm.js';
import { footbathSentences, missingSentence } from '../../src/words/compose-footbath.js';
import {
  earlyLiftingSentences,
  recurrenceSentences,
  spreadInWords,
  timesSentence,
  whenLines,
  workSentences,
} from '../../src/words/compose-herd.js';
import { plain } from './plain.js';
import { shareInWords } from '../../src/words/percent.js';
import { readStrings, wordsOf } from '../../src/reference/words.js';

const words = wordsOf('en-GB');
const today = '2026-06-30';
const times = (more: Partial<TimeToEvent>): TimeToEvent => ({
  count: 12,
  cases: [],
  animals: 10,
  come: 7,
  ...more,
});

it('of enough cases: how many, by when half, each share with its bounds and its number, and where it ends', () => {
  const boxes = [
    { after: 0, by: 14, mass: 0.25 },
    { after: 28, by: 42, mass: 0.5 },
  ];
  const bounds = [
    { day: 14, lower: 0.1, upper: 0.5 },
    { day: 28, lower: 0.1, upper: 0.5 },
    { day: 42, lower: 0.51, upper: 0.9 },
  ];
  const half = { after: 28, by: 42, low: 14, high: 42 };
  const told = times({ curve: { boxes, half, knownTo: 42, bounds } });
  expect(timesSentence(words, told, 'healed')).toBe('12 lesions in 10 animals; 7 seen healed');
  expect(timesSentence(words, told, 'not-lame')).toBe('12 lameness episodes in 10 animals; 7 seen not lame');
  expect(timesSentence(words, told, 'sound')).toBe('12 lameness episodes in 10 animals; 7 seen sound');
  expect(whenLines(words, told)).toEqual([
    'half between day 28 and day 42 (95\u00a0% confidence interval day 14 to day 42)',
    'by day 14: 25\u00a0% (95\u00a0% confidence interval 10 to 50\u00a0%), estimated from 12',
    'by day 42: 75\u00a0% (95\u00a0% confidence interval 51 to 90\u00a0%), estimated from 12',
    'past day 42: too few for a figure',
  ]);
});

it('a curve cut off before anything came gives that share, and then the cases where they are ours to list', () => {
  const curve = { boxes: [], knownTo: 60, bounds: [{ day: 60, lower: 0, upper: 0.28 }] };
  const none = [
    'by day 60: 0\u00a0% (95\u00a0% confidence interval 0 to 28\u00a0%), estimated from 12',
    'past day 60: too few for a figure',
  ];
  expect(whenLines(words, times({ curve }))).toEqual(none);
  const one = {
    farm: 'quernholt',
    slug: '1',
    animal: '2041',
    from: '2026-01-01',
    days: { after: 42, by: Infinity },
  };
  expect(whenLines(words, times({ curve, cases: [one] }))).toEqual([...none, '2041: not yet on day 42']);
});

it('of few: each case by itself, or that there is no figure where they are not ours to list', () => {
  const one = { farm: 'quernholt', slug: '1', from: '2026-01-01' };
  const cases = [
    { ...one, animal: '2041', days: { after: 28, by: 42 } },
    { ...one, animal: '2086', days: { after: 14, by: Infinity } },
    { ...one, animal: '2117', days: { after: 30, by: 30 } },
  ];
  expect(whenLines(words, times({ count: 3, cases }))).toEqual([
    '2041: between day 28 and day 42',
    '2086: not yet on day 14',
    '2117: on day 30',
  ]);
  expect(whenLines(words, times({ count: 3 }))).toEqual(['too few for a figure']);
  expect(whenLines(words, times({ count: 0 }))).toEqual([]);
});

it('what came back, each count with its whole', () => {
  const recurrence = { settled: 3, seenAgain: 2, cameBack: 1, daysBetween: [30] };
  const none = { settled: 0, seenAgain: 0, cameBack: 0, daysBetween: [] };
  expect(recurrenceSentences(words, { recurrence, dermatitis: none })).toEqual([
    '3 lesions seen healed. The same foot was lifted again later in 2 of 3; the same place had broken down again in 1 of 2. Days from one check to the next: 30. The true times may be shorter.',
    'No digital dermatitis has been found not active or healed yet.',
  ]);
  const unseen = { ...none, settled: 1 };
  expect(recurrenceSentences(words, { recurrence: unseen, dermatitis: unseen })).toEqual([
    '1 lesion seen healed. The same foot was lifted again later in none of 1, so none can be said to have stayed healed.',
    'Digital dermatitis found not active or healed: 1 place. Checked again: none of 1.',
  ]);
});

it('what a case took: each of few, the median with its bounds of enough', () => {
  expect(
    workSentences(words, { ended: { visits: { each: [1, 2, 5] }, blocks: { each: [0, 1, 1] } } }),
  ).toEqual(['3 lameness episodes ended. Visits with feet lifted: 1, 2, 5. Blocks fitted: 0, 1, 1.']);
  const median = { value: 4.5, low: 3, high: 6 };
  expect(spreadInWords(words, { each: [2, 3, 3, 4, 4, 5, 5, 5, 6, 12], median })).toBe(
    'median 4.5 (95\u00a0% confidence interval 3 to 6), most 12',
  );
});

it('one place words a share: with its bounds where it may be printed, else both numbers alone', () => {
  expect(shareInWords(words, 24, 205)).toEqual([
    '24 of 205 (12\u00a0%)',
    '95\u00a0% confidence interval 8 to 17\u00a0%',
  ]);
  expect(shareInWords(words, 2, 3)).toEqual(['2 of 3']);
  expect(shareInWords(words, 0, 0)).toEqual(['0 of 0']);
});

it('sound and not lame are never mixed: the trial’s sound is score 0, the farm has a figure for each', () => {
  const told = earlyLiftingSentences(words);
  expect(told[0]).toMatch(/15 % .* were not lame on day 42/);
  expect(told[0]).not.toMatch(/sound/);
  expect(told[1]).toMatch(/were sound \(score 0, not merely below lame\) on day 35/);
  const said = (key: string) => words.say(`herd.times.${key}`, { days: 7 });
  expect(said('not-lame-note')).toMatch(/below the lame mark/);
  expect(said('sound-note')).toMatch(/soundest score/);
  // A word for a walk that is one of the two says the other nowhere.
  const walks = readStrings('en-GB').filter(([key]) =>
    /^(?:gait|herd\.times|chart\.healing|gap\.|audit)/.test(key),
  );
  const mixed = walks.filter(([key, text]) => /not[- ]lame/.test(key) && /\bsound\b/i.test(text));
  expect(walks.length).toBeGreaterThan(200);
  expect(mixed).toEqual([]);
});

it('the case for early lifting says that it is of groups, and names its sources', () => {
  const told = earlyLiftingSentences(words).join(' ');
  for (const part of [
    /about 15 % of cows lame for more than two weeks/,
    /Thomas et al\. 2016/,
    /Leach et al\. 2012/,
  ])
    expect(told).toMatch(part);
  expect(told).toMatch(/figures for groups in other herds, never one animal’s outlook/);
});

const bath = {
  product: 'copper sulphate',
  strength: 5,
  litres: 200,
  'cows-per-fill': 100,
  'times-a-week': 3,
};
const farm = (more: Partial<Farm>): Farm => ({ farm: 'Quernholt', herd: { cows: 200 }, ...more });
const say = (more: Partial<Farm>) => plain(footbathSentences(words, footbathSums(farm(more), today), today));

it('copper of a form not written: asked for, both sums, limits by analogy, cautions', () => {
  const told = say({ footbath: [bath], 'slurry-hectares': 100 });
  expect(told).toContain(
    'The form of the copper is not recorded for copper sulphate. Ask which it is: pentahydrate (bluestone) is 25.5 % copper, the anhydrous form 39.8 %. Both sums are given.',
  );
  // 3120 kg in 52 weeks; the 12 months have 365 days: 3128.6 kg. × 0.2545 = 796 kg, × 0.398 = 1245 kg.
  expect(told).toContain(
    'In the 12 months to 30 June 2026, according to the record: 3129 kg of product, 796 kg if pentahydrate (bluestone), or 1245 kg if anhydrous of copper, 8 kg/ha if pentahydrate (bluestone), or 12.5 kg/ha if anhydrous on the land.',
  );
  // 26 ÷ 7.9404 = 3.3, 26 ÷ 7.3404 = 3.5; 1500 ÷ 7.9404 = 189.
  expect(told).toContain(
    'copper sulphate, if pentahydrate (bluestone): at this rate the soil should rise by 10 mg/kg in 3.3 to 3.5 years, and 1500 kg/ha should be reached in about 189 years.',
  );
  expect(told.join(' ')).toMatch(/by analogy; check local rules/);
  expect(told.join(' ')).toMatch(
    /Sheep die from drinking copper baths\. Keep baths out of drains and water\./,
  );
  expect(told.join(' ')).not.toMatch(/Formaldehyde/);
});

it('other baths: formaldehyde has its own caution, an unclear name is asked about, missing land is said', () => {
  expect(say({ footbath: [{ ...bath, product: 'formalin' }] }).join(' ')).toMatch(
    /Formaldehyde causes cancer/,
  );
  const mix = say({ footbath: [{ ...bath, product: 'Hoof mix' }] });
  expect(mix).toContain('Hoof mix: its name does not say what is in it. If it is copper, record its form.');
  expect(mix.join(' ')).not.toMatch(/kg\/ha|Sheep/);
  expect(say({ footbath: [{ ...bath, form: 'anhydrous' }] })).toContain(
    'The area the slurry goes on is not recorded, so nothing can be said about the land.',
  );
});

it('names what is missing', () => {
  const [sum] = footbathSums(
    farm({ footbath: [{ product: 'bluestone', litres: 200, strength: 5 }] }),
    today,
  ).baths;
  expect(missingSentence(words, sum!)).toBe(
    'To work this out, record the cows per fill and the times a week.',
  );
});

it('promises, praises and blames nothing', () => {
  const strings = (['en-GB', 'en-US'] as const)
    .flatMap((language) => readStrings(language))
    .filter(([key]) => key.startsWith('herd.'));
  expect(strings.length).toBeGreaterThan(100);
  const never = /\bwill\b|\bshall\b|!|guarantee|\bgood\b|\bbad\b|excellent|unfortunately|\bbetter\b/i;
  expect(strings.filter(([, said]) => never.test(said))).toEqual([]);
});
