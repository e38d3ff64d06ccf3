import { readPractice } from '../casefile/read-practice.js';
import { findFolder } from '../keep/kept-file.js';
import { readInbox } from '../keep/inbox/inbox-entry.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { wordsOf } from '../reference/words.js';
import type { Effects, YardMachine } from '../run/effects.js';
import { type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import { keepingOf } from '../run/write-change.js';
import { listProblems, sayRefused, sayUnfinished } from '../run/read-cases.js';
import { serve, type Served } from '../form/yard/serve.js';
import { terminal } from '../problem/message.js';

export interface YardOptions {
  readonly cases: string;
  readonly today?: CalendarDay;
  readonly lan?: true;
  readonly port: number;
}

/** Serves the forms of visits to a phone until it is told to stop; then says what is in the inbox and not yet taken. */
export async function yard(options: YardOptions, effects: Effects): Promise<ExitCode> {
  const machine = effects.yard;
  if (!machine) throw new WrongUse(terminal('yard.not-here'));
  const keeping = () => keepingOf(options, effects);
  const now = keeping();
  const found = findFolder(now);
  if (found.outcome === 'cannot') throw new WrongUse(found.message);
  if (found.outcome === 'refused') {
    listProblems(found.problems, 0, effects);
    return exitCode.wrongUse;
  }
  const { farmsRefused, problems } = readPractice(effects.files, now.cases, { today: now.today });
  sayUnfinished(problems, {}, effects);
  sayRefused('form-served', farmsRefused, effects);
  const shut = found.farms.filter(({ entry }) => !machine.mayWrite(entry.path));
  if (shut.length > 0)
    throw new WrongUse(
      shut.map(({ entry }) => terminal('yard.not-yours', { folder: entry.shown })).join('\n'),
    );
  const token = machine.token(`${found.folder}/.growdown/yard.json`, now.today);
  const hosts = (): readonly string[] =>
    options.lan ? [...machine.addresses(), '127.0.0.1', 'localhost'] : ['127.0.0.1', 'localhost'];
  const served = await serving(options, () =>
    serve({
      disk: effects.disk,
      keeping,
      words: wordsOf('en-GB'),
      formId: machine.formId,
      tell: effects.print,
      token,
      hosts,
      listenOn: options.lan ? '0.0.0.0' : '127.0.0.1',
      port: options.port,
    }),
  );
  await sayWhere(options, { machine, port: served.port, token }, effects);
  await machine.stopped;
  effects.print(`${terminal('yard.stopping')}\n`);
  await served.stop();
  sayWaiting(keeping, effects);
  return exitCode.well;
}

async function serving(options: YardOptions, begin: () => Promise<Served>): Promise<Served> {
  try {
    return await begin();
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
    throw new WrongUse(terminal(`yard.${code}`, { port: options.port }));
  }
}

async function sayWhere(
  { lan }: YardOptions,
  { machine, port, token }: { readonly machine: YardMachine; readonly port: number; readonly token: string },
  effects: Effects,
): Promise<void> {
  const [first, ...others] = lan ? machine.addresses() : ['127.0.0.1'];
  if (first === undefined) {
    effects.warn(`${terminal('yard.no-network')}\n`);
  } else {
    const at = (host: string): string => `http://${host}:${port}/${token}/`;
    const address = at(first);
    const { renderUnicodeCompact } = await import('uqr');
    if (lan) effects.print(`${inTheDark(renderUnicodeCompact(address, { border: 2 }), effects)}\n`);
    effects.print(`${terminal(lan ? 'yard.open-on-phone' : 'yard.open-here', { address })}\n`);
    for (const other of others) effects.print(`${terminal('yard.or', { address: at(other) })}\n`);
  }
  effects.print(`${terminal(lan ? 'yard.who-knows' : 'yard.only-here')}\n`);
  effects.print(`${terminal('yard.how')}\n`);
}

/** Light on dark whatever colours the terminal has: not every phone reads the code the other way round. */
function inTheDark(code: string, { terminalWidth }: Effects): string {
  return terminalWidth === undefined ? code : code.replaceAll(/^.*$/gm, '\u001b[97;40m$&\u001b[0m');
}

function sayWaiting(keeping: () => Parameters<typeof findFolder>[0], effects: Effects): void {
  const found = findFolder(keeping());
  if (found.outcome !== 'found') return;
  const waiting = found.farms.flatMap(({ slug, entry }) =>
    readInbox(effects.files, entry.path).open.map(
      ({ animal, visit }) =>
        `  ${terminal('inbox.waits', { farm: slug, animal, day: String(visit['date']) })}\n`,
    ),
  );
  effects.print(
    waiting.length === 0
      ? `${terminal('inbox.empty')}\n`
      : `${terminal('inbox.waiting')}\n${waiting.join('')}`,
  );
}
