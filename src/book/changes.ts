import type { CalendarDay } from '../record/calendar-day.js';
import type { Words } from '../reference/words.js';
import { dayInShort, mm } from '../words/day-and-place.js';
import type { Cell, TableSection } from './page-parts.js';
import type { PlacedCase } from './animal-page-data.js';
import type { GaitScore } from '../healing/standing.js';
import type { LesionGrowth } from '../growth/animal-growth.js';
import { looksAt, type Look } from '../healing/looks-at-lesion.js';
import type { Found } from '../record/visit.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { nameInBook } from './work-in-words.js';

/** Is it better? Then, now, change, what was expected, and how it reads, with each day beside its number. */
export function composeChanges(words: Words, one: PlacedCase, today: CalendarDay): TableSection | undefined {
  const changes = [...lesionChanges(words, one, today), ...gaitChange(words, one)];
  if (changes.length === 0) return undefined;
  const cell = ({ date, said }: Change['before']): Cell => ({ text: said, note: dayInShort(words, date) });
  return {
    id: `${one.id}-changes`,
    heading: words.say('book.changes.heading'),
    lead: [],
    table: {
      id: `${one.id}-changes-table`,
      caption: words.say('book.changes.caption', { animal: one.record.animal.animal }),
      columns: [
        { head: words.say('book.changes.what') },
        { head: words.say('book.changes.then'), number: true },
        { head: words.say('book.changes.now'), number: true },
        { head: words.say('book.changes.change'), number: true },
        { head: words.say('book.changes.expected'), number: true },
        { head: words.say('book.changes.reads-as') },
      ],
      rows: changes.map((each) => ({
        cells: [
          { text: each.what },
          cell(each.before),
          cell(each.last),
          { text: each.change ?? '–' },
          { text: each.expected ?? '–' },
          { text: each.readsAs ?? '–' },
        ],
      })),
    },
  };
}

/** Her walk at the last two scores. On the block and off it, or on two scales, no change is worked out: they do not compare. */
function gaitChange(words: Words, one: PlacedCase): Change[] {
  const [before, last] = one.standing.gait.scores.slice(-2);
  if (!before || !last) return [];
  const alike = before.scale === last.scale && before.block === last.block && last.block !== 'unclear';
  return [
    {
      what: words.say('book.changes.gait', { scale: words.say(`vocabulary.gait-scale.${last.scale}`) }),
      before: { date: before.date, said: scoreInWords(words, before) },
      last: { date: last.date, said: scoreInWords(words, last) },
      ...(alike ? { change: signed(words, last.score - before.score) } : {}),
      readsAs: words.semicolons([
        words.say(`book.changes.${last.severe ? 'severe' : last.lame ? 'lame' : 'not-lame'}`),
        ...(alike ? [] : [words.say('book.changes.do-not-compare')]),
        ...(last.block === 'on' && !last.lame ? [words.say('book.changes.not-counted')] : []),
      ]),
    },
  ];
}

function scoreInWords(words: Words, score: GaitScore): string {
  return words.say(`book.changes.score-${score.block}`, { score: score.score });
}

/** What each lesion and mark measured at its last two looks. A closed case, or a lesion healed before that, has none. */
function lesionChanges(words: Words, one: PlacedCase, today: CalendarDay): Change[] {
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
      change: signed(words, last.topMm - before.topMm),
      ...(last.expectedMm === undefined
        ? {}
        : {
            expected: words.say('book.changes.from-to', {
              low: signed(words, Math.round(Math.max(0, last.expectedMm - half) - before.topMm)),
              high: signed(words, Math.round(last.expectedMm + half - before.topMm)),
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
      change: signed(words, now - then),
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

/** One measure at two looks: then, now, and what the change reads as. Everything worded. */
interface Change {
  readonly what: string;
  readonly before: { readonly date: CalendarDay; readonly said: string };
  readonly last: { readonly date: CalendarDay; readonly said: string };
  readonly change?: string;
  readonly expected?: string;
  readonly readsAs?: string;
}

/** A change with its sign. @example signed(wordsOf('en-GB'), -3.5) // → '−3.5' */
export function signed(words: Words, change: number): string {
  const rounded = mm(change);
  const size = words.number(Math.abs(rounded));
  return rounded > 0 ? `+${size}` : rounded < 0 ? `−${size}` : '0';
}
