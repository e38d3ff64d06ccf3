import type { z } from 'zod';
import type { FileKind } from '../casefile/explain/explain-key.js';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import type { Records } from './records-json.js';
import { isDeepStrictEqual } from 'node:util';
import type { CaseFiles } from '../casefile/source-text.js';
import { slugTrouble } from '../casefile/folder-entries.js';
import { readCaseFile } from '../casefile/read-case-file.js';
import { decodedText } from '../casefile/read-text.js';
import { cannot, fileChange, type Keeping, type Worked } from '../keep/change.js';
import { findFolder, type FoundFolder, openKept } from '../keep/kept-file.js';
import { recordText } from '../keep/open-case.js';
import { workedOut } from '../keep/work-out.js';
import { inRow, terminal } from '../problem/message.js';

/** One record and the case file it is to be in. */
interface LaidRecord {
  /** The file from the cases folder on, with `/`. */
  readonly name: string;
  readonly kind: FileKind;
  readonly schema: z.ZodType;
  readonly record: Readonly<Record<string, unknown>>;
  readonly narrative: string;
}

/** The case files that records are in; with `only`, those of that farm and not the business. */
export function laidOut(records: Records, only: string | undefined): LaidRecord[] {
  const own =
    only === undefined && records.business
      ? [asFile('business.md', 'business', business, records.business)]
      : [];
  const farms = records.farms.filter(({ slug }) => only === undefined || slug === only);
  return [
    ...own,
    ...farms.flatMap((one) => [
      asFile(`${one.slug}/farm.md`, 'farm', farm, one),
      ...one.animals.map((each) => asFile(`${one.slug}/${each.slug}.md`, 'animal', animal, each)),
    ]),
  ];
}

function asFile(
  name: string,
  kind: FileKind,
  schema: z.ZodType,
  { record, narrative = '' }: { readonly record: object; readonly narrative?: string | undefined },
): LaidRecord {
  return { name, kind, schema, record: record as LaidRecord['record'], narrative };
}

/** `nothing`: every file is there already and says the same. */
type RecordsWorked = Worked | { readonly outcome: 'nothing'; readonly files: number };

/**
 * Records written as case files, each new. A file that is there and holds the same record and the same words is left
 * as it is; one that holds anything else stops the whole import, and nothing is written.
 *
 * Checked on the way: each file, read as any reader would, gives back its record and its narrative and nothing else.
 *
 * Shape:   `only` is a farm's slug: that farm alone, without the business
 * Error:   names that cannot be files', a farm that is not in the records, files that differ: all of a kind at once
 * Checked: tests/exchange/round-trip.test.ts
 */
export function importRecords(keeping: Keeping, records: Records, only: string | undefined): RecordsWorked {
  const found = findFolder(keeping);
  if (found.outcome !== 'found') return found;
  const farms = records.farms.map(({ slug }) => slug);
  if (only !== undefined && !farms.includes(only))
    return cannot('exchange.no-farm', { farm: only, farms: quoted(farms) });
  const laid = laidOut(records, only);
  const troubles = nameTroubles(laid.map(({ name }) => name));
  if (troubles.length > 0) return cannot('exchange.bad-names', { names: troubles.join('\n') });
  const there = laid.filter(({ name }) => keeping.files.look(`${found.folder}/${name}`));
  const differing = there.filter((one) => !isHeld(keeping.files, found, one));
  if (differing.length > 0) {
    const told = differing.map(({ name }) =>
      terminal('exchange.differs', { file: `${found.shown}/${name}` }),
    );
    return cannot('exchange.already-there', { count: told.length, files: told.join('\n') });
  }
  const fresh = laid.filter((one) => !there.includes(one));
  if (fresh.length === 0) return { outcome: 'nothing', files: laid.length };
  const { folder: path, shown } = found;
  const files = fresh.map((one) => fileChange({ path, shown }, one.name, undefined, textOf(one)));
  const astray = fresh.filter((one) => !isReadBack(one));
  const what = terminal('keep.what.records', { count: files.length, all: laid.length });
  // A farm that is new has nothing to go back to.
  const known = found.farms.map(({ slug }) => slug);
  const touched = known.filter((slug) => fresh.some(({ name }) => name.startsWith(`${slug}/`)));
  const worked = workedOut({ what, farms: touched, files }, keeping, { among: 'all' });
  return worked.outcome === 'change' && astray.length > 0
    ? cannot('exchange.not-read-back', { files: quoted(astray.map(({ name }) => name)) })
    : worked;
}

/** The bytes of the file a record is in: written as by hand, the narrative as it was. */
export function textOf({ record, schema, narrative }: LaidRecord): Uint8Array {
  return Buffer.concat([recordText(record, schema), new TextEncoder().encode(narrative)]);
}

/** The file that is there reads, and holds this record and this narrative. */
function isHeld(files: CaseFiles, { folder, shown }: FoundFolder, one: LaidRecord): boolean {
  const entry = { path: `${folder}/${one.name}`, shown: `${shown}/${one.name}` };
  const opened = openKept(files, entry, one.schema, one.kind);
  return opened.outcome === 'open' && says(opened.kept, one);
}

/** The file as it would be is read as the record and the narrative it is made of. */
function isReadBack(one: LaidRecord): boolean {
  const text = decodedText(textOf(one));
  const read = text.outcome === 'text' ? readCaseFile(text.source, one.schema, one.kind) : undefined;
  return read?.outcome === 'record' && says(read, one);
}

function says(
  { record, narrative }: { readonly record: unknown; readonly narrative: string },
  one: LaidRecord,
): boolean {
  return narrative === one.narrative && isDeepStrictEqual(record, one.record);
}

/** Files of these names in a farm's folder are no animal's. */
const kept = ['business.md', 'readme.md'];

/** Two files of one name, and names no system takes. */
function nameTroubles(names: readonly string[]): string[] {
  const twice = names.filter((name, at) => names.indexOf(name) !== at);
  const bad = names.flatMap((name) => {
    const parts = name.split('/');
    const last = parts.at(-1) ?? '';
    if (parts.length > 1 && kept.includes(last)) return [terminal('exchange.kept-name', { name: last })];
    return parts.flatMap((part) => {
      const trouble = slugTrouble(part.replace(/\.md$/, ''));
      return trouble ? [terminal('exchange.bad-name', { name: part, expected: trouble.expected })] : [];
    });
  });
  return [...new Set(bad), ...twice.map((name) => terminal('exchange.twice', { name }))];
}

function quoted(names: readonly string[]): string {
  return inRow(
    'comma',
    names.map((name) => `\`${name}\``),
  );
}
