import { join } from 'node:path';
import { archiveOn } from '../growth/archive-on.js';
import { composeHandover } from '../handover/compose-handover.js';
import { handoverLimits } from '../handover/handover-limits.js';
import { latestPictures } from '../handover/lesion-pictures.js';
import { renderHandover } from '../handover/render-handover.js';
import { draftMessage } from '../post/draft-message.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import { workOutCase } from '../schedule/work-out-case.js';
import { type CommonOptions, folderOf } from './common-options.js';
import type { Effects } from './effects.js';
import { type ExitCode, WrongUse } from './exit-code.js';
import { handoverMessage } from './handover/handover-message.js';
import { handoverPictures } from './handover/handover-pictures.js';
import { readOneCase } from './one-case.js';
import { exitFor } from './read-cases.js';
import { writeResult } from './write-result.js';

export type HandoverOptions = CommonOptions & { out: string; ask?: string; mail?: true };

/**
 * Writes the handover of one animal to the veterinary surgeon: one page to print or send, and with `--mail` a draft of a
 * mail to the vet that carries it. Nothing is sent, and nothing is written into the record.
 */
export async function handover(named: string, options: HandoverOptions, effects: Effects): Promise<ExitCode> {
  const ask = options.ask === undefined ? undefined : readAsk(options.ask);
  const one = readOneCase(named, options, effects);
  if ('ended' in one) return one.ended;
  const { farm, record } = one;
  const { practice, today, problems } = one.reading;
  const { business } = practice;
  const prior = archiveOn(practice, today).priors.priorOf(farm.slug, record.slug);
  const work = workOutCase(farm, record, { business, today, prior });
  const pictures = await picturesOf(farm, work, today, options, effects);
  const page = composeHandover({ business, farm, work, today, ask, pictures });
  const html = renderHandover(page);
  const name = join(farm.slug, `${record.slug}-handover`);
  const write = (ending: string, content: string | Uint8Array) => {
    writeResult(join(folderOf(effects, options.out), `${name}${ending}`), content, effects);
    return join(options.out, `${name}${ending}`);
  };
  const file = write('.html', html);
  const message = options.mail
    ? handoverMessage(page, { business, farm, today, name: `${record.slug}-handover.html`, html })
    : undefined;
  const draft = message && { ...message, file: write('.eml', (await draftMessage(message.message)).bytes) };
  for (const warning of draft?.warnings ?? []) effects.warn(`${farm.slug}/${record.slug}: ${warning}\n`);
  if (options.json === true) {
    const written = { farm: farm.slug, animal: record.slug, file, ...(draft ? { draft: draft.file } : {}) };
    effects.print(`${JSON.stringify({ ...written, leftOut: page.leftOut }, null, 2)}\n`);
  } else
    effects.print(
      `${[`${file}  ${farm.farm.farm}: ${record.animal.animal}`, ...(draft ? [`${draft.file}  a draft: open it, look it over, send it`] : []), `  ${page.leftOut}`].join('\n')}\n`,
    );
  return exitFor(problems);
}

/** A question must stand whole on the page, since it stands nowhere else. */
function readAsk(ask: string): string {
  const line = ask.trim().replaceAll(/\s+/g, ' ');
  const { askCharacters: most } = handoverLimits;
  const count = [...line].length;
  if (count === 0) throw new WrongUse('--ask is empty; write the question for the vet behind it, in quotes');
  if (count > most)
    throw new WrongUse(
      `--ask has ${count} characters, expected at most ${most}: the page has room for a question; put the rest into her record, as in \`growdown visit\` with --vet`,
    );
  return line;
}

async function picturesOf(
  farm: FarmRecord,
  work: CaseWork,
  today: string,
  options: HandoverOptions,
  effects: Effects,
) {
  const latest = latestPictures(work.record.animal, work.standing.lesions, today);
  const { made, notMade } = await handoverPictures(farm.slug, latest, options.cases, effects);
  for (const picture of notMade)
    effects.warn(
      `${farm.slug}/${work.record.slug}: ${picture} could not be read as a picture and is not on the page\n`,
    );
  return made;
}
