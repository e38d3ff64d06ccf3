import { describe, expect, test } from 'vitest';
import { composeRound, renderRound } from '../../src/round/page/compose-round.js';
import { type RoundDays, roundOf, type FarmWork } from '../../src/round/round-of.js';
import { readDemo } from './demo-farms.js';
import { farmOf, oneCow } from './invented-farm.js';
import { htmlFindings, outlineFaults } from '../book/html-findings.js';
import { plain } from '../words/plain.js';

const today = '2026-06-16';
function pageOf(farms: readonly FarmWork[], days: RoundDays = {}, refused: readonly string[] = []) {
  const business = { business: 'Quillfen Foot Trimming' };
  return plain(composeRound(roundOf(farms, days, today), { business, days, today, refused }));
}
const textOf = (farms: readonly FarmWork[], days: RoundDays = {}) =>
  renderRound(pageOf(farms, days))
    .replaceAll(/<style>.*?<\/style>/gs, '')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s+/g, ' ');

const odd = farmOf(
  oneCow(
    '    ask-farm: [{ what: wrap off, by: 2026-06-12 }]\n    blocks: [{ foot: LH, claw: inner, event: fitted, material: wood }]\n',
    'animal: "<b>2041</b>"\nhandling: "kicks {{ left }} <script>"',
    '2026-06-18',
  ),
  'next-visit: 2026-06-23\naddress: "Oddfold, Nether Oddering"\ncontact: { name: Nan, phone: "01632 960123" }',
  'oddfold',
);
const neighbour = farmOf(oneCow('', 'animal: "7"'), 'address: "Hill Farm, Nether Oddering"', 'hillfarm');

describe('the page', () => {
  test('of the demo says each animal with why, how late, how to handle her, what is on her and what else is open', () => {
    const text = textOf(readDemo(today));
    for (const said of [
      'Trip of Mon 22 June',
      'To bring: blocks: 1 wood; wraps: none.',
      'Overdue since Mon 20 April: Check the block: left front, outer claw Fitted on 13 April 2026.',
      'jumps at the head gate; close it early',
      'block, wood: left front, outer claw, since Mon 13 April',
      'Ring Wade Corrigold; +1 555-0142',
      'Milk: to Fri 19 June; clear Sat 20 June',
      'Farm: was it done: watch the block? Since Mon 20 April',
      'Before leaving, cleaned and disinfected: boots crush knives hands',
      'Vet: A gap not growing down, left hind; one more reason',
    ])
      expect(text).toContain(said);
  });

  test('is valid HTML with one h1 and no level skipped; no script, nothing asked of a network; what users wrote stays text', async () => {
    const farms = [odd(today), neighbour(today), ...readDemo(today)];
    for (const page of [pageOf(farms, {}, ['brokenfold']), pageOf([]), pageOf(farms, { to: '2026-06-17' })]) {
      const html = renderRound(page);
      expect(await htmlFindings(html)).toEqual([]);
      expect(html).toContain('content="default-src &#39;none&#39;;');
      expect(html).not.toMatch(/<script|https?:\/\/|\son\w+=/);
      expect(outlineFaults(html)).toEqual([]);
      const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]);
      expect(new Set(ids).size).toBe(ids.length);
      for (const [, to] of html.matchAll(/href="#([^"]+)"/g)) expect(ids).toContain(to);
    }
    expect(renderRound(pageOf(farms))).toContain('kicks {{ left }} &lt;script&gt;');
  });

  test('what falls before the planned visit is listed apart with whom to ring, and under the visit', () => {
    const page = pageOf([odd(today)]);
    const [, call] = page.apart?.table?.rows ?? [];
    expect(call?.cells).toEqual([
      { text: 'Due Thu 18 June' },
      { text: 'Oddfold', lines: ['01632 960123', 'our visit Tue 23 June'] },
      {
        text: '',
        items: [
          {
            lead: '<b>2041</b>',
            text: 'Lift her and check again: sole ulcer (SU), left hind, outer claw',
            note: 'Set at the visit on 9 June 2026.',
          },
        ],
      },
    ]);
    expect(JSON.stringify(page).match(/Lift her and check again/g)).toHaveLength(2);
  });

  test('a farm with an infection is said to go last; one without says nothing of it; both have what to tick at leaving', () => {
    const ill = farmOf(oneCow(''), 'health: [TB, ringworm]\nnext-visit: 2026-06-23', 'illhold');
    const [trip] = pageOf([ill(today), odd(today)]).trips;
    expect(trip!.farms.map(({ id }) => id)).toEqual(['farm-oddfold', 'farm-illhold']);
    expect(trip!.farms[1]!.lead[0]).toBe('Health: TB, ringworm. The last farm of the day.');
    expect(trip!.farms[0]!.lead.join()).not.toContain('Health');
    for (const { leaving } of trip!.farms)
      expect(leaving.ticks).toEqual(['boots', 'crush', 'knives', 'hands']);
  });

  test('farms of one place with other days are named to each other', () => {
    const [planned, unplanned] = pageOf([odd(today), neighbour(today)]).trips;
    expect(planned?.farms[0]?.lead).toContain('Also in this place: Hillfarm, no visit planned.');
    expect(unplanned?.farms[0]?.lead).toEqual(['Also in this place: Oddfold, our visit Tue 23 June.']);
  });

  test('a farm whose visit is on another day is named, and of that visit no zero is reported', () => {
    const page = pageOf([odd(today)], { from: '2026-07-01', to: '2026-07-08' });
    expect(page.rest).toEqual(['Our visit falls outside these days: Oddfold.']);
    const [farm, visit, lift, late] = page.short.table!.rows[0]!.cells.map(({ text }) => text);
    expect([farm, visit, lift, late]).toEqual(['Oddfold', 'Tue 23 June', '–', '–']);
  });

  test('an empty round says so; a refused farm and a quiet one are named', () => {
    expect(textOf([])).toContain('No farm has anything due or a visit planned in these days.');
    const page = pageOf([farmOf({}, '', 'quietfold')(today)], {}, ['brokenfold']);
    expect(page.rest).toEqual([
      'Quietfold: nothing to do, and no visit planned.',
      'brokenfold: left out, because its files have errors; growdown check names them.',
    ]);
  });

  test('the same farms in another order give the same bytes', () => {
    const farms = [odd(today), ...readDemo(today)];
    expect(renderRound(pageOf(farms.toReversed()))).toBe(renderRound(pageOf(farms)));
  });
});
