import { largest } from '../statistics/extremes.js';
import type { Words } from '../words/words.js';
import { drawing } from './drawing.js';
import type { Figure } from './figure.js';
import { hatch } from './hatch.js';
import { label, lines } from './svg-mark.js';
import { textWidth } from './text-width.js';
import { timeScale } from './time-scale.js';
import type { TimelineInput } from './timeline-input.js';
import { timelineRows } from './timeline-rows.js';
import { timelineDescription, timelineNotes, timelineTable } from './timeline-words.js';

const width = 660;
const topY = 4;

/** One animal over time, to scale: visits, walk, blocks, wraps, withheld days, the vet, run-ups. Only rows that have something. */
export function visitTimeline(input: TimelineInput, words: Words): Figure {
  const title = words.say('figure.time.title');
  const description = timelineDescription(input, words);
  const fill = hatch(input.id, 'open');
  const rows = timelineRows(input, words, fill.fill);
  const left =
    Math.ceil(
      largest(
        rows.map(({ name }) => textWidth(name, 12)),
        40,
      ),
    ) + 14;
  const scale = timeScale(input.from, input.to, left, width - 14, words);
  let y = topY;
  const rules: [number, number, number, number][] = [];
  const drawn = rows.map(({ name, lay }) => {
    const { height, middle, draw } = lay(scale.x);
    const top = y;
    y += height;
    rules.push([left - 6, top + middle, width - 6, top + middle]);
    return label('t', left - 12, top + height / 2 + 4, name, 'end') + draw(top);
  });
  const ticks = scale.ticks.map((tick) => label('s', tick.x, y + 16, tick.text));
  for (const { x } of scale.ticks) rules.push([x, topY, x, y + 3]);
  const body = lines('rule', rules) + ticks.join('') + drawn.join('');
  return {
    svg: drawing({
      id: input.id,
      width,
      height: y + 22,
      title,
      description,
      defs: body.includes(fill.fill) ? fill.def : '',
      body,
    }),
    title,
    description,
    notes: timelineNotes(input, words),
    table: timelineTable(input, words),
  };
}
