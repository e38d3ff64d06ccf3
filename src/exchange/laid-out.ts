import type { z } from 'zod';
import type { FileKind } from '../casefile/explain/explain-key.js';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import type { Records } from './records-json.js';

/** One record and the case file it is to stand in. */
export interface LaidRecord {
  /** The file from the cases folder on, with `/`. */
  readonly name: string;
  readonly kind: FileKind;
  readonly schema: z.ZodType;
  readonly record: Readonly<Record<string, unknown>>;
  readonly narrative: string;
}

/** The case files that records stand in; with `only`, those of that farm and not the business. */
export function laidOut(records: Records, only: string | undefined): LaidRecord[] {
  const own =
    only === undefined && records.business
      ? [laid('business.md', 'business', business, records.business)]
      : [];
  const farms = records.farms.filter(({ slug }) => only === undefined || slug === only);
  return [
    ...own,
    ...farms.flatMap((one) => [
      laid(`${one.slug}/farm.md`, 'farm', farm, one),
      ...one.animals.map((each) => laid(`${one.slug}/${each.slug}.md`, 'animal', animal, each)),
    ]),
  ];
}

function laid(
  name: string,
  kind: FileKind,
  schema: z.ZodType,
  { record, narrative = '' }: { readonly record: object; readonly narrative?: string | undefined },
): LaidRecord {
  return { name, kind, schema, record: record as LaidRecord['record'], narrative };
}
