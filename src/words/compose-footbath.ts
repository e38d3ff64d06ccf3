import type { BathSum, CopperIn, FootbathSums, CopperOnLand } from '../herd/footbath/bath-sums.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FootbathPeriod } from '../record/farm.js';
import { footbathNumbers } from '../reference/numbers.js';
import { dayInWords, mm } from './day-and-place.js';
import { type Words, told } from '../reference/words.js';

/** Below 10 to a tenth, else whole. */
function amount(value: number): number {
  return value < 10 ? mm(value) : Math.round(value);
}

/** @example kgInWords(words, 794.04) // → '794 kg' */
export function kgInWords(words: Words, kg: number): string {
  return words.say('herd.amount.kg', { value: amount(kg) });
}

/** The product with its period. @example bathInWords(words, { product: 'bluestone', from: '2026-04-01' }) // → '\u2068bluestone\u2069, from 1 April 2026' */
export function bathInWords(words: Words, { product: written, from, to }: FootbathPeriod): string {
  const product = told(written);
  if (!from && !to) return product;
  const day = (of: string | undefined) => (of ? dayInWords(words, of) : '');
  const period = from && to ? 'both' : from ? 'from' : 'to';
  return words.say(`herd.bath.period.${period}`, { product, from: day(from), to: day(to) });
}

/** Copper in a line a form, where the form is not written with the form it is taken as. */
export function copperLines(words: Words, copper: readonly CopperIn[]): string[] {
  return copper.map((one) => asTaken(words, one, kgInWords(words, one.kgCopper)));
}

/** The same on a hectare; nothing where the land is not known. */
export function landLines(words: Words, copper: readonly CopperIn[]): string[] {
  return ofLand(words, copper, ({ kgPerHectare }) =>
    words.say('herd.amount.per-hectare', { value: mm(kgPerHectare) }),
  );
}

/** Years until the soil has risen by the step, for every form the copper may be; nothing where the land is not known. */
export function yearsLines(words: Words, copper: readonly CopperIn[]): string[] {
  return ofLand(words, copper, (land) => yearsInWords(words, land));
}

function ofLand(words: Words, copper: readonly CopperIn[], say: (land: CopperOnLand) => string): string[] {
  return copper.flatMap((one) => (one.land ? [asTaken(words, one, say(one.land))] : []));
}

function asTaken(words: Words, { takenAs }: CopperIn, value: string): string {
  return takenAs ? words.say('herd.bath.taken-as', { value, form: formInWords(words, takenAs) }) : value;
}

function formInWords(words: Words, form: CopperIn['takenAs']): string {
  return form ? words.say(`vocabulary.copper-form.${form}`) : '';
}

/** What a bath's line still wants; undefined where nothing. @example missingSentence(words, { missing: ['strength'] }) // → 'To work this out, record the strength in %.' */
export function missingSentence(words: Words, { missing }: BathSum): string | undefined {
  if (missing.length === 0) return undefined;
  const names = missing.map((one) => words.say(`herd.bath.missing-of.${one}`));
  const last = names.at(-1) ?? '';
  const before = words.commas(names.slice(0, -1));
  return words.say('herd.bath.missing', {
    missing: before === '' ? last : words.say('herd.bath.and', { before, last }),
  });
}

/**
 * What is said of the footbaths beside their table: how it is reckoned, what must be asked, the last 12 months, the soil,
 * limits by analogy, and the cautions that fit what is bathed in.
 *
 * Checked: tests/words/herd-sentences.test.ts
 */
export function footbathSentences(words: Words, sums: FootbathSums, today: CalendarDay): string[] {
  const { baths } = sums;
  const { euSoilLimit, usLoadLimit } = footbathNumbers;
  const hasCopper = baths.some(({ kind }) => kind === 'copper');
  const onLand = baths.some(({ copper }) => copper.some(({ land }) => land));
  return [
    words.say('herd.bath.lead'),
    ...baths.flatMap((sum) => asked(words, sum)),
    ...(hasCopper && sums.hectaresMissing ? [words.say('herd.bath.hectares')] : []),
    ...lastYearSentences(words, sums, today),
    ...(onLand ? landSentences(words, baths) : []),
    ...(hasCopper
      ? [
          words.say('herd.bath.limits', {
            euLow: euSoilLimit.low ?? euSoilLimit.value,
            euHigh: euSoilLimit.high ?? euSoilLimit.value,
            us: usLoadLimit.value,
          }),
          `${words.say('herd.bath.slurry')} ${words.say('caution.bath-copper')}`,
        ]
      : []),
    ...(baths.some(({ kind }) => kind === 'formaldehyde') ? [words.say('caution.bath-formaldehyde')] : []),
    words.say('caution.bath-corium'),
  ];
}

function asked(words: Words, { bath, kind }: BathSum): string[] {
  if (kind === 'other') return [words.say('herd.bath.ask-product', { product: told(bath.product) })];
  if (kind !== 'copper' || bath.form) return [];
  const { pentahydrate, anhydrous } = footbathNumbers.copperOf;
  return [
    words.say('herd.bath.ask-form', {
      product: told(bath.product),
      penta: mm(100 * pentahydrate.value),
      anhydrous: mm(100 * anhydrous.value),
    }),
  ];
}

function lastYearSentences(words: Words, { lastYear }: FootbathSums, today: CalendarDay): string[] {
  if (!lastYear) return [];
  const either = ([first = '', second]: readonly string[]) =>
    second === undefined ? first : words.say('herd.bath.or', { first, second });
  const land = either(landLines(words, lastYear.copper));
  return [
    words.say(land === '' ? 'herd.bath.last-year-only' : 'herd.bath.last-year-land', {
      day: dayInWords(words, today),
      kg: kgInWords(words, lastYear.kgProduct),
      copper: either(copperLines(words, lastYear.copper)),
      land,
    }),
  ];
}

/** Years until the soil has risen by the step. @example yearsInWords(words, { yearsUntilRise: { least: 40, most: Infinity } }) // → '40 or more' */
export function yearsInWords(words: Words, { yearsUntilRise: { least, most } }: CopperOnLand): string {
  const [low, high] = [amount(least), amount(most)];
  if (most === Infinity) return words.say('herd.bath.years-least', { least: low });
  return low === high ? `${low}` : words.say('herd.bath.years-range', { least: low, most: high });
}

function landSentences(words: Words, baths: readonly BathSum[]): string[] {
  const { cropsTakeOff, soilDepth, soilDensity } = footbathNumbers;
  const offtake = cropsTakeOff.value;
  return [
    words.say('herd.bath.crops', { offtake }),
    ...baths.flatMap(({ bath, copper }) =>
      copper.flatMap(({ land, takenAs }) => {
        if (!land) return [];
        const { riseMgPerKg } = land.yearsUntilRise;
        return [
          words.say(takenAs ? 'herd.bath.years-as' : 'herd.bath.years', {
            bath: bathInWords(words, bath),
            form: formInWords(words, takenAs),
            rise: riseMgPerKg,
            years: yearsInWords(words, land),
            load: land.yearsUntilLoad.kgPerHectare,
            loadYears: amount(land.yearsUntilLoad.years),
          }),
        ];
      }),
    ),
    words.say('herd.bath.soil', { depth: soilDepth.value, density: soilDensity.value, offtake }),
  ];
}
