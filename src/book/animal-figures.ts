import type { ExpectedWidth } from '../figure/closing-strip-input.js';
import { closingStrip } from '../figure/closing-strip.js';
import { drawingId } from '../figure/drawing.js';
import type { Figure } from '../figure/figure.js';
import type { FootMapGap } from '../figure/foot-map-input.js';
import { footMap } from '../figure/foot-map.js';
import { visitTimeline } from '../figure/visit-timeline.js';
import { wallStripInput } from '../figure/wall-strip-input.js';
import { wallStrip } from '../figure/wall-strip.js';
import type { UlcerClosing } from '../healing/closing/ulcer-closing.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { feet } from '../record/words.js';
import { familyOf, lesionKinds } from '../reference/lesions.js';
import { isOpenStanding } from '../words/compose-standing.js';
import type { Words } from '../words/words.js';
import { bookFigure } from './book-figure.js';
import type { BookFigure } from './page-parts.js';
import type { PlacedCase } from './placed-case.js';
import { closingBars } from './closing-bars.js';
import { nextLift } from '../schedule/next-lift.js';
import { timelineInput } from './timeline-of-case.js';

/** Her drawings: each gap in the wall, each ulcer, where in the foot it all is, and her walk over time. */
export function animalFigures(
  words: Words,
  farm: Farm,
  one: PlacedCase,
  today: CalendarDay,
): readonly BookFigure[] {
  const figures: [string, Figure][] = [
    ...wallStrips(words, farm, one, today),
    ...ulcerStrips(words, farm, one, today),
    ...footMaps(words, one),
    ...timeLine(words, farm, one, today),
  ];
  return figures.map(([name, figure]) =>
    bookFigure(words, `${one.id}-figure-${name}`, figure, /^(time|foot|closing)/.test(name)),
  );
}

function wallStrips(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay): [string, Figure][] {
  const { animal, slug } = one.record;
  const over = new Set(
    one.standing.lesions.filter((each) => !isOpenStanding(each)).map(({ lesion }) => lesion),
  );
  const next = nextLift(farm, one, today);
  return one.growth.lesions
    .filter(({ readings }) => readings.length > 0)
    .toSorted((a, b) => Number(over.has(a.lesion)) - Number(over.has(b.lesion)))
    .map((gap) => [
      `wall-${gap.lesion}`,
      wallStrip(wallStripInput(gap, animal, next === undefined ? [] : [next], slug, today), words),
    ]);
}

function ulcerStrips(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay): [string, Figure][] {
  const next = nextLift(farm, one, today);
  return one.standing.lesions
    .filter(({ code }) => familyOf(code) === 'ulcer' || familyOf(code) === 'double sole')
    .flatMap(({ lesion }): [string, Figure][] => {
      const declared = one.record.animal.lesions[lesion];
      const closing = one.closings.find((each) => each.lesion === lesion);
      const bars = closingBars(one.record.animal, lesion, closing, today);
      if (!declared || bars.every((bar) => bar.widthMm === undefined)) return [];
      const { foot, claw } = declared;
      const input = {
        id: drawingId(one.record.slug, 'closing', lesion),
        lesion,
        foot,
        ...(claw ? { claw } : {}),
        bars,
        expected: next === undefined || one.standing.closed ? [] : expectedWidths(closing, next),
      };
      return [[`closing-${lesion}`, closingStrip(input, words)]];
    });
}

/** The width expected at her next lift; none where there is no date, or where it should be closed by then. */
function expectedWidths(closing: UlcerClosing | undefined, next: CalendarDay): ExpectedWidth[] {
  const width = closing?.forecast.outcome === 'range' ? closing.nextReading(next) : undefined;
  return width && Math.round(width.highMm) > 0 ? [width] : [];
}

function timeLine(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay): [string, Figure][] {
  const input = timelineInput(words, farm, one, today);
  return input ? [['time', visitTimeline(input, words)]] : [];
}

function footMaps(words: Words, one: PlacedCase): [string, Figure][] {
  return feet.flatMap((foot): [string, Figure][] => {
    const lesions = one.standing.lesions.flatMap(({ lesion, code, standing }) => {
      const declared = one.record.animal.lesions[lesion];
      if (declared?.foot !== foot) return [];
      return [
        {
          lesion,
          name: lesionKinds[code].name,
          ...(declared.claw ? { claw: declared.claw } : {}),
          ...(declared.site ? { site: declared.site } : {}),
          healed: standing === 'healed' || standing === 'joined',
          ...topOnMap(one, lesion),
        },
      ];
    });
    if (lesions.length === 0) return [];
    return [
      [`foot-${foot}`, footMap({ id: drawingId(one.record.slug, 'foot', foot), foot, lesions }, words)],
    ];
  });
}

/** Where the top of a gap stands and stood first, where it was read and she is not healed. */
function topOnMap(one: PlacedCase, lesion: string): { gap?: FootMapGap } {
  const gap = one.growth.lesions.find((each) => each.lesion === lesion);
  const standing = one.standing.lesions.find((each) => each.lesion === lesion)?.standing;
  if (!gap || standing === 'healed' || standing === 'joined') return {};
  const tops = gap.readings.flatMap(({ topMm, kind }) =>
    topMm === undefined || kind === 'not-reached' ? [] : [topMm],
  );
  const [first, last] = [tops[0], tops.at(-1)];
  if (first === undefined || last === undefined) return {};
  return {
    gap: {
      line: gap.line,
      wallMm: gap.wall.mm,
      topMm: last,
      ...(tops.length > 1 ? { firstMm: first } : {}),
    },
  };
}
