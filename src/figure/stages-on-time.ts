import type { CalendarDay } from '../record/calendar-day.js';
import type { Claw, DdStage, Foot } from '../record/words.js';
import type { Words } from '../reference/words.js';
import { isActive } from '../healing/looks-at-lesion.js';
import { dayInWords, placeInWords } from '../words/day-and-place.js';
import type { Figure } from './figure.js';
import { label, line, path, px, rect } from './svg-mark.js';
import { byWeight, type DrawingRoom, drawOnTime, halfOf, type OnTime, topRoom } from './time-axis.js';
import { beneathNotes } from './visit-timeline.js';

/** Digital dermatitis on true time: its stages at each look, oldest first. */
export interface StagesOnTime extends OnTime {
  /** Unique on the page. */
  readonly id: string;
  readonly lesion: string;
  readonly foot: Foot;
  readonly claw?: Claw;
  readonly looks: readonly { readonly date: CalendarDay; readonly stage: DdStage }[];
}

/** From active skin above to sound skin below. */
const levels = ['active', 'chronic', 'sound'] as const;
type Level = (typeof levels)[number];
const levelHeight = 28;

/** @example levelOf('M4.1') // → 'active' */
export function levelOf(stage: DdStage): Level {
  return isActive(stage) ? 'active' : stage === 'M0' ? 'sound' : 'chronic';
}

/**
 * Digital dermatitis on true time: at each look its stage, on one of three levels, so that a return is a step up.
 * Filled where the skin is active, hatched where it is chronic or healing, hollow where it is sound.
 *
 * Checked: tests/figure/stages-on-time.test.ts
 */
export function stagesOnTime(
  { id, lesion, foot, claw, looks, ...of }: StagesOnTime,
  words: Words,
  room: DrawingRoom,
): Figure {
  const say = (key: string, values = {}) => words.say(`figure.stages.${key}`, values);
  const title = say('title', { lesion, place: placeInWords(words, foot, claw) });
  const names = levels.map((level) => say(`level.${level}`));
  const yOf = (level: Level): number => topRoom + 8 + levels.indexOf(level) * levelHeight;
  const days = looks.map(({ date }) => date);
  const rows = looks.map(({ date, stage }) => [
    dayInWords(words, date),
    words.say(`vocabulary.stage.${stage}`),
  ]);
  const { leftOut: _, ...drawn } = drawOnTime(
    {
      ...of,
      id: `${id}-${room.of}`,
      room,
      title,
      description: words.semicolons(rows.map((cells) => words.commas(cells))),
      days: byWeight(looks, ({ stage }) => isActive(stage)).map(({ date }) => date),
      names,
      bottom: topRoom + 4 + levels.length * levelHeight,
      gap: 8,
      draw: (axis, fills) => {
        const half = halfOf(days, axis, 19);
        const at = looks.map(({ date, stage }) => ({ x: axis.x(date), y: yOf(levelOf(stage)), stage }));
        const rules = levels.map(
          (level, row) =>
            line('rule', axis.left, yOf(level), axis.right, yOf(level)) +
            label('s', axis.left - 8, yOf(level) + 4, names[row]!, 'end'),
        );
        const way = at.map(({ x, y }) => `${px(x)} ${px(y)}`).join('L');
        return {
          body:
            rules.join('') +
            (at.length < 2 ? '' : path('outline', `M${way}`)) +
            at.map(({ x, y, stage }) => drawStage(x, y, half, levelOf(stage), fills.open)).join(''),
          texts: at.map(({ x, y, stage }) => ({ mark: 'np', x, y: y - 9, text: stage, size: 13 })),
        };
      },
    },
    words,
  );
  return {
    ...drawn,
    notes: [say('note.level'), ...beneathNotes(of.beneath, words)],
    table: { caption: title, columns: [say('column.date'), say('column.stage')], rows },
  };
}

function drawStage(x: number, y: number, half: number, level: Level, hatched: string): string {
  const [left, top] = [x - half, y - 6];
  if (level === 'active') return rect('solid', left, top, 2 * half, 12);
  if (level === 'sound') return rect('skin', left, top, 2 * half, 12);
  return rect('', left, top, 2 * half, 12, hatched) + rect('edge', left, top, 2 * half, 12);
}
