import { gaitRoundChart, roundsDrawn } from '../figure/chart/gait-round-chart.js';
import { drawingId } from '../figure/drawing.js';
import { lameAtRound, lameAtRounds } from '../herd/lame-at-round.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { gaitScaleOn } from '../record/gait-scale-on.js';
import { dayInWords } from '../words/day-in-words.js';
import { shareInWords } from '../words/percent.js';
import type { Words } from '../words/words.js';
import type { FarmSection } from './book-page.js';
import type { DataTable } from './page-parts.js';
import { chartInBook } from './chart-in-book.js';

/** Whole-herd gait rounds: the share lame as a chart, and beneath it all counts as recorded, each beside the number scored. */
export function gaitRoundsSection(words: Words, farm: Farm, today: CalendarDay): FarmSection {
  const section = { id: 'gait-rounds', heading: words.say('book.rounds.heading') };
  if (!farm['gait-rounds']?.length) return { ...section, lead: [words.say('book.rounds.none')] };
  const table = roundsTable(words, farm, farm['gait-rounds']);
  const rounds = lameAtRounds(farm, today);
  const told = { ...section, lead: [words.say('book.rounds.lead')] };
  if (roundsDrawn(rounds).length === 0) return { ...told, table };
  const chart = gaitRoundChart(drawingId('', 'rounds'), rounds, words);
  return { ...told, figures: [chartInBook(words, 'gait-rounds-drawn', chart, table)] };
}

function roundsTable(words: Words, farm: Farm, rounds: NonNullable<Farm['gait-rounds']>): DataTable {
  const scores = [...new Set(rounds.flatMap((round) => Object.keys(round.counts)))].sort();
  return {
    id: 'gait-rounds-table',
    caption: words.say('book.rounds.caption'),
    columns: [
      { head: words.say('book.rounds.date') },
      { head: words.say('book.rounds.by') },
      { head: words.say('book.rounds.scale') },
      { head: words.say('book.rounds.lame'), number: true },
      { head: words.say('book.rounds.scored'), number: true },
      ...scores.map((score) => ({ head: words.say('book.rounds.score', { score }), number: true })),
    ],
    rows: rounds.map((round) => {
      const scale = gaitScaleOn(farm, round.date);
      const lame = scale && lameAtRound(round, scale);
      const [counts = '–', bounds] = lame ? shareInWords(words, lame.lame, lame.scored) : [];
      return {
        cells: [
          { text: dayInWords(words, round.date) },
          { text: round.by ?? '–' },
          { text: scale ? words.say(`vocabulary.gait-scale.${scale}`) : '–' },
          { text: counts, ...(bounds ? { note: bounds } : {}) },
          { text: round.scored?.toString() ?? '–' },
          ...scores.map((score) => ({ text: round.counts[score]?.toString() ?? '–' })),
        ],
      };
    }),
  };
}
