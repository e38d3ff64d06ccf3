import type { Pooled } from '../herd/pooled-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { standingWords } from '../reference/standing-words.js';
import type { Words } from '../reference/words.js';
import { caseChip } from '../words/compose-standing.js';
import { dayInWords, paragraph } from '../words/day-and-place.js';
import type { PlacedCase } from './animal-page-data.js';
import type { BookPictures } from '../picture/fit-pictures.js';
import { whatWasDone } from './picture-strips.js';
import { composeFarmFigures } from './farm-figures.js';
import { gaitRoundsSection } from './farm-page.js';
import { drawingLegend } from '../figure/wall-strip-words.js';
import { blockEarlyBox, callVetBox } from './farm-watch.js';
import { cowRowMm } from './page-one.js';
import { figureMm, heightOf, roomOn, sumOf } from './fit.js';

/** The back of a farm's first side: what holds for every cow, which cases are over, and the farm's figures as far as they fit. */
export type FarmBack = ReturnType<typeof composeFarmBack>;

/** What the back takes from the rest of the book. */
interface BackOfBook {
  readonly pooled: Pooled;
  readonly cowsOverleaf: number;
  readonly pictures: BookPictures | undefined;
}

const box = { pt: 8.5, lineHeight: 1.35 };
const note = { pt: 7.5, lineHeight: 1.3 };

/** So many closed cases are listed. */
const mostClosed = 45;

/**
 * The back of the first side.
 *
 * Checked: tests/book/page-one.test.ts
 */
export function composeFarmBack(
  words: Words,
  practice: Practice,
  record: FarmRecord,
  closed: readonly PlacedCase[],
  today: CalendarDay,
  { pooled, cowsOverleaf, pictures }: BackOfBook,
) {
  const { farm } = record;
  const boxes = [callVetBox(words, farm), blockEarlyBox(words, practice)];
  const baths = farm.footbath?.length ? standingWords.footbath : [];
  const always = {
    heading: words.say('caution.heading'),
    items: [...standingWords.cautions, ...standingWords.betweenFarms, ...baths].map(({ key }) =>
      words.say(`caution.${key}`),
    ),
  };
  const legend = { heading: words.say('one.back.legend'), items: drawingLegend(words) };
  const rows = closed.slice(0, mostClosed).map((one) => ({
    href: `#${one.id}`,
    number: one.record.animal.animal,
    text: words.say('one.closed.row', {
      standing: caseChip(words, one.standing),
      day: dayInWords(words, one.standing.closed?.on ?? today),
      sheet: one.place + 1,
    }),
  }));
  const all = [
    gaitRoundsSection(words, farm, today),
    ...composeFarmFigures(words, practice.business, record, today, pooled),
  ].flatMap(({ figures = [] }) => figures);
  const room = roomOn(farm.paper ?? 'A4');
  const third = room.widthMm / 3 - 4;
  const text = (items: readonly string[]): number =>
    6 + sumOf(items.map((item) => 0.8 + heightOf(item, third, box)));
  const boxesMm = boxes.map(({ items }) => text(items.map(({ lead = '', text: said }) => `${lead} ${said}`)));
  const moreMm = cowsOverleaf === 0 ? 0 : 20 + cowsOverleaf * cowRowMm;
  const holdsMm =
    20 +
    (sumOf([text(always.items), ...boxesMm]) / 3 + 8) +
    (12 + heightOf(legend.items.join(' '), room.widthMm / 2 - 4, note) / 2) +
    (rows.length > 0 ? 10 + Math.ceil(rows.length / 3) * 5 : 0);
  const besideCows = moreMm + holdsMm <= room.heightMm;
  let left = room.heightMm - holdsMm - (besideCows ? moreMm : 0);
  const figures = all.filter((figure) => {
    const height = figureMm(figure, room.widthMm) + 4;
    if (height > left) return false;
    left -= height;
    return true;
  });
  const unlisted = closed.length - rows.length;
  return {
    heading: words.say('one.back.heading'),
    /** Over the open cows that page one has no room for. */
    moreCows: words.say('one.cows.overleaf'),
    /** What holds for every cow is on one side with them. */
    besideCows,
    /** An empty side makes the number of sides even: each cow begins on a front. */
    blankSide: !besideCows && Math.ceil(moreMm / room.heightMm) % 2 === 1,
    boxes,
    always,
    /** What the marks of all drawings mean. */
    legend,
    /** What a phone unfolds. */
    fold: words.say('one.back.fold'),
    /** Closed cases in the book, each leading to its sheet, and how many more there are. */
    ...(rows.length > 0
      ? {
          closed: {
            heading: words.say('book.closed'),
            rows,
            ...(unlisted > 0 ? { more: words.say('one.more', { count: unlisted }) } : {}),
          },
        }
      : {}),
    figuresHeading: words.say('one.back.figures'),
    figures,
    /** Where there are none, or where the others are; what was done with the pictures of the book. */
    note: paragraph(
      words.say(all.length === 0 ? 'one.back.none' : 'one.back.note'),
      ...(pictures ? whatWasDone(words, pictures) : []),
    ),
  };
}
