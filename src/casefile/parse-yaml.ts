import { FAILSAFE_SCHEMA, load, Type, YAMLException } from 'js-yaml';
import { decimalDigits, PlainScalar } from './plain-scalar.js';

export type YamlReading =
  | { readonly outcome: 'value'; readonly value: unknown }
  /** Where the parser stopped, as an offset in the text it was given, and its reason in its own words. */
  | { readonly outcome: 'failure'; readonly at: number; readonly reason: string };

/**
 * Nothing is read as anything but what is written: `true` and `false`, an absent value, decimal digits. All else is
 * text, so dates, `12E5`, `+44…`, `0x1F` and `.inf` arrive as their own characters and no second reading is needed.
 */
const schema = FAILSAFE_SCHEMA.extend({
  implicit: [
    new Type('tag:yaml.org,2002:null', {
      kind: 'scalar',
      resolve: (source: string | null) =>
        source === null || source === '' || source === '~' || source === 'null',
      construct: () => null,
    }),
    new Type('tag:yaml.org,2002:bool', {
      kind: 'scalar',
      resolve: (source: unknown) => source === 'true' || source === 'false',
      construct: (source: string) => source === 'true',
    }),
    new Type('tag:yaml.org,2002:float', {
      kind: 'scalar',
      resolve: (source: unknown) => typeof source === 'string' && decimalDigits.test(source),
      construct: (source: string) =>
        String(Number(source)) === source ? Number(source) : new PlainScalar(source),
    }),
  ],
});

/** Parses front matter fast, without places. Keys written twice, tags and deep nesting are failures. */
export function parseYaml(yaml: string): YamlReading {
  try {
    return { outcome: 'value', value: load(yaml, { schema }) ?? {} };
  } catch (error) {
    if (error instanceof YAMLException) {
      return { outcome: 'failure', at: error.mark?.position ?? 0, reason: error.reason };
    }
    if (error instanceof RangeError) return { outcome: 'failure', at: 0, reason: 'nesting exceeded' };
    throw error;
  }
}
