import { join } from 'node:path';
import type { CalendarDay } from '../record/calendar-day.js';
import { writeCalendar } from '../round/calendar/write-calendar.js';
import { type FarmWork, roundOf, workOfFarms } from '../round/round-of.js';
import { composeRound } from '../round/page/compose-round.js';
import { renderRound } from '../round/page/render-round.js';
import { wordsOf } from '../reference/words.js';
import {
  type CommonOptions,
  folderOf,
  exitCode,
  type ExitCode,
  farmByFarm,
  worse,
  WrongUse,
} from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { farmCalendar } from '../round/calendar/farm-calendar.js';
import { exitFor, listErrors, type Reading, readCases } from '../run/read-cases.js';
import { roundAsData, roundAsText } from '../round/round-in-words.js';
import { writeResult } from '../run/write-result.js';
import { given } from '../record/given.js';

export interface RoundOptions extends CommonOptions {
  readonly out: string;
  readonly from?: CalendarDay;
  readonly to?: CalendarDay;
  readonly ics?: true;
}

/** Prints the round over all farms that read, writes it as one page, and where asked each farm's calendar. */
export async function round(options: RoundOptions, effects: Effects): Promise<ExitCode> {
  const { from, to } = options;
  if (from !== undefined && to !== undefined && from > to)
    throw new WrongUse(`--from ${from} is after --to ${to}; give the earlier day as --from`);
  const reading = readCases(options, effects);
  const { practice, farms, problems, farmsRefused, today } = reading;
  listErrors(reading, effects);
  if (exitFor(problems) === exitCode.wrongUse) return exitCode.wrongUse;
  for (const slug of farmsRefused)
    effects.warn(
      `${slug}: not in the round, because of the errors above; a calendar it has is left as it was\n`,
    );
  const work = workOfFarms(practice, farms, today);
  const days = { ...given({ from, to }) };
  const made = roundOf(work, days, today);
  const page = composeRound(made, { business: practice.business, days, today, refused: farmsRefused });
  const file = write('round.html', renderRound(page), options, effects);
  const calendars = options.ics ? await writeCalendars(work, reading, options, effects) : undefined;
  const files = [file, ...(calendars?.files ?? [])];
  effects.print(
    options.json
      ? `${JSON.stringify({ files, ...roundAsData(made, today), refused: farmsRefused, problems }, null, 2)}\n`
      : `${roundAsText(page)}\n${files.map((name) => `${name}\n`).join('')}`,
  );
  return worse(calendars?.ended ?? exitCode.well, exitFor(problems));
}

/** One calendar a farm, which may be handed to it, and one of all of them for the trimmer: an entry is the same in both. */
async function writeCalendars(
  work: readonly FarmWork[],
  { practice, today }: Reading,
  options: RoundOptions,
  effects: Effects,
): Promise<{ readonly files: readonly string[]; readonly ended: ExitCode }> {
  const files: string[] = [];
  const parts: Parameters<typeof writeCalendar>[2][number][] = [];
  let damaged: ExitCode = exitCode.well;
  const ended = await farmByFarm(
    work.map((farm) => ({ slug: farm.record.slug, farm })),
    effects,
    ({ slug, farm }) => {
      const calendar = farmCalendar(farm, options.cases, today, effects);
      if (calendar.outcome === 'damaged') {
        effects.warn(`${calendar.message}\n`);
        damaged = exitCode.problems;
        return;
      }
      files.push(write(`${slug}.ics`, calendar.ics, options, effects));
      calendar.remember();
      parts.push({ farm: slug, memory: calendar.remembered });
    },
  );
  if (options.farm === undefined && parts.length > 0) {
    const words = wordsOf(practice.business.language ?? 'en-GB');
    files.push(write('round.ics', writeCalendar(words, words.say('round.heading'), parts), options, effects));
  }
  return { files, ended: worse(ended, damaged) };
}

function write(name: string, content: string, { out }: RoundOptions, effects: Effects): string {
  writeResult(join(folderOf(effects, out), name), content, effects);
  return join(out, name);
}
