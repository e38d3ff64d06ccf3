import type { FarmFigures } from '../herd/farm-figures.js';
import { dayKinds } from '../herd/lame-days.js';
import { spreadOf } from '../herd/printed-figure.js';
import { herdNumbers } from '../reference/numbers.js';
import { spreadInWords, workSentences } from '../words/compose-herd.js';
import type { Words } from '../reference/words.js';
import type { TableSection } from './page-parts.js';

/** Days lame on the block and off it over all lameness episodes, and the visits and blocks they took. */
export function lameDaysSection(words: Words, { farm, lameDays }: FarmFigures): TableSection {
  const section = { id: 'lame-days', heading: words.say('herd.lame.heading') };
  const work = workSentences(words, farm.work);
  if (lameDays.length === 0) return { ...section, lead: [words.say('herd.lame.none'), ...work] };
  const all = lameDays.flatMap(({ days }) => Object.values(days)).reduce((sum, days) => sum + days, 0);
  const animals = new Set(lameDays.map(({ slug }) => slug)).size;
  return {
    ...section,
    lead: [
      words.say('herd.lame.lead', {
        runs: words.say('herd.runs', { count: lameDays.length }),
        carried: words.say('herd.days', { count: herdNumbers.figures.carriedForward.value }),
      }),
      ...work,
    ],
    table: {
      id: 'lame-days-table',
      caption: words.say('herd.lame.caption'),
      columns: [
        { head: words.say('herd.lame.what') },
        { head: words.say('herd.lame.total'), number: true },
        { head: words.say('herd.lame.each'), number: true },
      ],
      rows: dayKinds.map((kind) => {
        const spread = spreadOf(
          lameDays.map(({ days }) => days[kind]),
          animals,
        );
        const value = lameDays.reduce((sum, { days }) => sum + days[kind], 0);
        return {
          cells: [
            { text: words.say(`herd.lame.kinds.${kind}`) },
            { text: words.say('herd.lame.of', { value, all }) },
            { text: spread ? spreadInWords(words, spread) : '–' },
          ],
        };
      }),
    },
  };
}
