import type { Pooled } from '../herd/pooled-on.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { standingWords } from '../reference/standing-words.js';
import type { Words } from '../reference/words.js';
import { caseChip } from '../words/compose-standing.js';
import { dayInWords, paragraph } from '../words/day-and-place.js';
import type { ActionBox, PlacedCase } from './animal-page-data.js';
import type { BookPictures } from '../picture/fit-pictures.js';
import { whatWasDone } from './picture-strips.js';
import { composeFarmFigures } from './farm-figures.js';
import { gaitRoundsSection } from './farm-page.js';
import { drawingLegend } from '../figure/wall-strip-words.js';
import { blockEarlyBox, callVetBox } from './farm-watch.js';
import { cowRowMm } from './page-one.js';
import { figureMm, heightOf, roomOn } from './fit.js';
import type { BookFigure, TextList } from './page-parts.js';

/** The back of a farm's first side: what holds for every cow, which cases are over, and the farm's figures as far as they fit. */
export interface FarmBack {
  readonly heading: string;
  /** Over the open cows that page one has no room for. */
  readonly moreCows: string;
  /** What holds for every cow stands on one side with them. */
  readonly besideCows: boolean;
  /** An empty side makes the number of sides even: each cow begins on a front. */
  readonly blankSide: boolean;
  readonly boxes: readonly ActionBox[];
  readonly always: TextList;
  /** What the marks of all drawings mean. */
  readonly legend: TextList;
  /** What a phone unfolds. */
  readonly fold: string;
  /** Closed cases in the book: each leads to its sheet. */
  readonly closed?: {
    readonly heading: string;
    readonly rows: readonly { readonly href: string; readonly number: string; readonly text: string }[];
    /** How many more there are, each on her sheet. */
    readonly more?: string;
  };
  readonly figuresHeading: string;
  readonly figures: readonly BookFigure[];
  /** Where there are none, or where the others stand; what was done with the pictures of the book. */
  readonly note: string;
}

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
): FarmBack {
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
    items.reduce((sum, item) => sum + 0.8 + heightOf(item, third, box), 6);
  const moreMm = cowsOverleaf === 0 ? 0 : 20 + cowsOverleaf * cowRowMm;
  const holdsMm =
    20 +
    (boxes.reduce(
      (sum, { items }) => sum + text(items.map(({ lead, text: said }) => `${lead ?? ''} ${said}`)),
      text(always.items),
    ) /
      3 +
      8) +
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
  return {
    heading: words.say('one.back.heading'),
    moreCows: words.say('one.cows.overleaf'),
    besideCows,
    blankSide: !besideCows && Math.ceil(moreMm / room.heightMm) % 2 === 1,
    boxes,
    always,
    legend,
    fold: words.say('one.back.fold'),
    ...(rows.length > 0
      ? {
          closed: {
            heading: words.say('book.closed'),
            rows,
            ...(closed.length > mostClosed
              ? { more: words.say('one.more', { count: closed.length - mostClosed }) }
              : {}),
          },
        }
      : {}),
    figuresHeading: words.say('one.back.figures'),
    figures,
    note: paragraph(
      words.say(all.length === 0 ? 'one.back.none' : 'one.back.note'),
      ...(pictures ? whatWasDone(words, pictures) : []),
    ),
  };
}
