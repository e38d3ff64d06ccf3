import { type ClosingBar, closingOnTime } from '../figure/closing-on-time.js';
import { drawingId, type Figure } from '../figure/figure.js';
import { footMap } from '../figure/foot-map.js';
import { stagesOnTime } from '../figure/stages-on-time.js';
import type { DrawingRoom, OnTime } from '../figure/time-axis.js';
import type { DaySpan, TimelineInput } from '../figure/timeline-rows.js';
import { visitTimeline } from '../figure/visit-timeline.js';
import { wallOnTime } from '../figure/wall-on-time.js';
import { onlySeen, wallStripInput } from '../figure/wall-strip-input.js';
import { blockTimeline } from '../healing/block-timeline.js';
import type { ClosingKind, NextWidth, UlcerClosing } from '../healing/closing/ulcer-closing.js';
import { type FixtureSpan, wrapTimeline } from '../healing/fixture-span.js';
import { looksAt } from '../healing/looks-at-lesion.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { given } from '../record/given.js';
import { feet, type Foot } from '../record/words.js';
import { familyOf } from '../reference/lesions.js';
import type { Words } from '../reference/words.js';
import { nextLift } from '../schedule/next-lift.js';
import { withheldSpans } from '../schedule/withheld.js';
import { isOpenStanding } from '../words/compose-standing.js';
import type { PlacedCase } from './animal-page-data.js';
import { type BookFigure, dataTable } from './page-parts.js';

/** CSS pixels: the 186 mm between the margins of A4, and a phone of 360 px between its own. The wall alone is at most 50 mm tall on paper. */
const paper: DrawingRoom = { of: 'paper', widthPx: 703, tallestPx: 190 };
const phone: DrawingRoom = { of: 'phone', widthPx: 328, tallestPx: 160 };

/** One drawing on true time: of what, on which foot, and how it is drawn in a room. */
interface OnTrueTime {
  readonly name: string;
  readonly foot: Foot;
  readonly draw: (of: OnTime, room: DrawingRoom) => Figure;
}

/** Whose drawings, as on which day, and of an open case when she is lifted next. */
interface DrawnCase {
  readonly words: Words;
  readonly one: PlacedCase;
  readonly today: CalendarDay;
  readonly next: CalendarDay | undefined;
}

/**
 * Her drawings: each gap in the wall, each ulcer, where in the foot it all is. Walk, blocks, vet and withheld days run
 * beneath the first of the walls, or where there is none of the ulcers or of the stages; they have a drawing of their own
 * where there is none of these.
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
  const next = one.standing.closed ? undefined : nextLift(farm, one, today);
  const of: DrawnCase = { words, one, today, next };
  const time = timelineInput(words, farm, one, today);
  const beneath = walkAlone && time ? { ...time, vet: [], withheld: [] } : time;
  const named = (name: string, figure: Figure) => bookFigure(words, `${one.id}-figure-${name}`, figure);
  const onTime = [...wallFigures(of), ...ulcerFigures(of), ...stageFigures(of)];
  const drawn = onTime.map(({ name, foot, draw }, at) => {
    const under = at === 0 && beneath ? ofFoot(beneath, foot) : undefined;
    const input = { today, ...given({ lift: next, beneath: under }) };
    return { ...named(name, draw(input, { ...paper, tallestPx })), phone: draw(input, phone).svg };
  });
  return [
    ...drawn,
    ...footMaps(of).map(([name, figure]) => named(name, figure)),
    ...(drawn.length > 0 || !time
      ? []
      : [
          {
            ...named('time', visitTimeline(time, words)),
            phone: visitTimeline({ ...time, id: `${time.id}-phone` }, words, phone.widthPx).svg,
          },
        ]),
  ];
}

/** Blocks and wraps of the one foot; walk, vet and withheld days are hers. */
function ofFoot(input: TimelineInput, foot: Foot): TimelineInput {
  return {
    ...input,
    blocks: input.blocks.filter((of) => of.foot === foot),
    wraps: input.wraps.filter((of) => of.foot === foot),
  };
}

function wallFigures({ words, one, today, next }: DrawnCase): OnTrueTime[] {
  const { animal, slug } = one.record;
  const over = new Set(
    one.standing.lesions.filter((each) => !isOpenStanding(each)).map(({ lesion }) => lesion),
  );
  return one.growth.lesions
    .filter(({ readings }) => readings.length > 0)
    .toSorted((a, b) => Number(over.has(a.lesion)) - Number(over.has(b.lesion)))
    .map((gap) => {
      const whole = wallStripInput(gap, animal, next === undefined ? [] : [next], slug, today);
      const strip = one.standing.closed ? onlySeen(whole) : whole;
      const mmPerMonth = one.growth.factor.mean * gap.referenceMmPerMonth;
      return {
        name: `wall-${gap.lesion}`,
        foot: gap.foot,
        draw: (of, room) => wallOnTime({ strip, mmPerMonth, ...of }, words, room),
      };
    });
}

/** Her lesions of some families, each with where it is declared to be. */
function lesionsOf({ one: { record, standing } }: DrawnCase, ...families: string[]) {
  return standing.lesions.flatMap(({ lesion, code }) => {
    const declared = record.animal.lesions[lesion];
    return declared && families.includes(familyOf(code))
      ? [{ lesion, foot: declared.foot, ...given({ claw: declared.claw }) }]
      : [];
  });
}

function ulcerFigures(of: DrawnCase): OnTrueTime[] {
  const { words, one, next } = of;
  return lesionsOf(of, 'ulcer', 'double sole').flatMap(({ lesion, foot, ...claw }): OnTrueTime[] => {
    const closing = one.closings.find((each) => each.lesion === lesion);
    const bars = closingBars(of, lesion, closing);
    if (bars.every((bar) => bar.widthMm === undefined)) return [];
    const forecast = one.standing.closed ? undefined : closing?.forecast;
    const strip = {
      id: drawingId(one.record.slug, 'closing', lesion),
      lesion,
      foot,
      ...claw,
      ...given({ closes: forecast?.outcome === 'range' ? forecast.out : undefined }),
      bars,
      expected: next === undefined ? [] : expectedWidths(closing, next),
    };
    const draw: OnTrueTime['draw'] = (onTime, room) => closingOnTime({ strip, ...onTime }, words, room);
    return [{ name: `closing-${lesion}`, foot, draw }];
  });
}

const shown: Partial<Record<ClosingKind, ClosingBar['reads']>> = {
  'opening-up': 'opening-up',
  held: 'held',
  doubtful: 'doubtful',
};

/** An ulcer's looks as they are drawn: size, how it stood, and what its width was taken for. */
function closingBars(
  { one, today }: DrawnCase,
  lesion: string,
  closing: UlcerClosing | undefined,
): ClosingBar[] {
  let closed = false;
  return looksAt(one.record.animal, lesion, today).map(({ date, visit, found }): ClosingBar => {
    const { state, length: lengthMm, width: widthMm } = found;
    const judged = closing?.readings.find((reading) => reading.visit === visit);
    const isShut = state === 'covered' || state === 'healed';
    const cameBack = closed && state === 'open';
    const reads = isShut ? state : cameBack ? 'came-back' : judged && shown[judged.kind];
    if (state !== undefined) closed = state !== 'open';
    return { date, ...given({ lengthMm, widthMm, reads, unused: judged?.unused || undefined }) };
  });
}

/** The width expected at her next lift; none where there is no date, or where it should be closed by then. */
function expectedWidths(closing: UlcerClosing | undefined, next: CalendarDay): NextWidth[] {
  const width = closing?.forecast.outcome === 'range' ? closing.nextReading(next) : undefined;
  return width && Math.round(width.highMm) > 0 ? [width] : [];
}

function stageFigures(of: DrawnCase): OnTrueTime[] {
  const { words, one, today } = of;
  return lesionsOf(of, 'dermatitis').flatMap(({ lesion, foot, ...claw }): OnTrueTime[] => {
    const looks = looksAt(one.record.animal, lesion, today).flatMap(({ date, found: { stage } }) =>
      stage === undefined ? [] : [{ date, stage }],
    );
    if (looks.length === 0) return [];
    const stages = { id: drawingId(one.record.slug, 'stages', lesion), lesion, foot, ...claw, looks };
    const draw: OnTrueTime['draw'] = (onTime, room) => stagesOnTime({ ...stages, ...onTime }, words, room);
    return [{ name: `stages-${lesion}`, foot, draw }];
  });
}

function footMaps(of: DrawnCase): [string, Figure][] {
  const { words, one } = of;
  const leading = one.standing.leading && one.record.animal.lesions[one.standing.leading.lesion]?.foot;
  const inOrder = feet.toSorted((a, b) => Number(b === leading) - Number(a === leading));
  return inOrder.flatMap((foot): [string, Figure][] => {
    const lesions = one.standing.lesions.flatMap(({ lesion, code, standing }) => {
      const declared = one.record.animal.lesions[lesion];
      if (declared?.foot !== foot) return [];
      const { claw, site } = declared;
      const healed = standing === 'healed' || standing === 'joined';
      const name = words.say(`vocabulary.lesion-name.${code}`);
      const gap = healed ? undefined : topOnMap(one, lesion);
      return [{ lesion, name, healed, ...given({ claw, site, gap }) }];
    });
    const id = drawingId(one.record.slug, 'foot', foot);
    return lesions.length === 0 ? [] : [[`foot-${foot}`, footMap({ id, foot, lesions }, words)]];
  });
}

/** Where the top of a gap is and was at first, where it was read. */
function topOnMap({ growth }: PlacedCase, lesion: string) {
  const gap = growth.lesions.find((each) => each.lesion === lesion);
  const tops = (gap?.readings ?? []).flatMap(({ topMm, kind }) =>
    topMm === undefined || kind === 'not-reached' ? [] : [topMm],
  );
  const [first, topMm] = [tops[0], tops.at(-1)];
  if (!gap || first === undefined || topMm === undefined) return undefined;
  const { line, wall } = gap;
  return { line, wallMm: wall.mm, topMm, ...(tops.length > 1 ? { firstMm: first } : {}) };
}

/** A drawing as the page shows it, with its numbers as a table folded beneath. */
function bookFigure(words: Words, id: string, { title, svg, notes, table }: Figure): BookFigure {
  return {
    id,
    heading: title,
    svg,
    notes,
    tableSummary: words.say('book.figure.as-table'),
    tableOnScreenOnly: true,
    table: dataTable(`${id}-table`, table.caption, table.columns, table.rows),
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
  const { spans } = blockTimeline(animal, today);
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
    blocks: spans.map((span) => ({ ...daySpan(span), foot: span.foot, claw: span.claw })),
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
