import { auditFiles } from '../audit/audit-files.js';
import type { OutsideWitness } from '../audit/facts/sealed-in-period.js';
import { composeAnnex, renderAnnex } from '../book/annex.js';
import { composeCase } from '../book/compose-case.js';
import { jsonSchemas } from '../exchange/json-schemas.js';
import { recordsAsJson } from '../exchange/records-json.js';
import { tablesOf } from '../exchange/tables-csv.js';
import type { Pooled } from '../herd/pooled-on.js';
import type { FarmSeals } from '../ledger/seals-of-farm.js';
import { datedOn, type Printer } from '../pdf/open-printer.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Period } from '../record/period.js';
import type { CaseRecord, FarmRecord, Practice } from '../record/practice.js';
import { pictureNumbers } from '../reference/numbers.js';
import { bookWithin } from '../book/book-within.js';

/** What is made of a farm's records for its archive. */
export interface Making {
  readonly practice: Practice;
  /** With all its animals: how the farm does is worked out from them. */
  readonly farm: FarmRecord;
  readonly chosen: readonly CaseRecord[];
  readonly period: Period | undefined;
  readonly today: CalendarDay;
  readonly pooled: Pooled;
  /** The records beside their seals. */
  readonly seals: FarmSeals | undefined;
  /** Mail that named the ledger's head; whose mail box holds it only where contacts are kept. */
  readonly witnesses: readonly OutsideWitness[];
  readonly isPictureThere: (file: string) => boolean;
  readonly readPicture: (file: string) => Uint8Array | undefined;
  /** Undefined where no browser prints. */
  readonly printer: Printer | undefined;
}

/**
 * Everything an archive holds that is made of the records, one file after the other: books and annex, audit tables, records for
 * programs and their schemas. Of a period there is each animal's page alone, since a book's figures are of all animals.
 */
export async function* madeOfFarm(making: Making): Made {
  const { practice, farm, chosen, period, today, readPicture } = making;
  yield* period ? pagesOf(making) : bookOf(making);
  const annex = composeAnnex(practice, farm, today, {
    ...making,
    ...(period ? { only: chosen } : {}),
    read: readPicture,
  });
  yield* asPage(`books/${farm.slug}-annex`, renderAnnex(annex), making);

  const first = chosen.flatMap(({ animal }) => animal.visits[0]?.date ?? []).toSorted()[0];
  const span = period ?? (first === undefined ? undefined : { from: first, to: today });
  if (span) {
    const { pooled, isPictureThere, seals, witnesses } = making;
    const { priors } = pooled;
    const known = {
      business: practice.business,
      today,
      priors,
      isPictureThere,
      witnesses,
      ...(seals ? { seals } : {}),
    };
    const { files } = auditFiles(farm, span, known);
    for (const [name, text] of Object.entries(files)) yield [`audit/${name}`, text];
  }

  const written = { ...practice, farms: [{ ...farm, cases: chosen }] };
  yield ['records/records.json', recordsAsJson(written)];
  for (const [name, text] of tablesOf(written, { guarded: false }).files) yield [`records/${name}`, text];
  for (const [name, text] of Object.entries(jsonSchemas())) yield [`format/${name}`, text];
}

type Made = AsyncGenerator<readonly [path: string, content: string | Uint8Array]>;

async function* bookOf(making: Making): Made {
  const { practice, farm, today } = making;
  const { html } = await bookWithin(practice, farm, today, ...layingOut(making));
  yield* asPage(`books/${farm.slug}`, html, making);
}

async function* pagesOf(making: Making): Made {
  const { practice, farm, chosen, today } = making;
  const [options, size] = layingOut(making);
  for (const record of chosen) {
    const alone = { ...farm, cases: [record] };
    const { html } = await bookWithin(practice, alone, today, options, { ...size, compose: composeCase });
    yield* asPage(`books/${farm.slug}/${record.slug}`, html, making);
  }
}

/** A page, and its PDF where a browser prints. */
async function* asPage(path: string, html: string, { printer, today }: Making): Made {
  yield [`${path}.html`, html];
  if (printer) yield [`${path}.pdf`, datedOn(await printer.print(html), today)];
}

function layingOut({ pooled, isPictureThere, readPicture, seals }: Making) {
  return [
    { pooled, isPictureThere, seals },
    { maxMb: pictureNumbers.bookMb.value, read: readPicture },
  ] as const;
}
