import { dayInWords, placeInWords } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import { px } from './svg-mark.js';
import type { WallStripInput } from './drawn-wall.js';

export function wallStripTitle({ lesion, foot, claw, line }: WallStripInput, words: Words): string {
  return words.say('figure.wall.title', {
    lesion,
    place: placeInWords(words, foot, claw),
    line: words.say(`vocabulary.line.${line}`),
  });
}

/** What the strip shows, for somebody who hears it: how many visits, the latest reading, the next, the date or why none. */
export function wallStripDescription(input: WallStripInput, words: Words): string {
  const { bars, expected, wall } = input;
  const [first, last] = [bars[0], bars.at(-1)];
  const say = (key: string, values = {}) => words.say(`figure.wall.description.${key}`, values);
  if (!first || !last) return say('none');
  const read = bars.findLast((bar) => bar.topMm !== undefined && bar.kind !== 'not-reached');
  const next = expected[0];
  const day = (of: string) => dayInWords(words, of);
  return [
    say('visits', { count: bars.length, first: day(first.date), last: day(last.date) }),
    read ? say('latest', { date: day(read.date), mm: px(read.topMm ?? 0) }) : '',
    say('wall', { mm: px(wall.mm) }),
    next
      ? say('next', { date: day(next.date), low: Math.round(next.lowMm), high: Math.round(next.highMm) })
      : '',
    outInWords(input, words) ?? '',
  ]
    .filter(Boolean)
    .join(' ');
}

/** Sentences under the strip: only for marks that occur in it. */
export function wallStripNotes(input: WallStripInput, leftOut: number, words: Words): string[] {
  const { bars, held, expected, wall } = input;
  const some = (test: (bar: (typeof bars)[number]) => boolean) => bars.some(test);
  const occurring: [boolean, string, Record<string, string | number>?][] = [
    [bars.length > 0, 'scale'],
    [some((bar) => bar.bareFromMm !== undefined), 'bare'],
    [some((bar) => bar.state === 'covered'), 'covered'],
    [some((bar) => bar.kind === 'ran-up'), 'ran-up'],
    [held.length > 0, 'held'],
    [some((bar) => bar.kind === 'doubtful'), 'doubtful'],
    [some((bar) => bar.kind === 'not-reached'), 'not-reached'],
    [some((bar) => bar.kind === undefined && bar.state !== 'healed'), 'no-length'],
    [some((bar) => bar.unused && bar.kind !== 'not-reached'), 'unused'],
    [some((bar) => bar.lowered), 'lowered'],
    [
      some((bar) => !bar.wallMeasured) || (wall.source === 'reference' && expected.length > 0),
      `wall-${wall.source}`,
      { mm: px(wall.mm) },
    ],
    [expected.length > 0, 'expected'],
    [bars.length > 1, 'spacing'],
    [leftOut > 0, 'left-out', { count: leftOut }],
  ];
  return [
    ...occurring.flatMap(([occurs, key, values]) =>
      occurs ? words.say(`figure.wall.note.${key}`, values) : [],
    ),
    ...[outInWords(input, words) ?? []].flat(),
  ];
}

/** The date with its range, or why none is given. */
function outInWords(input: WallStripInput, words: Words): string | undefined {
  const { out, noForecast, ifRanUp, ifSoundHornFollows } = input;
  const day = (of: string) => dayInWords(words, of);
  const say = (key: string, values = {}) => words.say(`figure.wall.note.${key}`, values);
  if (out) {
    const { early, best, late } = out;
    if (early === null) return say('out-far');
    if (ifSoundHornFollows)
      return late === null
        ? say('out-if-open', { early: day(early) })
        : say('out-if', { early: day(early), late: day(late) });
    if (best === null) return say('out-open', { early: day(early) });
    return late === null
      ? say('out-late-open', { early: day(early), best: day(best) })
      : say('out', { early: day(early), best: day(best), late: day(late) });
  }
  if (!noForecast || input.bars.length === 0) return undefined;
  const why = words.say(`figure.wall.why.${noForecast}`);
  return ifRanUp?.early && ifRanUp.late
    ? `${why} ${say('if-ran-up', { early: day(ifRanUp.early), late: day(ifRanUp.late) })}`
    : why;
}
