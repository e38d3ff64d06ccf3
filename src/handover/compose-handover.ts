import { handoverLimits, type Level } from './handover-limits.js';
import { handoverAt, type HandoverFor, type HandoverOf } from './handover-page.js';
import { type HandoverPage, handoverPage } from './page-of-handover.js';
import { fitsOneSheet } from './room-on-page.js';
import { animalFigures } from '../book/animal-figures.js';
import { placeCases } from '../book/compose-book.js';
import type { BookFigure } from '../book/page-parts.js';

/**
 * A handover to the veterinary surgeon, one printed page: who she is, why now, what is asked, what was measured, how she
 * walks off the block and on it, what she was given, and room for the reply. Never a diagnosis, and no money.
 *
 * Where a record is too long for one sheet, less of each part is on it, by the levels of `shared/handover.json`; the
 * page says what is left out and where it is. The last level is taken even where it may not fit.
 *
 * Shape:   a case worked out for the day → page data, the same for the same input
 * Checked: tests/handover/, tests/browser/handover.test.ts
 */
export function composeHandover(of: HandoverFor): HandoverPage {
  const { levels } = handoverLimits;
  const drawn = new Map<number, BookFigure | undefined>();
  const page = (level: Level): HandoverPage => {
    const at = handoverAt(of, level);
    const { figure: tallest } = level;
    if (!drawn.has(tallest)) drawn.set(tallest, firstDrawing(at));
    return handoverPage(at, drawn.get(tallest));
  };
  for (const level of levels) {
    const one = page(level);
    // A level that asks for a drawing is for her who has one.
    if ((level.figure === 0 || one.figure) && fitsOneSheet(one)) return one;
  }
  return page(levels.at(-1)!);
}

/** Her wall, else her ulcer, else the stages, else what runs along her days: the first drawing of her sheet in the book. */
function firstDrawing({ words, farm, work, today, level }: HandoverOf): BookFigure | undefined {
  if (level.figure === 0) return undefined;
  const figures = animalFigures(words, farm.farm, placeCases([work])[0]!, today, level.figure, true);
  return figures.find(({ phone }) => phone !== undefined);
}
