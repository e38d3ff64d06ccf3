import type { ValidateFunction } from 'ajv';
import { Ajv2020 } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';
import { jsonSchemas, type SchemaName } from '../../src/exchange/json-schemas.js';

/** The published schemas as an independent program reads them, in its strict mode. */
export const validators = Object.fromEntries(
  Object.entries(jsonSchemas()).map(([name, text]) => {
    const ajv = new Ajv2020({ strict: true, allErrors: true });
    formats.default(ajv);
    return [name, ajv.compile(JSON.parse(text) as object)];
  }),
) as Record<SchemaName, ValidateFunction>;
