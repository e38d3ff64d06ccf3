import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

/** Calvings and dryings-off, oldest first and each once: parity is counted from them. */
export function checkDaysInOrder(animal: Animal): Finding[] {
  return [...outOfOrder('calvings', animal.calvings), ...outOfOrder('dried-off', animal['dried-off'])];
}

function outOfOrder(key: 'calvings' | 'dried-off', days: readonly CalendarDay[] = []): Finding[] {
  return days.flatMap((day, i) => {
    const before = days[i - 1];
    if (before === undefined || day > before) return [];
    return [
      refuse(
        `${key}-out-of-order`,
        [key, i],
        day === before
          ? `${key} has ${day} twice, expected each day once`
          : `${key} has ${day} after ${before}, expected oldest first`,
        'list the days oldest first, each once',
      ),
    ];
  });
}
