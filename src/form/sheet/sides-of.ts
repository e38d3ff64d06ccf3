import type { Words } from '../../words/words.js';
import type { SheetSide } from './sheet-page.js';

/** The pages of one leaf, each told where it belongs: paper comes apart. */
export function sidesOf(
  words: Words,
  kicker: string,
  sides: readonly Omit<SheetSide, 'kicker' | 'side'>[],
): SheetSide[] {
  return sides.map((side, at) => ({
    ...side,
    kicker,
    side: words.say('sheet.side', { side: at + 1, of: sides.length }),
  }));
}
