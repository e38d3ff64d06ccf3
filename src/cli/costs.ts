import { signsShown } from '../record/signs.js';
import { stringify } from 'csv-stringify/sync';
import { caseCosts, costsWithin, farmWork, isOurs } from '../money/costs.js';
import { costsAsData } from '../money/costs-as-data.js';
import { hundredthsOf, priceText, sumAsText } from '../money/hundredths.js';
import type { PieceOfWork } from '../money/work-done.js';
import { yearCosts, type AnimalCosts, type FarmCosts } from '../money/year-costs.js';
import { terminal } from '../problem/message.js';
import type { Animal } from '../record/animal.js';
import type { Business } from '../record/business.js';
import { isInPeriod, type Period, nameOfPeriod } from '../record/period.js';
import type { FarmRecord } from '../record/practice.js';
import { wordsOf, type Words } from '../reference/words.js';
import { type CommonOptions, exitCode, type ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { type FarmRun, farmRun } from '../run/farm-run.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { costsInWords } from '../words/compose-money.js';
import { placeInWords } from '../words/day-and-place.js';

export type CostsOptions = CommonOptions & { out: string; period?: Period; csv?: true };

/**
 * Prints what cases have cost and what completing them would take, a table a farm; or, with `--csv`, writes the work done
 * as one file a farm, for a bill.
 */
export async function costs(options: CostsOptions, effects: Effects): Promise<ExitCode> {
  const run = farmRun(options, effects, { refused: 'costs.refused' });
  run.tell();
  if (run.farms.length === 0 && run.code() !== exitCode.well) return run.code();
  if (options.csv) return run.end({ work: await run.each((farm) => writeWork(farm, run, options.period)) });
  const told = (await run.each((farm) => farmCosts(run, farm, options.period) ?? [])).flat();
  if (run.known.business.prices === undefined) run.say(terminal('costs.no-prices'));
  else if (options.json !== true)
    effects.print(told.map((one) => costsInWords(wordsOf('en-GB'), one)).join('\n'));
  return run.end({ costs: told.map(costsAsData) });
}

function farmCosts({ known }: FarmRun, farm: FarmRecord, period: Period | undefined): FarmCosts | undefined {
  const { business, today } = known;
  const { prices } = business;
  if (!prices) return undefined;
  const named = { farm: farm.slug, name: farm.farm.farm, currency: prices.currency };
  if (period) {
    const work = farmWork(farm, today);
    const isMeant = (day: string) => isInPeriod(day, period);
    const within = (some: typeof work) => costsWithin({ business, farm: farm.farm }, some, isMeant)!;
    const animals = work
      .map((hers): AnimalCosts => ({
        slug: hers.record.slug,
        animal: hers.record.animal,
        costs: within([hers]),
      }))
      .filter(({ costs: { lines, notInSum } }) => lines.length + notInSum.length > 0);
    return { ...named, animals, years: [], total: within(work) };
  }
  const animals = workOutFarm(farm, known).flatMap((work): AnimalCosts[] => {
    const hers = caseCosts(business, farm, work, today);
    const { record, standing } = work;
    const [first] = standing.episode.visits;
    const since =
      standing.episode.lameSince ?? (first === undefined ? '' : record.animal.visits[first]!.date);
    return hers
      ? [{ slug: record.slug, animal: record.animal, ...hers, since, closed: standing.closed !== undefined }]
      : [];
  });
  return { ...named, animals, years: yearCosts(business, farm, today) };
}

/** Writes the work done on one farm, by the business's own people, as one CSV file, and says whose was left out. */
function writeWork(farm: FarmRecord, run: FarmRun, period: Period | undefined) {
  const { business, today } = run.known;
  const all = farmWork(farm, today)
    .flatMap(({ record, pieces }) => pieces.map((piece): WorkRow => ({ animal: record.animal, piece })))
    .filter(({ piece }) => isInPeriod(piece.date, period))
    // A stable sort: of one day, in the order of the files.
    .sort((a, b) => (a.piece.date < b.piece.date ? -1 : a.piece.date > b.piece.date ? 1 : 0));
  const rows = all.filter(({ piece }) => isOurs(business, piece.by));
  const byOthers = countedBy(all.filter((row) => !rows.includes(row)));
  for (const { by, pieces } of byOthers)
    run.warn(terminal('costs.by-others', { farm: farm.slug, count: pieces, by }));
  const written = { farm: farm.slug, pieces: rows.length, byOthers };
  if (rows.length === 0) {
    run.say(terminal('costs.no-work', { farm: farm.slug }));
    return written;
  }
  const words = wordsOf(business.language ?? farm.farm.language ?? 'en-GB');
  const name = `${farm.slug}-work${period ? `-${nameOfPeriod(period)}` : ''}.csv`;
  const file = run.write(name, workCsv(words, business, rows));
  run.say(terminal('costs.work-written', { file, count: rows.length }));
  return { ...written, file };
}

/** Pieces done by somebody who is not of the business, and by whom: they are in no file. */
function countedBy(rows: readonly WorkRow[]) {
  const counts = new Map<string, number>();
  for (const { piece } of rows) counts.set(piece.by, (counts.get(piece.by) ?? 0) + 1);
  return [...counts].map(([by, pieces]) => ({ by, pieces }));
}

interface WorkRow {
  readonly animal: Animal;
  readonly piece: PieceOfWork;
}

/**
 * Work done as CSV (RFC 4180), a row a piece, oldest first: the list a bill is written from.
 *
 * The columns of money stand only where the business gives prices. Numbers are plain: a point, two decimals, nothing
 * else. A byte-order mark comes first, without which a spreadsheet on Windows reads letters wrongly; a text that a
 * spreadsheet would run as a formula gets an apostrophe in front.
 *
 * Checked: tests/cli/costs.test.ts
 */
export function workCsv(words: Words, { prices }: Business, rows: readonly WorkRow[]): string {
  const heads = ['date', 'animal', 'tag', 'what', 'detail', 'foot', 'by', 'quantity'];
  const money = ['price', 'sum', 'currency'];
  return stringify(
    [
      [...heads, ...(prices ? money : [])],
      ...rows.map(({ animal, piece }) => [
        piece.date,
        animal.animal,
        animal.tag ?? '',
        words.say(`money.work.${piece.what}`),
        detailOf(words, animal, piece),
        piece.foot ? placeInWords(words, piece.foot, piece.claw) : '',
        piece.by,
        '1',
        ...(prices ? moneyOf(prices, piece) : []),
      ]),
    ],
    { bom: true, record_delimiter: '\r\n', escape_formulas: true, cast: { string: signsShown } },
  );
}

function detailOf(words: Words, animal: Animal, { what, visit, material, product }: PieceOfWork): string {
  if (what === 'visit') return words.say(`vocabulary.visit-kind.${animal.visits[visit]!.kind}`);
  return product?.product ?? (material ? words.say(`vocabulary.material.${material}`) : '');
}

/** Price, sum and currency; empty where this one has no price. */
function moneyOf(prices: NonNullable<Business['prices']>, { what, product }: PieceOfWork): string[] {
  const price = what === 'product' ? product?.cost : prices[what];
  return price === undefined
    ? ['', '', '']
    : [priceText(price), sumAsText(hundredthsOf(price)), prices.currency];
}
