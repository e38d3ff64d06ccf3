import type { ClosingBar } from '../figure/closing-strip-input.js';
import { looksAt } from '../healing/looks-at-lesion.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';

/** An ulcer's looks as its strip draws them: size, and how it stood. */
export function closingBars(animal: Animal, lesion: string, today: CalendarDay): ClosingBar[] {
  let closed = false;
  return looksAt(animal, lesion, today).map(({ date, found }): ClosingBar => {
    const reads =
      found.state === 'covered' || found.state === 'healed'
        ? found.state
        : closed && found.state === 'open'
          ? 'came-back'
          : undefined;
    if (found.state !== undefined) closed = found.state !== 'open';
    return {
      date,
      ...(found.length === undefined ? {} : { lengthMm: found.length }),
      ...(found.width === undefined ? {} : { widthMm: found.width }),
      ...(reads ? { reads } : {}),
    };
  });
}
