import type { CalendarDay } from '../record/calendar-day.js';
import { terminal } from '../problem/message.js';
import { farmCalendar } from '../round/calendar/farm-calendar.js';
import { writeCalendar } from '../round/calendar/write-calendar.js';
import { composeRound, renderRound } from '../round/page/compose-round.js';
import { roundAsData, roundAsText } from '../round/round-in-words.js';
import { type FarmWork, roundOf, workOfFarms } from '../round/round-of.js';
import { wordsOf } from '../reference/words.js';
import { type CommonOptions, exitCode, type ExitCode, worse, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { type FarmRun, farmRun } from '../run/farm-run.js';
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
    throw new WrongUse(terminal('round.days-turned', { from, to }));
  const run = farmRun(options, effects, { refused: 'round.refused' });
  const { practice, problems, farmsRefused: refused, today } = run;
  run.tell();
  if (run.code() === exitCode.wrongUse) return run.code();
  const work = workOfFarms(run.farms, run.known);
  const days = given({ from, to });
  const made = roundOf(work, days, today);
  const page = composeRound(made, { business: practice.business, days, today, refused });
  const file = run.write('round.html', renderRound(page));
  const calendars = options.ics ? await writeCalendars(work, run, options, effects) : undefined;
  const files = [file, ...(calendars?.files ?? [])];
  run.say([roundAsText(page), ...files].join('\n'));
  const code = run.end({ files, ...roundAsData(made, today), refused, problems });
  return calendars?.damaged ? worse(code, exitCode.problems) : code;
}

/** One calendar a farm, which may be handed to it, and one of all of them for the trimmer: an entry is the same in both. */
async function writeCalendars(
  work: readonly FarmWork[],
  run: FarmRun,
  options: RoundOptions,
  effects: Effects,
): Promise<{ readonly files: readonly string[]; readonly damaged: boolean }> {
  const files: string[] = [];
  const parts: Parameters<typeof writeCalendar>[2][number][] = [];
  let damaged = false;
  await run.each((farm) => {
    const one = work.find(({ record }) => record === farm)!;
    const calendar = farmCalendar(one, options.cases, run.today, effects);
    if (calendar.outcome === 'damaged') {
      run.warn(calendar.message);
      damaged = true;
      return;
    }
    files.push(run.write(`${farm.slug}.ics`, calendar.ics));
    calendar.remember();
    parts.push({ farm: farm.slug, memory: calendar.remembered });
  });
  if (options.farm === undefined && parts.length > 0) {
    const words = wordsOf(run.practice.business.language ?? 'en-GB');
    files.push(run.write('round.ics', writeCalendar(words, words.say('round.heading'), parts)));
  }
  return { files, damaged };
}
