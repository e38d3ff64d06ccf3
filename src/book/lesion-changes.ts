import type { LesionGrowth } from '../growth/animal-growth.js';
import { looksAt, type Look } from '../healing/looks-at-lesion.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Found } from '../record/found.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { Words } from '../words/words.js';
import type { PlacedCase } from './placed-case.js';
import { signed, type Change } from './change.js';
import { nameInBook } from './finding-in-words.js';

/** What each lesion and mark measured at its last two looks. A closed case, or a lesion healed before that, has none. */
export function lesionChanges(words: Words, one: PlacedCase, today: CalendarDay): Change[] {
  const { animal } = one.record;
  const lesions = one.standing.lesions.flatMap(({ lesion, standing }) => {
    if (standing === 'healed' || standing === 'joined') return [];
    const looks = looksAt(animal, lesion, today);
    const name = nameInBook(words, animal, lesion);
    const gap = one.growth.lesions.find((each) => each.lesion === lesion);
    return [
      ...topChange(words, name, gap),
      ...sizeChange(words, name, looks, 'width'),
      ...sizeChange(words, name, looks, 'length'),
      ...stageChange(words, name, looks),
    ];
  });
  const marks = one.growth.marks.flatMap(({ mark, readings }) =>
    readingChange(words, nameInBook(words, animal, mark), 'book.changes.distance-of', readings),
  );
  return [...lesions, ...marks];
}

function topChange(words: Words, name: string, gap: LesionGrowth | undefined): Change[] {
  return gap ? readingChange(words, name, 'book.changes.top-of', gap.readings) : [];
}

function readingChange(
  words: Words,
  name: string,
  whatKey: string,
  readings: LesionGrowth['readings'],
): Change[] {
  const measured = readings.filter((reading) => reading.topMm !== undefined);
  const [before, last] = measured.slice(-2);
  if (!before || !last || before.topMm === undefined || last.topMm === undefined) return [];
  const half = growthNumbers.forecast.rangeSds.value * (last.sdMm ?? 0);
  return [
    {
      what: words.say(whatKey, { name }),
      before: { date: before.date, said: words.say('book.changes.mm', { value: before.topMm }) },
      last: { date: last.date, said: words.say('book.changes.mm', { value: last.topMm }) },
      change: signed(last.topMm - before.topMm),
      ...(last.expectedMm === undefined
        ? {}
        : {
            expected: words.say('book.changes.from-to', {
              low: signed(Math.round(Math.max(0, last.expectedMm - half) - before.topMm)),
              high: signed(Math.round(last.expectedMm + half - before.topMm)),
            }),
          }),
      readsAs: words.say(`figure.wall.reads.${last.kind}`),
    },
  ];
}

function sizeChange(words: Words, name: string, looks: readonly Look[], key: 'width' | 'length'): Change[] {
  const [before, last] = looks.filter(({ found }) => found[key] !== undefined).slice(-2);
  const [then, now] = [before?.found[key], last?.found[key]];
  if (!before || !last || then === undefined || now === undefined) return [];
  return [
    {
      what: words.say(`book.changes.${key}-of`, { name }),
      before: { date: before.date, said: words.say('book.changes.mm', { value: then }) },
      last: { date: last.date, said: words.say('book.changes.mm', { value: now }) },
      change: signed(now - then),
    },
  ];
}

function stageChange(words: Words, name: string, looks: readonly Look[]): Change[] {
  const staged = looks.filter((look): look is Look & { found: Found & { stage: string } } =>
    Boolean(look.found.stage),
  );
  const [before, last] = staged.slice(-2);
  if (!before || !last) return [];
  return [
    {
      what: words.say('book.changes.stage-of', { name }),
      before: { date: before.date, said: before.found.stage },
      last: { date: last.date, said: last.found.stage },
      readsAs: words.say(`vocabulary.stage.${last.found.stage}`),
    },
  ];
}
