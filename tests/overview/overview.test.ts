import { describe, expect, test } from 'vitest';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { composeOverview, renderOverview } from '../../src/overview/compose-overview.js';
import { firstOfLastMonth } from '../../src/overview/open-cases.js';
import type { Animal } from '../../src/record/animal.js';
import type { Practice } from '../../src/record/practice.js';
import { workOfFarms } from '../../src/round/round-of.js';
import { practiceOf } from '../growth/invented-practice.js';
import { cow, herd, visit } from '../herd/invented-herd.js';
import { readDemoPractice } from '../round/demo-farms.js';
import { htmlFindings, outlineFaults } from '../book/html-findings.js';
import { plain } from '../words/plain.js';

const today = '2026-06-16';

function pageOf(practice: Practice, refused: readonly string[] = []) {
  const pooled = pooledOn(practice, today);
  const { business, farms } = practice;
  const work = workOfFarms(farms, { business, today, priors: pooled.priors });
  return plain(composeOverview(practice, work, pooled, today, refused));
}
const section = (page: ReturnType<typeof pageOf>, id: string) => page.sections.find((one) => one.id === id)!;
const rowsOf = (page: ReturnType<typeof pageOf>, id: string) =>
  section(page, id).table?.rows.map(({ cells }) => cells.map(({ text }) => text)) ?? [];

/** A gap read on those days, calliper, wall 60: `[day, top]`. */
const gap = (number: string, readings: readonly [string, number][], more: Partial<Animal> = {}): Animal =>
  cow(
    number,
    readings.map(([date, top]) =>
      visit(date, {
        gait: 0,
        found: { a: { state: 'open', top, 'top-found': 'seen', wall: 60, tool: 'calliper' } },
      }),
    ),
    more,
  );

describe('counts, each with its whole', () => {
  const steady = gap('1', [
    ['2026-03-17', 20],
    ['2026-04-14', 25],
    ['2026-05-12', 30],
  ]);
  const up = gap('2', [
    ['2026-03-17', 30],
    ['2026-04-14', 35],
    ['2026-05-12', 15],
  ]);
  const upLongAgo = gap('3', [
    ['2026-01-06', 30],
    ['2026-02-03', 15],
    ['2026-03-03', 20],
  ]);
  const ended = gap('4', [['2026-03-17', 20]], { episodes: [{ ended: '2026-04-01', result: 'sold' }] });
  const page = pageOf(practiceOf(herd('aldermoor', [steady, up]), herd('birchlow', [upLongAgo, ended])));

  test('open cases by farm and by standing', () => {
    // Followed gaps are looked at again after six weeks: of cows 1 and 2 that day is to come, of cow 3 it is long past.
    expect(section(page, 'open').lead[0]).toBe(
      '3 of 4 cases on file are open; 1 of the 3 have something overdue.',
    );
    expect(rowsOf(page, 'open').map(([farm, open]) => [farm, open])).toEqual([
      ['aldermoor', '2 of 2'],
      ['birchlow', '1 of 2'],
    ]);
    const shares = rowsOf(page, 'standing').map(([, share]) => share!);
    expect(shares.filter((share) => !share.endsWith(' of 3'))).toEqual([]);
    const counted = shares.map((share) => Number(share.split(' ')[0]));
    expect(counted.reduce((sum, count) => sum + count, 0)).toBe(3);
  });

  test('run-ups since the first day of last month, of the readings that could be compared with growth', () => {
    // Read since 1 May: the third reading of cows 1 and 2; each had readings before it to expect from.
    expect(section(page, 'ran-up').lead).toEqual([
      'Since 1 May 2026, 2 readings could be compared with growth. Ran up or at the coronet: 1. Not growing down: 0; perhaps not, to be measured again: 0.',
    ]);
    expect(rowsOf(page, 'ran-up').map(([animal, , what]) => [animal, what])).toEqual([
      ['2, aldermoor', 'Ran up'],
    ]);
  });

  test('a gap that does not move over months is reported as held at its last reading', () => {
    const held = gap('5', [
      ['2026-02-03', 20],
      ['2026-03-17', 20],
      ['2026-04-28', 20],
      ['2026-06-09', 20],
    ]);
    expect(
      rowsOf(pageOf(practiceOf(herd('aldermoor', [held]))), 'ran-up')
        .at(0)
        ?.slice(0, 3),
    ).toEqual(['5, aldermoor', expect.stringContaining('left hind, outer claw'), 'Not growing down']);
  });

  test('where there is nothing to count, no row of zeros is reported', () => {
    const fresh = pageOf(practiceOf(herd('aldermoor', [steady])));
    expect(section(fresh, 'ran-up').lead[0]).toMatch(/^Since 1 May 2026, one reading could be/);
    expect(section(fresh, 'due-out').lead[0]).toBe(
      'By 30 June 2026 no gap has come into its range; open gaps with a date: 1.',
    );
    expect(section(fresh, 'track-record').lead).toHaveLength(1);
    const unread = pageOf(practiceOf(herd('aldermoor', [cow('7', [visit('2026-06-09', { gait: 0 })])])));
    expect(section(unread, 'due-out').lead[0]).toBe('No open gap has a date.');
    const bare = pageOf(practiceOf(herd('aldermoor', [])));
    expect(section(bare, 'open').lead).toEqual(['No case is on file.']);
    expect(section(pageOf(practiceOf(herd('birchlow', [ended]))), 'open').lead).toEqual([
      'Cases on file: 1. None is open.',
    ]);
  });

  test('walls due out: only those whose range has begun by the end of the month, with the range and its basis', () => {
    const nearly = gap('6', [
      ['2026-04-14', 45],
      ['2026-05-12', 50],
      ['2026-06-09', 55],
    ]);
    const due = pageOf(practiceOf(herd('aldermoor', [steady, nearly])));
    expect(section(due, 'due-out').lead[0]).toMatch(
      /^By 30 June 2026: 1 of 2 open gaps with a date have come into their range; for [01] of them/,
    );
    const [row, ...others] = rowsOf(due, 'due-out');
    expect(others).toEqual([]);
    expect(row).toEqual([
      '6, aldermoor',
      expect.stringContaining('left hind, outer claw'),
      expect.stringMatching(/should be.*2026/),
      '3 readings, calliper',
    ]);
  });
});

describe('few, none, and what is not known', () => {
  test('no farm, a farm without an animal, and a refused one', () => {
    for (const practice of [practiceOf(), practiceOf(herd('aldermoor', []))]) {
      const text = JSON.stringify(pageOf(practice, ['brokenfold']));
      expect(text).toContain('brokenfold: left out of every figure here');
      expect(text).toContain('No other cows had enough readings');
      expect(text).toContain('How accurate the dates have been cannot be said yet');
      expect(text).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  test('of few gaps no share is given, and where cases are listed one by one each names its farm', () => {
    const page = pageOf(readDemoPractice(today));
    expect(section(page, 'track-record').lead[0]).toBe(
      'How accurate the dates have been cannot be said yet: only 2 gaps were measured and then seen healed up to 31 March 2026.',
    );
    const times = rowsOf(page, 'case-times').find(([kind]) => kind === 'toe ulcer (TU)');
    expect(times?.slice(1)).toEqual([
      '2 lesions in 2 animals; 0 seen healed',
      '503, Harrowmere: not yet on day 69',
    ]);
  });

  test('what ran up is listed from the first of last month on', () => {
    expect([firstOfLastMonth('2026-01-31'), firstOfLastMonth('2026-03-31')]).toEqual([
      '2025-12-01',
      '2026-02-01',
    ]);
  });
});

describe('the page', () => {
  test('is valid, has one h1 and no level skipped, asks nothing of a network, and says whose eyes it is for', async () => {
    for (const page of [pageOf(readDemoPractice(today)), pageOf(practiceOf(), ['brokenfold'])]) {
      const html = renderOverview(page);
      expect(await htmlFindings(html)).toEqual([]);
      expect(html).toContain('For the trimmer only: this page names every farm');
      expect(html.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/<script|https?:\/\/|\son\w+=/);
      expect(outlineFaults(html)).toEqual([]);
    }
  });

  test('the same files in another order give the same bytes', () => {
    const demo = readDemoPractice(today);
    const turned = { ...demo, farms: demo.farms.toReversed() };
    expect(renderOverview(pageOf(turned))).toBe(renderOverview(pageOf(demo)));
  });
});
