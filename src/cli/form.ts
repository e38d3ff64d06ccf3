import { readFileSync } from 'node:fs';
import { composeFarmData, oneFilePage } from '../form/one-file/one-file-page.js';
import { terminal } from '../problem/message.js';
import { wordsOf } from '../reference/words.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { type CommonOptions, exitCode, type ExitCode, readSlug, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { farmRun } from '../run/farm-run.js';
import { farmCounted } from '../run/read-cases.js';

/** Writes the form of a farm's visits as one file, for use where there is no network. */
export function form(
  named: string,
  options: CommonOptions & { readonly out: string },
  effects: Effects,
): ExitCode {
  const slug = readSlug(named);
  const run = farmRun({ ...options, farm: slug }, effects, { refused: 'form.refused' });
  const { practice, today, known } = run;
  const [record] = run.farms;
  if (!record) {
    run.tell();
    return run.code();
  }
  const { business } = practice;
  const words = wordsOf(record.farm.language ?? business.language ?? 'en-GB');
  const work = workOutFarm(record, known);
  const html = oneFilePage(words, composeFarmData({ words, record, business, work, today }), script());
  const file = run.write(`${slug}-form.html`, html);
  const bytes = Buffer.byteLength(html);
  run.say(
    terminal('form.written', {
      file,
      ...farmCounted(record),
      kilobytes: Math.ceil(bytes / 1000),
      day: today,
    }),
  );
  run.end({ farm: slug, file, animals: record.cases.length, bytes });
  return exitCode.well;
}

/** Made from its source when the program is built. */
function script(): string {
  try {
    return readFileSync(new URL('../../dist/form/in-browser.js', import.meta.url), 'utf8');
  } catch {
    throw new WrongUse(terminal('form.not-built'));
  }
}
