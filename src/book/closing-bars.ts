import type { ClosingBar } from '../figure/closing-strip-input.js';
import type { ClosingKind, UlcerClosing } from '../healing/closing/ulcer-closing.js';
import { looksAt } from '../healing/looks-at-lesion.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';

const shown: Partial<Record<ClosingKind, ClosingBar['reads']>> = {
  'opening-up': 'opening-up',
  held: 'held',
  doubtful: 'doubtful',
};

/** An ulcer's looks as its strip draws them: size, how it stood, and what its width was taken for. */
export function closingBars(
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
