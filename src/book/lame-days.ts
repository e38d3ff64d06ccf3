import type { FarmFigures } from '../herd/farm-figures.js';
import { dayKinds } from '../herd/lame-days.js';
import { spreadOfCounts } from '../herd/spread-of-counts.js';
import { herdNumbers } from '../reference/herd-numbers.js';
import { workSentences } from '../words/compose-herd.js';
import { mm } from '../words/number-in-words.js';
import { percent } from '../words/percent.js';
import type { Words } from '../words/words.js';
import type { TableSection } from './page-parts.js';

/** Days lame on the block and off it over all runs of trouble, and the visits and blocks they took. */
export function lameDaysSection(words: Words, { farm, lameDays }: FarmFigures): TableSection {
  const section = { id: 'lame-days', heading: words.say('herd.lame.heading') };
  const work = workSentences(words, farm.work);
  if (lameDays.length === 0) return { ...section, lead: [words.say('herd.lame.none'), ...work] };
  const all = lameDays.flatMap(({ days }) => Object.values(days)).reduce((sum, days) => sum + days, 0);
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
        { head: words.say('herd.lame.median'), number: true },
        { head: words.say('herd.lame.most'), number: true },
      ],
      rows: dayKinds.map((kind) => {
        const each = lameDays.map(({ days }) => days[kind]);
        const value = each.reduce((sum, days) => sum + days, 0);
        const spread = spreadOfCounts(each);
        return {
          cells: [
            { text: words.say(`herd.lame.kinds.${kind}`) },
            {
              text:
                all === 0 ? '0' : words.say('herd.lame.of', { value, percent: percent(value / all), all }),
            },
            { text: `${mm(spread?.median ?? 0)}` },
            { text: `${spread?.most ?? 0}` },
          ],
        };
      }),
    },
  };
}
