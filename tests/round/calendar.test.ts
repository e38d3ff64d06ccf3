import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { calendarOf } from '../../src/round/calendar/calendar-of.js';
import { type CalendarMemory, readMemory, writeMemory } from '../../src/round/calendar/calendar-memory.js';
import { addDays, type CalendarDay } from '../../src/record/calendar-day.js';
import { readDemo } from './demo-farms.js';
import { eventsIn } from './events-in.js';
import { farmOf, oneCow } from './invented-farm.js';

const day = '2026-06-16';

/** Writes a farm's calendar again and again, as runs on those days would. */
function runs(...steps: readonly (readonly [CalendarDay, ReturnType<typeof farmOf>])[]) {
  let remembered: CalendarMemory | undefined;
  return steps.map(([today, farm]) => {
    const made = calendarOf(farm(today), remembered, today);
    const read = readMemory(writeMemory(made.remembered));
    if (read.outcome !== 'read') throw new Error(read.why);
    remembered = read.memory;
    return { ...made, events: eventsIn(made.ics) };
  });
}

const asked = (by: string, more = '') => oneCow(`    ask-farm: [{ what: wrap off, by: ${by} }]\n${more}`);

describe('what a calendar holds', () => {
  test('the planned visit, with who is to be there, and each job of the farm', () => {
    const [run] = runs([day, farmOf(asked('2026-06-18'), 'next-visit: 2026-06-23')]);
    expect(run!.events.map(({ summary, day: on, end }) => ({ summary, on, end }))).toEqual([
      { summary: '2041: take the wrap off', on: '2026-06-18', end: '2026-06-19' },
      { summary: 'Foot trimming at Quernholt', on: '2026-06-23', end: '2026-06-24' },
    ]);
    expect(run!.events[1]!.description).toContain('2041: lift and check again');
  });

  test('every property a reader needs, and none that would make it an invitation', () => {
    const [run] = runs([day, farmOf(asked('2026-06-18'))]);
    const calendar = new ICAL.Component(
      ICAL.parse(run!.ics) as ConstructorParameters<typeof ICAL.Component>[0],
    );
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
    expect(calendar.getFirstPropertyValue('prodid')).toBe('-//Growdown//calendar//EN-GB');
    expect(calendar.hasProperty('method')).toBe(false);
    for (const event of calendar.getAllSubcomponents('vevent')) {
      expect(event.getFirstProperty('dtstart')!.type).toBe('date');
      expect(event.getFirstPropertyValue('transp')).toBe('TRANSPARENT');
      expect(String(event.getFirstPropertyValue('dtstamp'))).toBe('2026-06-09T00:00:00Z');
    }
  });

  test('a job that was late when it was first put in is on the day it was put in, and stays there', () => {
    const farm = farmOf(asked('2026-06-12'));
    const [first, later] = runs([day, farm], ['2026-06-17', farm]);
    const late = (run: typeof first) => run!.events.find(({ summary }) => summary.includes('wrap'));
    expect(late(first)!.day).toBe(day);
    expect(late(later)).toEqual(late(first));
  });

  test('a farm without a planned visit has no visit in it, and the trimmer’s jobs have entries of their own', () => {
    const [run] = runs([day, farmOf(oneCow(''))]);
    expect(run!.events.map(({ summary }) => summary)).toEqual(['2041: lift and check again']);
  });

  test('no clear day is reported where another period was never written down', () => {
    const known = '      - { product: "one", class: medicine, milk-days: 9, meat-days: 0 }\n';
    const clear = (products: string) =>
      runs([
        day,
        farmOf(oneCow(`    products:\n${products}`, 'animal: "2041"\ncalvings: [2025-11-01]')),
      ])[0]!.events.map(({ summary }) => summary);
    expect(clear(known)).toContain('2041: first day her milk is clear');
    expect(clear(`${known}      - { product: "two", class: medicine, meat-days: 0 }\n`)).toEqual([
      '2041: withdrawal not recorded or not known, ask the vet',
      '2041: lift and check again',
    ]);
  });

  test('an empty farm has an empty calendar, which still reads', () => {
    const [run] = runs([day, farmOf({})]);
    expect(run!.events).toEqual([]);
  });
});

describe('what changes, what is taken back, what is let go', () => {
  const planned = (visit: string, by = '2026-06-18') => farmOf(asked(by), `next-visit: ${visit}`);

  test('the same again, and the same on later days until one comes, gives the same bytes', () => {
    for (const farm of readDemo(day)) {
      const first = calendarOf(farm, undefined, day);
      const again = calendarOf(farm, first.remembered, day);
      expect(again.ics).toBe(first.ics);
      expect(writeMemory(again.remembered)).toBe(writeMemory(first.remembered));
    }
    for (const [at, farm] of readDemo('2026-06-17').entries()) {
      const before = calendarOf(readDemo(day)[at]!, undefined, day);
      const entries = Object.entries(calendarOf(farm, before.remembered, '2026-06-17').remembered.entries);
      const raised = entries.filter(([, { sequence }]) => sequence > 0);
      expect(raised, farm.record.slug).toEqual([]);
    }
  });

  test('a visit put off is moved: the same identity, its number raised', () => {
    const [first, moved] = runs([day, planned('2026-06-23')], [day, planned('2026-06-30')]);
    const visit = (run: typeof first) => run!.events.find(({ summary }) => summary.startsWith('Foot'))!;
    expect(visit(moved)).toMatchObject({ uid: visit(first).uid, day: '2026-06-30', sequence: 1 });
    expect(new Set(moved!.events.map(({ uid }) => uid)).size).toBe(moved!.events.length);
    expect(visit(first).uid).not.toContain('2026');
  });

  test('after a visit has been, the next is an entry of its own and the old one stays where it took place', () => {
    const [, then] = runs([day, planned('2026-06-23')], ['2026-06-24', planned('2026-07-21')]);
    const visits = then!.events.filter(({ summary }) => summary.startsWith('Foot'));
    expect(visits.map(({ day: on, sequence, status }) => [on, sequence, status])).toEqual([
      ['2026-06-23', 0, 'CONFIRMED'],
      ['2026-07-21', 0, 'CONFIRMED'],
    ]);
  });

  test('a job done before its day is cancelled, said for a while, then let go; one that comes back goes on from its number', () => {
    const done = asked('2026-06-18', '    farm-did: [{ what: wrap off, on: 2026-06-09 }]\n');
    const wrap = (run: ReturnType<typeof runs>[number]) =>
      run.events.find(({ summary }) => summary.includes('wrap'));
    const late = addDays(day, 120);
    const [first, gone, still, let_go, back] = runs(
      [day, planned('2026-06-23')],
      [day, farmOf(done, 'next-visit: 2026-06-23')],
      [late, farmOf(done)],
      [addDays(late, 1), farmOf(done)],
      [addDays(late, 2), farmOf(asked('2027-01-20'))],
    );
    expect(wrap(first!)).toMatchObject({ sequence: 0, status: 'CONFIRMED' });
    expect(wrap(gone!)).toMatchObject({ uid: wrap(first!)!.uid, sequence: 1, status: 'CANCELLED' });
    expect(wrap(still!)).toEqual(wrap(gone!));
    expect(wrap(let_go!)).toBeUndefined();
    expect(wrap(back!)).toMatchObject({ uid: wrap(first!)!.uid, sequence: 2, status: 'CONFIRMED' });
  });

  test('what has had its day is left as it stood, done or not', () => {
    const done = asked('2026-06-18', '    farm-did: [{ what: wrap off, on: 2026-06-09 }]\n');
    const [first, after] = runs([day, farmOf(asked('2026-06-18'))], ['2026-06-19', farmOf(done)]);
    const wrap = (run: typeof first) => run!.events.find(({ summary }) => summary.includes('wrap'));
    expect(wrap(after)).toEqual(wrap(first));
  });

  test('a business that takes another name keeps the identity of what it has written', () => {
    const farm = farmOf(asked('2026-06-18'));
    const first = calendarOf(farm(day), undefined, day);
    const renamed = { ...farm(day), business: { business: 'Another name' } };
    expect(calendarOf(renamed, first.remembered, day).ics).toBe(first.ics);
    expect(calendarOf(renamed, undefined, day).ics).not.toBe(first.ics);
  });
});

describe('the bytes', () => {
  const odd = farmOf(
    oneCow('', 'animal: "Bärbel, \\\\ ; 🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄🐄"'),
    'address: "Erste Zeile, Straße; \\\\Hof\\nzweite ganz lange Zeile äöüäöüäöüäöüäöüäöüäöüäöüäöüäöüäöüäöüäöü"',
  );

  test('lines end in CR LF, none is longer than 75 octets, none is cut within a letter', () => {
    const [{ ics }] = runs([day, odd]) as [ReturnType<typeof runs>[number]];
    expect(ics.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(ics.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const bytes = Buffer.from(ics, 'utf8');
    const lines = bytes.toString('latin1').split('\r\n');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(75);
    expect(Math.max(...lines.map((line) => line.length))).toBeGreaterThan(70);
    const decoder = new TextDecoder('utf-8', { fatal: true });
    for (const line of lines) expect(() => decoder.decode(Buffer.from(line, 'latin1'))).not.toThrow();
  });

  test('comma, semicolon, backslash and line end come out as they went in', () => {
    const [{ ics, events }] = runs([day, odd]) as [ReturnType<typeof runs>[number]];
    expect(ics).toContain('SUMMARY:Bärbel\\, \\\\ \\; 🐄');
    expect(events[0]!.summary).toBe(`Bärbel, \\ ; ${'🐄'.repeat(30)}: lift and check again`);
    expect(events[0]!.place).toBe(
      `Quernholt, Erste Zeile, Straße; \\Hof\nzweite ganz lange Zeile ${'äöü'.repeat(13)}`,
    );
  });
});
