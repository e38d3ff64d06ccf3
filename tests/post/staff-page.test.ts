import { expect, test } from 'vitest';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { composeStaff, staffPages } from '../../src/post/staff-page.js';
import { staffLanguages, vetTasks } from '../../src/record/words.js';
import { noticeRules } from '../../src/reference/notices.js';
import { readStrings, wordsOf } from '../../src/reference/words.js';
import { workOutFarm } from '../../src/schedule/work-out-case.js';
import { dayInShort, dayInWords, planDay } from '../../src/words/day-and-place.js';
import { fullFarm, fullPractice } from '../book/full-practice.js';
import { htmlFindings, outlineFaults } from '../book/html-findings.js';
import { readDemoPractice } from '../round/demo-farms.js';

const today = '2026-06-16';
const demo = readDemoPractice(today);
const quernholt = demo.farms.find(({ slug }) => slug === 'quernholt')!;

const forms = ['zero', 'one', 'two', 'few', 'many', 'other'];
const gapsOf = (string: string) => [...string.matchAll(/\{(\w+)\}/g)].map(([, gap]) => gap!).toSorted();

/** Each string by its key, those of one number and of several under the key they share. */
function stringsOf(name: string): Map<string, Map<string, string>> {
  const all = new Map<string, Map<string, string>>();
  for (const [key, string] of readStrings(name)) {
    const form = forms.find((one) => key.endsWith(`.${one}`));
    const stem = form ? key.slice(0, -form.length - 1) : key;
    all.set(stem, (all.get(stem) ?? new Map<string, string>()).set(form ?? '', string));
  }
  return all;
}

test('each language says the same, with the same named values, in every form its numbers need', () => {
  const book = stringsOf('en-GB');
  const [first, ...others] = staffLanguages.map((language) => stringsOf(`staff-${language}`));
  for (const one of others) expect([...one.keys()].toSorted()).toEqual([...first!.keys()].toSorted());
  for (const language of staffLanguages) {
    const rules = new Intl.PluralRules(language);
    const needed = new Set(['other', ...Array.from({ length: 200 }, (_, count) => rules.select(count))]);
    for (const [key, said] of stringsOf(`staff-${language}`)) {
      const gaps = gapsOf([...first!.get(key)!.values()].at(-1)!);
      if (!said.has(''))
        expect([...said.keys()].toSorted(), `${language} ${key}`).toEqual([...needed].toSorted());
      for (const [form, string] of said) {
        // One thing may be named without its number.
        const wanted =
          form === 'one' ? gaps.filter((gap) => gap !== 'count' || string.includes('{count}')) : gaps;
        expect(gapsOf(string), `${language} ${key} ${form}`).toEqual(wanted);
        expect(string.trim(), `${language} ${key}`).not.toBe('');
      }
      const inBook = book.get(key);
      if (inBook) expect(gaps, `${language} ${key}`).toEqual(gapsOf([...inBook.values()].at(-1)!));
    }
  }
});

test('every sign of the same day, and every task, has its sentence', () => {
  const sameDay = noticeRules.filter(({ urgency }) => urgency === 'same-day').map(({ id }) => id);
  for (const language of staffLanguages) {
    const words = wordsOf(language);
    const under = (area: string) =>
      words.keys.filter((key) => key.startsWith(`${area}.`)).map((key) => key.slice(area.length + 1));
    expect(under('red').toSorted()).toEqual(sameDay.toSorted());
    expect(under('vocabulary.task').toSorted()).toEqual(vetTasks.toSorted());
  }
});

test('numbers are in the form of the language', () => {
  const more = (language: (typeof staffLanguages)[number], count: number) =>
    wordsOf(language).say('one.more', { count });
  expect([1, 2].map((count) => more('es', count))).toEqual([
    'Y una tarea más: véase el libro en inglés.',
    'Y 2 tareas más: véase el libro en inglés.',
  ]);
  expect([1, 3, 5, 12, 22].map((count) => more('pl', count).split(':')[0])).toEqual([
    'I jeszcze jedno zadanie',
    'I jeszcze 3 zadania',
    'I jeszcze 5 zadań',
    'I jeszcze 12 zadań',
    'I jeszcze 22 zadania',
  ]);
  expect([1, 2, 19, 20, 101].map((count) => more('ro', count).split(':')[0])).toEqual([
    'Și încă o lucrare',
    'Și încă 2 lucrări',
    'Și încă 19 lucrări',
    'Și încă 20 de lucrări',
    'Și încă 101 lucrări',
  ]);
});

test('a day is written as its language writes it, according to another program', () => {
  for (const language of staffLanguages) {
    const words = wordsOf(language);
    const as = (day: string, options: Intl.DateTimeFormatOptions) =>
      new Intl.DateTimeFormat(language, { ...options, timeZone: 'UTC' }).format(new Date(day));
    for (let month = 1; month <= 12; month += 1) {
      const day = `2026-${String(month).padStart(2, '0')}-0${(month % 7) + 1}`;
      expect(dayInShort(words, day)).toBe(as(day, { day: 'numeric', month: 'long' }));
      expect(dayInWords(words, day)).toBe(as(day, { day: 'numeric', month: 'long', year: 'numeric' }));
      const [weekday] = planDay(words, day, today).split(' ');
      expect(weekday!.replace('.', '')).toBe(as(day, { weekday: 'short' }).replace('.', ''));
    }
  }
  expect(planDay(wordsOf('pl'), '2027-01-05', today)).toBe('wt. 5 stycznia 2027');
});

const listsOf = (farm = quernholt, practice = demo) =>
  staffPages(
    practice,
    { ...farm, farm: { ...farm.farm, 'staff-languages': ['ro', 'es', 'pl', 'es'] } },
    today,
    pooledOn(practice, today),
  );

test('each list is a valid page in its own language, and the words of a record are marked as of theirs', async () => {
  const lists = [
    ...listsOf(),
    ...listsOf({ ...fullFarm, farm: { ...fullFarm.farm, farm: 'Quern & <holt>' } }, fullPractice),
  ];
  expect(lists.map(({ name }) => name)).toEqual(
    ['quernholt', fullFarm.slug].flatMap((slug) => ['ro', 'es', 'pl'].map((one) => `${slug}-staff-${one}`)),
  );
  for (const { language, html } of lists) {
    expect(await htmlFindings(html)).toEqual([]);
    expect(outlineFaults(html)).toEqual([]);
    expect(html).toContain(`<html lang="${language}">`);
    expect(html).toMatch(/<h1><bdi lang="en-GB">Quern(?:holt| &amp; &lt;holt&gt;)<\/bdi><\/h1>/);
    expect(html).not.toMatch(/<bdi>|[\u2068\u2069]|<script/);
    expect(html).toContain(wordsOf(language).say('staff.doubt'));
    expect(html).toContain(wordsOf(language).say('staff.counts'));
  }
});

test('a farm that names no language has no list', () => {
  const harrowmere = demo.farms.find(({ slug }) => slug === 'harrowmere')!;
  expect(staffPages(demo, harrowmere, today, pooledOn(demo, today))).toEqual([]);
});

test('of forty cows whose milk is withheld every one stays on the list, however few jobs have room', () => {
  const one = quernholt.cases.find(({ slug }) => slug === '2155')!;
  const cases = Array.from({ length: 40 }, (_, at) => ({
    ...one,
    slug: `x${at}`,
    animal: { ...one.animal, animal: `x${at}` },
  }));
  const farm = { ...quernholt, cases };
  const { priors } = pooledOn(demo, today);
  const work = workOutFarm(farm, { business: demo.business, today, priors });
  const page = composeStaff('es', demo, farm, work, today);
  expect(page.tank.rows.flatMap(({ number }) => number.split(', ')).toSorted()).toEqual(
    cases.map(({ slug }) => slug).toSorted(),
  );
  expect(page.tank.rows.map(({ milk }) => milk)).toEqual([
    'hasta el vie. 19 de junio; libre desde el sáb. 20 de junio',
  ]);
  expect(page.farmJobs.more).toBeDefined();
});
