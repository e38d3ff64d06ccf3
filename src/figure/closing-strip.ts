import { largest } from '../statistics/extremes.js';
import type { Words } from '../words/words.js';
import type { ClosingStripInput } from './closing-strip-input.js';
import {
  closingStripDescription,
  closingStripNotes,
  closingStripTable,
  readsInWords,
  sizeInWords,
  widthRangeInWords,
} from './closing-strip-words.js';
import { dayAxisHeight, drawDayAxis, leastPitch } from './day-axis.js';
import { drawExpectedHole, drawHole, type HoleFills } from './drawn-hole.js';
import { drawing } from './drawing.js';
import type { Figure } from './figure.js';
import { hatch } from './hatch.js';
import { placeInWords } from '../words/lesion-in-words.js';
import { label, line } from './svg-mark.js';
import { textWidth } from './text-width.js';

/** The usual scale, px a mm, and the size at which a larger hole is drawn. */
const usualPxPerMm = 3.4;
const largestPx = 96;
/** A sheet of paper at natural size. */
const widestPx = 680;
const least = 64;
const topY = 20;

/** An ulcer seen from below, visit by visit, length and width to one scale: the two edges should come together. */
export function closingStrip(input: ClosingStripInput, words: Words): Figure {
  const title = words.say('figure.closing.title', {
    lesion: input.lesion,
    place: placeInWords(words, input.foot, input.claw),
  });
  const description = closingStripDescription(input, words);
  const { pitch, pxPerMm, tall } = measure(input, words);
  const room = Math.max(2, Math.floor((widestPx - 12) / pitch) - input.expected.length);
  const leftOut = Math.max(0, input.bars.length - room);
  const shown = { ...input, bars: input.bars.slice(leftOut) };
  return {
    svg: draw(shown, { pitch, pxPerMm, tall }, title, description, words),
    title,
    description,
    notes: closingStripNotes(input, leftOut, words),
    table: closingStripTable(input, title, words),
  };
}

interface Measure {
  /** Width of a column, px: enough for the largest hole and the longest words. */
  readonly pitch: number;
  readonly pxPerMm: number;
  /** Height of the largest hole, px. */
  readonly tall: number;
}

function measure({ bars, expected }: ClosingStripInput, words: Words): Measure {
  const lengths = [
    ...bars.flatMap(({ lengthMm = 0, widthMm = 0 }) => [lengthMm, widthMm]),
    ...expected.map(({ highMm }) => highMm),
  ];
  const longest = largest(lengths, 10);
  const pxPerMm = Math.min(usualPxPerMm, largestPx / longest);
  const widest = largest(
    [...bars.map(({ widthMm = 0 }) => widthMm), ...expected.map(({ highMm }) => highMm)],
    0,
  );
  const texts = bars.flatMap((bar) => [sizeInWords(bar, words), readsInWords(bar, words)]);
  return {
    pxPerMm,
    tall: Math.max(40, longest * pxPerMm),
    pitch: Math.max(
      least,
      leastPitch(
        [...bars, ...expected].map(({ date }) => date),
        words,
      ),
      widest * pxPerMm + 14,
      largest(texts.map((text) => textWidth(text, 13, 'bold') + 8)),
    ),
  };
}

function draw(
  input: ClosingStripInput,
  { pitch, pxPerMm, tall }: Measure,
  title: string,
  description: string,
  words: Words,
): string {
  const { bars, expected } = input;
  const hatches = {
    open: hatch(input.id, 'open'),
    covered: hatch(input.id, 'covered'),
    expected: hatch(input.id, 'expected'),
  };
  const fills: HoleFills = {
    open: hatches.open.fill,
    covered: hatches.covered.fill,
    expected: hatches.expected.fill,
  };
  const x = (at: number) => (at + 0.5) * pitch + 6;
  const [middleY, sizeY] = [topY + tall / 2, topY + tall + 18];
  const seen = bars.map(
    (bar, at) =>
      drawHole(bar, x(at), middleY, pxPerMm, fills) +
      label('k', x(at), 12, readsInWords(bar, words)) +
      label('n', x(at), sizeY, sizeInWords(bar, words)),
  );
  const later = expected.map((of, at) => {
    const place = x(bars.length + at);
    return (
      drawExpectedHole(of, place, middleY, pxPerMm, fills) +
      label('e', place, sizeY, widthRangeInWords(of, words))
    );
  });
  const divideX = x(bars.length) - pitch / 2;
  const divider =
    line('divide', divideX, 2, divideX, sizeY + 4) +
    label('t', divideX + 5, 12, words.say('figure.closing.expected'), 'start');
  const days = [...bars, ...expected].map(({ date }, at) => ({
    x: x(at),
    day: date,
    later: at >= bars.length,
  }));
  const body = [...seen, ...later, later.length ? divider : '', drawDayAxis(days, sizeY + 4, words)].join('');
  return drawing({
    id: input.id,
    width: Math.max(150, days.length * pitch + 12),
    height: sizeY + 4 + dayAxisHeight,
    title,
    description,
    defs: Object.values(hatches)
      .map(({ def, fill }) => (body.includes(fill) ? def : ''))
      .join(''),
    body,
  });
}
