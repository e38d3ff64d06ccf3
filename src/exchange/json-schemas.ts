import { z } from 'zod';
import { amendment, shortName } from '../record/measures.js';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { calendarDay } from '../record/calendar-day.js';
import { farm } from '../record/farm.js';
import { found, visit } from '../record/visit.js';
import { lesion, mark } from '../record/lesion.js';
import { reservedNames } from '../casefile/wanted.js';
import { saidOf } from '../reference/dictionary.js';
import { records } from './records-json.js';
import { terminal } from '../problem/message.js';
import { jsonText } from '../record/signs.js';

/** Parts of the model that a schema tells once, under `$defs`, and points to. */
const parts = { day: calendarDay, lesion, mark, visit, found, amendment };
const files = {
  'animal.schema.json': { of: animal, root: 'animal', parts },
  'farm.schema.json': { of: farm, root: 'farm', parts },
  'business.schema.json': { of: business, root: 'business', parts },
  'records.schema.json': {
    of: records,
    root: '',
    parts: { animal, farm, business, ...parts },
  },
} as const;
export type SchemaName = keyof typeof files;

/**
 * The record model as JSON Schema, draft 2020-12: the text of one file for each kind of case file and one for the
 * records as they are exported. Made from the very schemas files are checked by; what only a check between keys can
 * see (days in order, names that are declared) no schema says.
 *
 * Shape:   file name → text; the same for ever but for keys that are added
 * Checked: tests/exchange/json-schemas.test.ts
 */
export function jsonSchemas(): Readonly<Record<SchemaName, string>> {
  const written = Object.entries(files).map(([name, { of, root, parts: named }]) => {
    const { $schema, ...schema } = z.toJSONSchema(of, {
      target: 'draft-2020-12',
      metadata: registryOf(named),
      override: ({ zodSchema, jsonSchema }) => narrow(zodSchema, jsonSchema),
    });
    describe(schema, root, schema.$defs ?? {}, new Set());
    return [name, jsonText({ $schema, title: terminal(`exchange.schema.${name}`), ...schema })];
  });
  return Object.fromEntries(written) as Record<SchemaName, string>;
}

type Schema = z.core.JSONSchema.BaseSchema;

function registryOf(named: Readonly<Record<string, z.core.$ZodType>>): z.core.$ZodRegistry<{ id: string }> {
  const registry = z.registry<{ id: string }>();
  for (const [id, part] of Object.entries(named)) registry.add(part, { id });
  return registry;
}

/** What the reader of files refuses by code of its own, said as a schema can say it. */
function narrow(zodSchema: z.core.$ZodType, jsonSchema: Schema): void {
  if (zodSchema === calendarDay) jsonSchema.allOf = [{ pattern: '^(?:19|20|21)' }];
  if (zodSchema instanceof z.ZodRecord && zodSchema.keyType === shortName)
    jsonSchema.propertyNames = { ...asSchema(jsonSchema.propertyNames), not: { enum: [...reservedNames] } };
}

/** Puts what the dictionary says to every key, once to a part that is pointed to from several places. */
function describe(
  schema: Schema,
  place: string,
  defs: Readonly<Record<string, Schema>>,
  seen: Set<string>,
): void {
  const [, name] = /^#\/\$defs\/(.+)$/.exec(schema.$ref ?? '') ?? [];
  if (name !== undefined) {
    const root = ['animal', 'farm', 'business'].includes(name) ? name : place;
    if (!seen.has(name)) describe(asSchema(defs[name]), root, defs, seen.add(name));
    return;
  }
  const forms = (schema.anyOf ?? []).map(asSchema);
  // What may appear alone or as a list is the same thing either way.
  const alone = forms.some(({ items }) => items !== undefined) ? `${place}[]` : place;
  for (const form of forms) describe(form, form.items === undefined ? alone : place, defs, seen);
  if (schema.items !== undefined) describe(asSchema(schema.items), `${place}[]`, defs, seen);
  if (schema.propertyNames !== undefined)
    describe(asSchema(schema.additionalProperties), `${place}{}`, defs, seen);
  for (const [key, inner] of Object.entries(schema.properties ?? {})) {
    const at = place === '' ? key : `${place}.${key}`;
    describe(asSchema(inner), at, defs, seen);
    const said = saidOf(at) ?? saidOf(`${at}[]`) ?? saidOf(`${at}{}`);
    if (said)
      asSchema(inner).description = said.unit === undefined ? said.says : `${said.says} Unit: ${said.unit}.`;
  }
}

function asSchema(schema: unknown): Schema {
  return schema as Schema;
}
