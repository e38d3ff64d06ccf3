import { expect, test } from 'vitest';
import { calendarOf } from '../../src/round/calendar/calendar-of.js';
import { readDemo } from './demo-farms.js';
import { eventsIn } from './events-in.js';
import { farmOf, oneCow } from './invented-farm.js';

const day = '2026-06-16';

/** Every kind of entry: of the demo, moved, cancelled, and with letters that need care. */
function calendars(): string[] {
  const demo = readDemo(day).map((farm) => calendarOf(farm, undefined, day));
  const odd = farmOf(
    oneCow(
      '    ask-farm: [{ what: wrap off, by: 2026-06-18 }]\n',
      'animal: "Bärbel, \\\\ ; 🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄"',
    ),
    'address: "Straße; \\\\Hof\\nzweite Zeile"\nnext-visit: 2026-06-23',
  );
  const first = calendarOf(odd(day), undefined, day);
  const less = calendarOf(farmOf({}, 'next-visit: 2026-06-30')(day), first.remembered, day);
  return [...demo, first, less].map(({ ics }) => ics);
}

test('ical.js reads them all, with moved and cancelled entries among them', () => {
  const events = calendars().flatMap(eventsIn);
  expect(events.length).toBeGreaterThan(20);
  expect(events.filter(({ status }) => status === 'CANCELLED')).toHaveLength(1);
  expect(events.filter(({ status, sequence }) => status === 'CONFIRMED' && sequence === 1)).toHaveLength(1);
});
