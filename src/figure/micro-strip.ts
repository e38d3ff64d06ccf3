import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { largest, smallest } from '../statistics/estimate.js';
import type { WallBar } from './wall-strip-input.js';
import { hatch } from './figure.js';
import { escapeText, label, line, path, px, rect } from './svg-mark.js';
import { timeAxis } from './time-axis.js';

const [width, height, top, ground] = [168, 30, 3, 26];

/** Days a page of open cows shows on one axis: about half a year, ending on the day of the page. */
export const microDays = 182;

/**
 * A wall in one row among many, all rows on one time axis, so that the eye can run down them: bars of equal height,
 * wall above, gap hatched, a sign over one that ran up, is held or doubtful.
 */
export function microStrip(id: string, bars: readonly WallBar[], today: CalendarDay, title: string): string {
  const axis = timeAxis(addDays(today, -microDays), today, 6, width - 8);
  const shown = bars.filter(({ date }) => date >= axis.first && date <= today);
  const apart = shown.slice(1).map((bar, at) => axis.x(bar.date) - axis.x(shown[at]!.date));
  const half = Math.max(1.5, Math.min(5, (smallest(apart, 20) - 1) / 2));
  const fill = hatch(id, 'open');
  const tall = ground - top;
  const body = shown.map((bar) => {
    const x = axis.x(bar.date);
    if (bar.state === 'healed') return rect('wall', x - half, top, 2 * half, tall);
    if (bar.topMm === undefined || bar.kind === 'not-reached')
      return rect('gone', x - half, top, 2 * half, tall) + label('k', x, ground - 7, '?');
    const at = top + tall * Math.min(1, bar.topMm / largest([bar.wallMm, 1]));
    return (
      rect('wall', x - half, top, 2 * half, at - top) +
      rect('', x - half, at, 2 * half, ground - at, fill.fill) +
      line('thin', x - half - 1.5, at, x + half + 1.5, at) +
      signBeside(bar, x - half - 6, at)
    );
  });
  const drawn = body.join('');
  return (
    `<svg class="fig micro" role="img" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}"` +
    ` aria-label="${escapeText(title)}">${drawn.includes(fill.fill) ? `<defs>${fill.def}</defs>` : ''}` +
    line('top', 0, top, width, top) +
    line('rule', 0, ground, width, ground) +
    `${drawn}</svg>`
  );
}

function signBeside({ kind }: WallBar, x: number, y: number): string {
  if (kind === 'ran-up') return path('up', `M${px(x)} ${px(y + 9)}v-9m-3 3.5l3-3.5l3 3.5`);
  if (kind === 'held') return path('up', `M${px(x - 3)} ${px(y)}h6m-6 3.5h6`);
  return kind === 'doubtful' ? label('k', x, y + 10, '?') : '';
}
