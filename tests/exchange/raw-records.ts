import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { z } from 'zod';
import { asWanted, wantedBy } from '../../src/casefile/wanted.js';
import { parseYaml } from '../../src/casefile/parse-yaml.js';
import { sourceText } from '../../src/casefile/source-text.js';
import { splitFrontMatter } from '../../src/casefile/split-front-matter.js';
import type { SchemaName } from '../../src/exchange/json-schemas.js';
import { animal } from '../../src/record/animal.js';
import { business } from '../../src/record/business.js';
import { farm } from '../../src/record/farm.js';

export interface RawRecord {
  /** From the project's folder on. */
  readonly file: string;
  readonly schemaFile: SchemaName;
  readonly model: z.ZodType;
  /** What the front matter holds before anything is checked. */
  readonly value: unknown;
}

const project = fileURLToPath(new URL('../../', import.meta.url));

/** Every case file under a folder whose front matter can be parsed, whatever it says. */
export function rawRecordsUnder(folder: string): RawRecord[] {
  return readdirSync(`${project}${folder}`, { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .filter((file) => /\.md$/i.test(file) && statSync(project + file).isFile())
    .sort()
    .flatMap((file): RawRecord[] => {
      const [, name = ''] = /([^/]+)\.md$/i.exec(file) ?? [];
      const [schemaFile, model] = kinds[name.toLowerCase()] ?? (['animal.schema.json', animal] as const);
      const text = readFileSync(`${project}${file}`, 'utf8').replace(/^\ufeff/, '');
      const split = splitFrontMatter(sourceText(text));
      const parsed = split.outcome === 'split' ? parseYaml(split.yaml) : undefined;
      if (parsed?.outcome !== 'value') return [];
      return [{ file, schemaFile, model, value: asWanted(wantedBy(model), parsed.value) }];
    });
}

const kinds: Readonly<Record<string, readonly [SchemaName, z.ZodType]>> = {
  farm: ['farm.schema.json', farm],
  business: ['business.schema.json', business],
};
