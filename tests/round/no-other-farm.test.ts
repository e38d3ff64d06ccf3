import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import PostalMime from 'postal-mime';
import { expect, test } from 'vitest';
import { folderWith } from '../cli/run-in-folder.js';
import { type GeneratedBusiness, type GeneratedFarm, generatedBusiness } from './generated-business.js';
import { type OwnOutput, ownOutputs } from './own-outputs.js';

const today = '2026-12-01';

/** Everything that is in a folder as text, by path with `/`; of a mail, its letter and what is attached. */
async function filesIn(folder: string): Promise<Map<string, string>> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
  const files = names.map(async (one): Promise<[string, string]> => {
    const path = join(one.parentPath, one.name);
    const shown = path.slice(folder.length + 1).replaceAll('\\', '/');
    return [shown, path.endsWith('.eml') ? await textOfMail(path) : readFileSync(path, 'utf8')];
  });
  return new Map(await Promise.all(files));
}

async function textOfMail(path: string): Promise<string> {
  const bytes = readFileSync(path);
  const mail = await PostalMime.parse(bytes, { attachmentEncoding: 'utf8' });
  const attached = mail.attachments.map(({ content }) =>
    typeof content === 'string' ? content : new TextDecoder().decode(content),
  );
  expect(attached.length, path).toBeGreaterThan(0);
  return [bytes.toString('utf8'), mail.subject, mail.text, mail.html, ...attached].join('\n');
}

/** What outputs of one farm hold of the others: `output, file, mark`. */
async function strayMarks(
  { files, farms }: GeneratedBusiness,
  farm: GeneratedFarm,
  outputs: readonly OwnOutput[],
): Promise<string[]> {
  const { folder, growdown } = folderWith(files, { today: () => today }, () => undefined);
  const others = farms.filter((other) => other !== farm).flatMap(({ marks }) => marks);
  const stray: string[] = [];
  try {
    for (const output of outputs) {
      const before = await filesIn(folder);
      const run = await growdown(...output.command(farm));
      expect(run.code, `${output.name}: ${run.err}`).toBe(0);
      const written = [...(await filesIn(folder))].filter(
        ([path, text]) => before.get(path) !== text && (output.files?.(path, farm) ?? true),
      );
      if (output.mayBeNone && written.length === 0) continue;
      expect(written.length, `${output.name}: nothing was written`).toBeGreaterThan(0);
      expect(written.map(([, text]) => text).join('\n'), output.name).toContain(farm.name);
      for (const [path, text] of written) {
        for (const mark of others) if (text.includes(mark)) stray.push(`${output.name}, ${path}, ${mark}`);
      }
    }
    return stray;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

test('no output of a farm holds another farm’s name, contact, animals or tags', async () => {
  await fc.assert(
    fc.asyncProperty(generatedBusiness, fc.nat(), async (business, which) => {
      const farm = business.farms[which % business.farms.length]!;
      expect(await strayMarks(business, farm, ownOutputs)).toEqual([]);
    }),
    { numRuns: 3, endOnFailure: true },
  );
}, 120_000);

test('it can fail: a page over all farms is reported for holding the others', async () => {
  const [business] = fc.sample(generatedBusiness, { numRuns: 1, seed: 6 });
  const round: OwnOutput = { name: 'round', command: () => ['round'] };
  expect((await strayMarks(business!, business!.farms[0]!, [round])).length).toBeGreaterThan(0);
});
