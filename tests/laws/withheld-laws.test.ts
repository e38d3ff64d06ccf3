import * as fc from 'fast-check';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { medicineUses } from '../../src/audit/facts/medicine-use.js';
import { csvTable } from '../../src/audit/table/column.js';
import { medicinesTable } from '../../src/audit/tables/animals.js';
import type { CowSheet } from '../../src/book/cow-sheet.js';
import { withheldAfter } from '../../src/cli/export.js';
import { icarEvents } from '../../src/exchange/icar/icar-events.js';
import type { Animal } from '../../src/record/animal.js';
import { addDays, daysBetween } from '../../src/record/calendar-day.js';
import type { Farm } from '../../src/record/farm.js';
import type { FarmRecord } from '../../src/record/practice.js';
import type { ProductUse } from '../../src/record/visit.js';
import type { CaseWork } from '../../src/schedule/case-work.js';
import { dayInWords, planDay } from '../../src/words/day-and-place.js';
import { wordsOf } from '../../src/reference/words.js';
import { anyPractice } from '../money/any-business.js';
import { cellsOf, type Outputs, outputsOf, textOf } from './outputs-of-a-day.js';

const today = '2026-06-16';
const businesses = 500;
const sides = ['milk', 'meat'] as const;
type Side = (typeof sides)[number];
const words = wordsOf('en-GB');

/** The last withheld day, that it is not known, or that nothing is withheld. */
type Told = { readonly last: string } | 'not known' | 'nothing';

/**
 * What is withheld on a day, stated again for these businesses alone, day by day and by the rules as they are written: the
 * other side of the test. No farm here bathes before June, nobody's calving has no day, and products are counted from 2025.
 */
function told(animal: Animal, farm: Farm, side: Side, on: string): Told {
  const reasons = reasonsOf(animal, farm, side);
  const holding = (day: string) => reasons.filter(({ from, to }) => from <= day && day <= to);
  if (holding(on).length === 0) return 'nothing';
  let day = on;
  for (; holding(day).length > 0; day = addDays(day, 1))
    if (holding(day).some(({ isKnown }) => !isKnown)) return 'not known';
  return { last: addDays(day, -1) };
}

interface Reason {
  readonly from: string;
  readonly to: string;
  readonly isKnown: boolean;
}

function reasonsOf(animal: Animal, farm: Farm, side: Side): Reason[] {
  const unknown = (from: string, last: string) => ({ from, to: addDays(last, 364), isKnown: false });
  const uses = animal.visits.flatMap(({ date, products = [] }) => products.map((use) => ({ date, use })));
  return [
    ...uses.flatMap(({ date, use }): Reason[] => {
      const last = use.until ?? date;
      const days = periodOf(use, side, farm);
      if (days === 0 || days === 'none') return [];
      const dosed = Array.from({ length: daysBetween(date, last) + 1 }, (_, at) => addDays(date, at));
      const dry = side === 'milk' ? dosed.filter((day) => !isInMilk(animal, day)).at(-1) : undefined;
      if (days === 'milkings') return [unknown(date, last)];
      const after = dry === undefined ? undefined : use['milk-days-after-calving'];
      const calved = animal.calvings?.find((day) => dry !== undefined && day > dry);
      if (days === 'unknown' && after === undefined) return [unknown(date, last)];
      if (dry !== undefined && (after === undefined || calved === undefined)) return [unknown(date, last)];
      const ends = [
        addDays(last, days === 'unknown' ? 0 : days),
        ...(calved === undefined ? [] : [addDays(calved, after === 0 ? -1 : after!)]),
      ];
      return [{ from: date, to: ends.toSorted().at(-1)!, isKnown: true }];
    }),
    ...animal.visits.flatMap(({ date, 'pain-relief': word, 'vet-answer': answer }) => {
      const given = uses.filter((one) => one.date <= date && (one.use.until ?? one.date) >= date);
      const relief = given.some(({ use: { active, class: kind } }) =>
        active === 'ketoprofen'
          ? true
          : active !== 'oxytetracycline hydrochloride' && kind !== 'not a medicine',
      );
      const medicine = given.some(
        ({ use: { active, class: kind } }) => kind !== 'not a medicine' || (active ?? 'tar') !== 'tar',
      );
      return [
        ...(word === 'given' && !relief ? [unknown(date, date)] : []),
        ...(answer?.treated && !medicine ? [unknown(date, date)] : []),
      ];
    }),
    ...(farm.footbath ?? []).flatMap(({ product, from = '' }) => {
      const gone = animal.episodes?.some(({ ended = '9', result }) => result !== 'sound' && ended < from);
      return product === 'lincomycin' && !gone ? [unknown(from, today)] : [];
    }),
  ];
}

function periodOf(use: ProductUse, side: Side, farm: Farm): number | 'none' | 'unknown' | 'milkings' {
  const isNone = use.class === 'not a medicine' && (use.active ?? 'tar') === 'tar';
  if (side === 'meat') return use['meat-days'] ?? (isNone ? 'none' : 'unknown');
  if (use['milk-days'] !== undefined) return use['milk-days'];
  if (use['milk-hours'] !== undefined) return Math.ceil(use['milk-hours'] / 24);
  const milkings = use['milk-milkings'];
  if (milkings === undefined) return isNone ? 'none' : 'unknown';
  if (milkings === 0) return 0;
  return farm['milkings-a-day'] === undefined ? 'milkings' : Math.ceil(milkings / farm['milkings-a-day']);
}

function isInMilk({ calvings, 'dried-off': dried = [], 'due-to-calve': due }: Animal, day: string): boolean {
  const calved = calvings?.findLast((on) => on <= day);
  if (calved === undefined || dried.some((on) => on >= calved && on <= day)) return false;
  const isHers = due !== undefined && daysBetween(calved, due) >= 280;
  const next = [...calvings!.filter((on) => on > day), ...(isHers ? [due] : [])];
  return next.every((on) => daysBetween(day, on) > 60 || dried.some((later) => later > day && later <= on));
}

/** The days that follow "clear" or "clear from" in a text, as written. */
const clearDays = (text: string): string[] =>
  [...text.matchAll(/\bclear (?:from )?((?:[A-Z][a-z]{2} )?\d{1,2} [A-Z][a-z]+(?: \d{4})?)/g)].map(
    ([, day]) => day!,
  );

const shown = (day: string) => [planDay(words, day, today), dayInWords(words, day)];

/** A cell or a line says of one side what it should. */
function expectSaid(text: string, of: Told, where: string): void {
  if (of === 'nothing') {
    expect(clearDays(text), where).toEqual([]);
    expect(text, where).not.toContain('not known');
  } else if (of === 'not known') {
    expect(clearDays(text), where).toEqual([]);
    expect(text, where).toContain('not known');
  } else {
    expect(shown(addDays(of.last, 1)), where).toContain(clearDays(text)[0]);
    expect(
      shown(of.last).some((day) => text.includes(day)),
      where,
    ).toBe(true);
    expect(text, where).not.toContain('not known');
  }
}

/** What the farm's outputs say of one cow, against what they should. */
function expectAgreed({
  farm,
  work,
  book,
  summary,
  roundPage,
  ics,
  events,
  inRound,
  sheet,
  animals,
}: Outputs): void {
  const should = new Map(
    farm.cases.map(({ slug, animal }) => [
      slug,
      { milk: told(animal, farm.farm, 'milk', today), meat: told(animal, farm.farm, 'meat', today) },
    ]),
  );
  const isNothing = (slug: string) => sides.every((side) => should.get(slug)![side] === 'nothing');
  const allowed = [...should.values()].flatMap((hers) =>
    sides.flatMap((side) => (typeof hers[side] === 'object' ? shown(addDays(hers[side].last, 1)) : [])),
  );

  const barOf = (side: Side) => book.one.withheld?.lines.find(({ what }) => what === words.say(`jobs.withheld.${side}`)); // prettier-ignore
  for (const [slug, hers] of should)
    for (const side of sides) {
      const said = barOf(side)
        ?.text.split(' · ')
        .find((text) => /^[^ ,]+(?:, [^ ,]+)*/.exec(text)![0].split(', ').includes(slug));
      expect(said !== undefined, `page one, ${slug} ${side}`).toBe(hers[side] !== 'nothing');
      if (said !== undefined) expectSaid(said, hers[side], `page one, ${slug} ${side}`);
    }
  const bathes = (farm.farm.footbath ?? []).some(({ product, from = '' }) => product === 'lincomycin' && from <= today); // prettier-ignore
  expect(book.one.withheld !== undefined, 'page one').toBe(bathes || [...should.keys()].some((slug) => !isNothing(slug))); // prettier-ignore

  for (const { slug, work: one, page, handover, form } of animals) {
    const { animal } = one.record;
    const hers = should.get(slug)!;
    expect(page.withheld !== undefined, `sheet, ${slug}`).toBe(!isNothing(slug) && !one.left);
    for (const side of sides) {
      const name = side === 'milk' ? 'Milk' : 'Meat';
      const of = hers[side];
      const line = (lines: readonly string[]) => lines.filter((text) => text.includes(`${name} withdrawal to`)).join(' '); // prettier-ignore
      const fact = handover.state.facts.find(({ label }) => label === name)?.value ?? '';
      expectSaid(fact, of, `handover, ${slug} ${side}`);
      if (page.withheld) expectSaid(page.withheld[side], of, `sheet, ${slug} ${side}`);
      expectSaid(line(form), of === 'not known' ? 'nothing' : of, `form, ${slug} ${side}`);
    }
    const isUnknown = sides.some((side) => hers[side] === 'not known');
    for (const [where, text] of [['sheet', textOf(page.columns)], ['form', form.join(' ')]] as const)
      expect(text.includes('Withdrawal not recorded or not known'), `${where}, ${slug}`).toBe(isUnknown); // prettier-ignore
    expectSpans(page, animal, farm.farm);
    expectUses(farm, one);
  }

  for (const [slug, hers] of should)
    for (const side of sides) {
      const of = hers[side];
      const day = events.find(({ summary: said }) => said === `${slug}: first day her ${side} is clear`)?.day;
      expect(day, `calendar, ${slug} ${side}`).toBe(typeof of === 'object' ? addDays(of.last, 1) : undefined);
    }

  const inJson = inRound ? [...inRound.lift, ...inRound.others] : [];
  for (const { animal, withheld } of inJson) expect(withheld, `round, ${animal}`).toBe(!isNothing(animal));
  for (const [slug] of should)
    if (!isNothing(slug)) expect(inJson.map(({ animal }) => animal), `round, ${slug}`).toContain(slug); // prettier-ignore

  const texts = { book, round: roundPage, summary, sheet, calendar: ics.replaceAll(/\r\n /g, '') };
  for (const [where, text] of Object.entries(texts))
    // Of one that has left, the banner says what was withheld that day: it is the same run, so the same day.
    expect(clearDays(textOf(text)).filter((day) => !allowed.includes(day) && !isOfLeft(day)), where).toEqual([]); // prettier-ignore

  function isOfLeft(day: string): boolean {
    return work.some(({ left }) =>
      sides.some((side) => left?.[side].outcome === 'withheld' && shown(left[side].firstClear).includes(day)),
    );
  }
}

/** The time line ends no bar of withheld days on a day that is not hers. */
function expectSpans({ overleaf, onScreen, ...front }: CowSheet, animal: Animal, farm: Farm): void {
  const figures = [front, overleaf, onScreen].flatMap((part) => part.figures);
  for (const [, to, what] of figures.flatMap(({ table }) => cellsOf(table)))
    for (const side of sides)
      if (what === `${side} withheld` && /\d/.test(to ?? '')) {
        const last = new Date(`${to} UTC`).toISOString().slice(0, 10);
        expect(told(animal, farm, side, last), `time line, ${to}`).toEqual({ last });
      }
}

/** What the audit and the exchange with others say after each product is hers, of all she was given by then. */
function expectUses(farm: FarmRecord, { record }: CaseWork): void {
  const alone = { ...farm, cases: [record] };
  const uses = medicineUses(alone, { from: '2025-01-01', to: today }, today);
  const table = csvTable(words, medicinesTable(uses)).replace(/^\ufeff/, '');
  const { data } = Papa.parse<Record<string, string>>(table, { header: true, skipEmptyLines: true });
  const { treatments } = icarEvents([alone], withheldAfter(today));
  for (const [at, { use, last }] of uses.entries())
    for (const side of sides) {
      const period = periodOf(use, side, farm.farm);
      const of = told(record.animal, farm.farm, side, last);
      const isDay = typeof period === 'number' && period > 0 && typeof of === 'object';
      const row = data[at]!;
      expect(row[`${side}_clear_from`], `audit, ${use.product}`).toBe(isDay ? addDays(of.last, 1) : '');
      expect(row[`${side}_withheld_through`], `audit, ${use.product}`).toBe(isDay ? of.last : '');
    }
  const ends = treatments.flatMap(({ withdrawals = [] }) => withdrawals);
  const days = medicineUses(alone, { from: '2025-01-01', to: today }, today).flatMap(({ use, last }) =>
    sides.flatMap((side) => {
      const of = told(record.animal, farm.farm, side, last);
      const period = periodOf(use, side, farm.farm);
      return typeof of === 'object' && typeof period === 'number' && period > 0
        ? [`${side} ${addDays(of.last, 1)}`]
        : [];
    }),
  );
  expect(
    ends.map(({ productType, endDate }) => `${productType.toLowerCase()} ${endDate.slice(0, 10)}`).toSorted(),
  ).toEqual(days.toSorted());
}

test(`over ${businesses} businesses no two outputs of one day disagree about withheld days, and none gives a day where nobody can know`, () => {
  const reached = new Set<string>();
  fc.assert(
    fc.property(anyPractice({ currency: 'GBP' }), (practice) => {
      const outputs = outputsOf(practice, today);
      expectAgreed(outputs);
      for (const { withheld, left } of outputs.work) {
        for (const side of sides) {
          const held = withheld[side];
          reached.add(`${side} ${held.outcome}`);
          if (held.outcome === 'not-known') for (const { why } of held.why) reached.add(why);
        }
        if (left) reached.add(`left ${left.grade}`);
      }
    }),
    { seed: 20260616, numRuns: businesses },
  );
  expect([...reached].toSorted()).toEqual(
    [
      ...sides.flatMap((side) => ['nothing', 'not-known', 'withheld'].map((state) => `${side} ${state}`)),
      'not-recorded', 'milkings', 'not-in-milk', 'lactation', 'until-calving', 'pain-relief', 'treated', 'footbath',
      'left serious', 'left told', 'left note',
    ].toSorted(), // prettier-ignore
  );
}, 240_000);
