import { type ClosingBar, type ClosingInput, closingOnTime } from '../figure/closing-on-time.js';
import { drawingId, type Figure } from '../figure/figure.js';
import type { FootMapGap } from '../figure/foot-map-input.js';
import { footMap } from '../figure/foot-map.js';
import { visitTimeline } from '../figure/visit-timeline.js';
import { stagesOnTime } from '../figure/stages-on-time.js';
import { onlySeen, wallStripInput } from '../figure/wall-strip-input.js';
import type { DrawingRoom } from '../figure/time-axis.js';
import { wallOnTime } from '../figure/wall-on-time.js';
import type { UlcerClosing, ClosingKind, NextWidth } from '../healing/closing/ulcer-closing.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { feet, type Foot } from '../record/words.js';
import { familyOf } from '../reference/lesions.js';
import { isOpenStanding } from '../words/compose-standing.js';
import type { Words } from '../reference/words.js';
import type { BookFigure } from './page-parts.js';
import type { PlacedCase } from './animal-page-data.js';
import { nextLift } from '../schedule/next-lift.js';
import { looksAt } from '../healing/looks-at-lesion.js';
import type { Animal } from '../record/animal.js';
import { given } from '../record/given.js';
import type { DaySpan, TimelineInput } from '../figure/timeline-rows.js';
import { blockTimeline } from '../healing/block-timeline.js';
import { type FixtureSpan, wrapTimeline } from '../healing/fixture-span.js';
import { withheldSpans } from '../schedule/withheld.js';

const shown: Partial<Record<ClosingKind, ClosingBar['reads']>> = {
  'opening-up': 'opening-up',
  held: 'held',
  doubtful: 'doubtful',
};

/** An ulcer's looks as they are drawn: size, how it stood, and what its width was taken for. */
function closingBars(
  animal: Animal,
  lesion: string,
  closing: UlcerClosing | undefined,
  today: CalendarDay,
): ClosingBar[] {
  let closed = false;
  return looksAt(animal, lesion, today).map(({ date, visit, found }): ClosingBar => {
    const judged = closing?.readings.find((reading) => reading.visit === visit);
    const reads =
      found.state === 'covered' || found.state === 'healed'
        ? found.state
        : closed && found.state === 'open'
          ? 'came-back'
          : judged && shown[judged.kind];
    if (found.state !== undefined) closed = found.state !== 'open';
    return {
      date,
      ...given({ lengthMm: found.length, widthMm: found.width }),
      ...(reads ? { reads } : {}),
      ...(judged?.unused ? { unused: true } : {}),
    };
  });
}

/**
 * Her drawings: each gap in the wall, each ulcer, where in the foot it all is. Walk, blocks, vet and withheld days run
 * beneath the first; they have a drawing of their own where there is none.
 */
export function animalFigures(
  words: Words,
  farm: Farm,
  one: PlacedCase,
  today: CalendarDay,
  /** Of a wall on paper, where a side has little room left. */
  tallestPx = paper.tallestPx,
  /** Beneath it no more than walk, blocks and wraps: where what the vet was asked and what is withheld is said beside it. */
  walkAlone = false,
): readonly BookFigure[] {
  const room = { ...paper, tallestPx };
  const all = timelineInput(words, farm, one, today);
  const beneath = walkAlone && all ? { ...all, vet: [], withheld: [] } : all;
  const walls = wallFigures(words, farm, one, today, { beneath, room });
  const ulcers = ulcerFigures(words, farm, one, today, {
    beneath: walls.length > 0 ? undefined : beneath,
    room,
  });
  const under = walls.length + ulcers.length > 0 ? undefined : beneath;
  const drawn = [...walls, ...ulcers, ...stageFigures(words, farm, one, today, { beneath: under, room })];
  return [
    ...drawn,
    ...footMaps(words, one).map(([name, figure]) =>
      bookFigure(words, `${one.id}-figure-${name}`, figure, true),
    ),
    ...(drawn.length > 0 ? [] : timeLine(words, farm, one, today)),
  ];
}

/** CSS pixels: the 186 mm between the margins of A4, and a phone of 360 px between its own. The wall alone is at most 50 mm tall on paper. */
const paper: DrawingRoom = { of: 'paper', widthPx: 703, tallestPx: 190 };
const phone: DrawingRoom = { of: 'phone', widthPx: 328, tallestPx: 160 };

function wallFigures(
  words: Words,
  farm: Farm,
  one: PlacedCase,
  today: CalendarDay,
  { beneath, room }: { beneath: TimelineInput | undefined; room: DrawingRoom },
): BookFigure[] {
  const { animal, slug } = one.record;
  const over = new Set(
    one.standing.lesions.filter((each) => !isOpenStanding(each)).map(({ lesion }) => lesion),
  );
  const next = nextLift(farm, one, today);
  return one.growth.lesions
    .filter(({ readings }) => readings.length > 0)
    .toSorted((a, b) => Number(over.has(a.lesion)) - Number(over.has(b.lesion)))
    .map((gap, at) => {
      const strip = wallStripInput(gap, animal, next === undefined ? [] : [next], slug, today);
      const input = {
        strip: one.standing.closed ? onlySeen(strip) : strip,
        today,
        mmPerMonth: one.growth.factor.mean * gap.referenceMmPerMonth,
        ...given({
          lift: one.standing.closed ? undefined : next,
          beneath: at === 0 && beneath ? ofFoot(beneath, gap.foot) : undefined,
        }),
      };
      const name = `wall-${gap.lesion}`;
      return {
        ...bookFigure(words, `${one.id}-figure-${name}`, wallOnTime(input, words, room), true),
        phone: wallOnTime(input, words, phone).svg,
      };
    });
}

/** Blocks and wraps of the one foot; walk, vet and withheld days are hers. */
function ofFoot(input: TimelineInput, foot: Foot): TimelineInput {
  return {
    ...input,
    blocks: input.blocks.filter((of) => of.foot === foot),
    wraps: input.wraps.filter((of) => of.foot === foot),
  };
}

function ulcerFigures(
  words: Words,
  farm: Farm,
  one: PlacedCase,
  today: CalendarDay,
  { beneath, room }: { beneath: TimelineInput | undefined; room: DrawingRoom },
): BookFigure[] {
  const next = one.standing.closed ? undefined : nextLift(farm, one, today);
  return one.standing.lesions
    .filter(({ code }) => familyOf(code) === 'ulcer' || familyOf(code) === 'double sole')
    .flatMap(({ lesion }): ClosingInput[] => {
      const declared = one.record.animal.lesions[lesion];
      const closing = one.closings.find((each) => each.lesion === lesion);
      const bars = closingBars(one.record.animal, lesion, closing, today);
      if (!declared || bars.every((bar) => bar.widthMm === undefined)) return [];
      const forecast = one.standing.closed ? undefined : closing?.forecast;
      return [
        {
          id: drawingId(one.record.slug, 'closing', lesion),
          lesion,
          foot: declared.foot,
          ...given({
            claw: declared.claw,
            closes: forecast?.outcome === 'range' ? forecast.out : undefined,
          }),
          bars,
          expected: next === undefined ? [] : expectedWidths(closing, next),
        },
      ];
    })
    .map((strip, at) => {
      const under = at === 0 && beneath ? ofFoot(beneath, strip.foot) : undefined;
      const input = { strip, today, ...given({ lift: next, beneath: under }) };
      const id = `${one.id}-figure-closing-${strip.lesion}`;
      return {
        ...bookFigure(words, id, closingOnTime(input, words, room), true),
        phone: closingOnTime(input, words, phone).svg,
      };
    });
}

function stageFigures(
  words: Words,
  farm: Farm,
  one: PlacedCase,
  today: CalendarDay,
  { beneath, room }: { beneath: TimelineInput | undefined; room: DrawingRoom },
): BookFigure[] {
  const lift = one.standing.closed ? undefined : nextLift(farm, one, today);
  return one.standing.lesions
    .filter(({ code }) => familyOf(code) === 'dermatitis')
    .flatMap(({ lesion }) => {
      const declared = one.record.animal.lesions[lesion];
      const looks = looksAt(one.record.animal, lesion, today).flatMap(({ date, found: { stage } }) =>
        stage === undefined ? [] : [{ date, stage }],
      );
      return declared && looks.length > 0
        ? [{ lesion, looks, foot: declared.foot, claw: declared.claw }]
        : [];
    })
    .map(({ claw, ...stages }, at) => {
      const under = at === 0 && beneath ? ofFoot(beneath, stages.foot) : undefined;
      const input = {
        ...stages,
        id: drawingId(one.record.slug, 'stages', stages.lesion),
        today,
        ...given({ claw, lift, beneath: under }),
      };
      return {
        ...bookFigure(
          words,
          `${one.id}-figure-stages-${stages.lesion}`,
          stagesOnTime(input, words, room),
          true,
        ),
        phone: stagesOnTime(input, words, phone).svg,
      };
    });
}

/** The width expected at her next lift; none where there is no date, or where it should be closed by then. */
function expectedWidths(closing: UlcerClosing | undefined, next: CalendarDay): NextWidth[] {
  const width = closing?.forecast.outcome === 'range' ? closing.nextReading(next) : undefined;
  return width && Math.round(width.highMm) > 0 ? [width] : [];
}

function timeLine(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay): BookFigure[] {
  const input = timelineInput(words, farm, one, today);
  if (!input) return [];
  const figure = bookFigure(words, `${one.id}-figure-time`, visitTimeline(input, words), true);
  return [
    { ...figure, phone: visitTimeline({ ...input, id: `${input.id}-phone` }, words, phone.widthPx).svg },
  ];
}

function footMaps(words: Words, one: PlacedCase): [string, Figure][] {
  const leading = one.standing.leading && one.record.animal.lesions[one.standing.leading.lesion]?.foot;
  const inOrder = feet.toSorted((a, b) => Number(b === leading) - Number(a === leading));
  return inOrder.flatMap((foot): [string, Figure][] => {
    const lesions = one.standing.lesions.flatMap(({ lesion, code, standing }) => {
      const declared = one.record.animal.lesions[lesion];
      if (declared?.foot !== foot) return [];
      return [
        {
          lesion,
          name: words.say(`vocabulary.lesion-name.${code}`),
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

/** A drawing as the page shows it, with its numbers as a table folded beneath. */
function bookFigure(words: Words, id: string, figure: Figure, tableOnScreenOnly: boolean): BookFigure {
  return {
    id,
    heading: figure.title,
    svg: figure.svg,
    notes: figure.notes,
    tableSummary: words.say('book.figure.as-table'),
    tableOnScreenOnly,
    table: {
      id: `${id}-table`,
      caption: figure.table.caption,
      columns: figure.table.columns.map((head) => ({ head })),
      rows: figure.table.rows.map((cells) => ({ cells: cells.map((text) => ({ text })) })),
    },
  };
}

/** One animal over time: what her time line shows, up to today or to the end of her case. */
function timelineInput(
  words: Words,
  farm: Farm,
  { record, growth, standing }: PlacedCase,
  today: CalendarDay,
): TimelineInput | undefined {
  const { animal, slug } = record;
  const visits = animal.visits.filter((visit) => visit.date <= today);
  const first = visits[0]?.date;
  if (first === undefined) return undefined;
  const scale = standing.gait.last?.scale;
  return {
    id: drawingId(slug, 'time'),
    from: first,
    to: standing.closed?.on ?? today,
    visits: visits.map(({ date, kind }) => ({
      date,
      kind: kind === 'report' || kind === 'missed' ? kind : ('visit' as const),
    })),
    gait: standing.gait.scores,
    ...(scale ? { gaitScale: words.say(`vocabulary.gait-scale.${scale}`) } : {}),
    blocks: blockTimeline(animal, today).spans.map((span) => ({
      ...daySpan(span),
      foot: span.foot,
      claw: span.claw,
    })),
    wraps: wrapTimeline(animal, today).map((span) => ({ ...daySpan(span), foot: span.foot })),
    withheld: withheldSpans(animal, farm, today).map(({ side: what, from, to }) => ({
      what,
      from,
      ...(to === undefined ? { endUnknown: true } : { to }),
    })),
    vet: visits.flatMap(({ date, vet, 'vet-answer': answer }) => [
      ...(vet ? [{ date: vet.asked, what: 'asked' as const }] : []),
      ...(answer ? [{ date, what: 'answered' as const }] : []),
    ]),
    ranUp: growth.lesions.flatMap(({ lesion, readings }) =>
      readings.filter(({ kind }) => kind === 'ran-up').map(({ date }) => ({ date, lesion })),
    ),
  };
}

function daySpan({ from, end }: FixtureSpan): DaySpan {
  return { from, ...(end ? { to: end.by, endUnknown: end.dayUnknown } : {}) };
}
