import type { Words } from '../words/words.js';
import { px } from './svg-mark.js';
import type { WallBar } from './drawn-wall.js';

/** A line over a bar, and whether it is one to act on (set in the colour of what is open). */
export interface BarNote {
  readonly text: string;
  readonly grave: boolean;
}

/** What is written over a bar: how the reading was taken, then how the gap stood. Nothing where it simply grew. */
export function barNotes(bar: WallBar, words: Words): BarNote[] {
  const say = (key: string, values = {}) => words.say(`figure.wall.bar.${key}`, values);
  const notes: BarNote[] = [];
  const add = (text: string, grave = false) => notes.push({ text, grave });
  if (bar.kind === undefined) {
    if (bar.state === 'open' || bar.state === undefined) add(say('no-length'));
  } else if (bar.kind === 'ran-up') {
    add(say('ran-up'), true);
    if (bar.ranUpMm !== undefined) add(words.say('figure.mm', { mm: Math.round(bar.ranUpMm) }));
    if (bar.lostMonths !== undefined) add(monthsInWords(bar.lostMonths, words));
  } else if (bar.kind !== 'first' && bar.kind !== 'grew')
    add(say(bar.kind), bar.kind === 'held' || bar.kind === 'at-coronet');
  if (bar.state === 'covered' || bar.state === 'healed' || bar.state === 'lasting') add(say(bar.state));
  if (bar.joined !== undefined) add(say('joined', { lesion: bar.joined }));
  if (bar.lowered) add(say('lowered'));
  return notes;
}

/** Months to the nearest whole, below two to a half: finer would claim too much. @example monthsInWords(1.4, words) // → '1.5 months lost' */
export function monthsInWords(months: number, words: Words): string {
  const rounded = roundMonths(months);
  return words.say('figure.wall.bar.months', { count: rounded === 1 ? 1 : 2, months: px(rounded) });
}

export function roundMonths(months: number): number {
  return months < 2 ? Math.max(0.5, Math.round(months * 2) / 2) : Math.round(months);
}
