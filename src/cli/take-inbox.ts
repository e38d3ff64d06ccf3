import { commitChange } from '../keep/disk/commit-change.js';
import { findFolder } from '../keep/kept-file.js';
import { type InboxEntry, type InboxMark, marksIn, readInbox } from '../keep/inbox/inbox-entry.js';
import { takeEntry, type TakenEntry } from '../keep/inbox/take-entry.js';
import { formatProblem } from '../problem/format-problem.js';
import type { Problem } from '../problem/problem.js';
import type { Effects } from '../run/effects.js';
import { refusalOf, type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import { changeAsDiff } from '../keep/change-as-diff.js';
import { type KeepingOptions, keepingOf } from '../run/write-change.js';
import { listProblems } from '../run/read-cases.js';
import { terminal } from '../problem/message.js';
import { jsonText } from '../record/signs.js';

export interface InboxOptions extends KeepingOptions {
  readonly farm?: string;
  readonly setAside?: string;
}

interface Became {
  readonly farm: string;
  readonly id: string;
  readonly animal: string;
  readonly date: string;
  readonly became: InboxMark['became'] | 'would be added' | 'refused';
  readonly files: readonly string[];
  readonly problems: readonly Problem[];
  readonly message?: string;
}

/**
 * Takes what was sent from the yard into the case files. An entry that is refused stays in the inbox with its reason
 * told; one that is taken is marked so, and adds nothing when it is met again.
 */
export async function takeInbox(options: InboxOptions, effects: Effects): Promise<ExitCode> {
  const keeping = keepingOf(options, effects);
  const found = findFolder(keeping);
  if (found.outcome === 'cannot') throw new WrongUse(found.message);
  if (found.outcome === 'refused') {
    listProblems(found.problems, 0, effects);
    return exitCode.wrongUse;
  }
  const farms = found.farms.filter(({ slug }) => options.farm === undefined || slug === options.farm);
  if (farms.length === 0 && options.farm !== undefined)
    throw new WrongUse(
      terminal('inbox.no-farm', {
        farm: options.farm,
        farms: found.farms.map(({ slug }) => slug).join(', '),
      }),
    );
  const all: Became[] = [];
  for (const { slug, entry } of farms) {
    const inbox = readInbox(effects.files, entry.path);
    if (inbox.cutShort > 0)
      effects.warn(`${terminal('inbox.cut-short', { farm: slug, entries: inbox.cutShort })}\n`);
    for (const one of inbox.open) {
      if (options.setAside !== undefined && one.id !== options.setAside) continue;
      const became = await takeOne(slug, entry.path, one, options, effects);
      if (!options.json) tell(became, effects);
      all.push(became);
    }
  }
  if (options.setAside !== undefined && all.length === 0)
    throw new WrongUse(terminal('inbox.no-entry', { id: options.setAside }));
  if (options.json) effects.print(jsonText({ entries: all }));
  else if (all.length === 0) effects.print(`${terminal('inbox.empty')}\n`);
  return all.some(({ became }) => became === 'refused') ? exitCode.problems : exitCode.well;
}

async function takeOne(
  farm: string,
  folder: string,
  entry: InboxEntry,
  options: InboxOptions,
  effects: Effects,
): Promise<Became> {
  const keeping = keepingOf(options, effects);
  const marked = (became: InboxMark['became']): void =>
    mark(folder, { id: entry.id, on: keeping.today, became }, effects);
  if (options.setAside !== undefined) {
    if (!options.dryRun) marked('set aside');
    return becameOf(farm, entry, { outcome: 'already there' }, 'set aside');
  }
  if (options.dryRun) {
    const worked = takeEntry(keeping, farm, entry);
    if (worked.outcome === 'change' && !options.json) effects.print(changeAsDiff(worked.change));
    return becameOf(farm, entry, worked, worked.outcome === 'change' ? 'would be added' : 'already there');
  }
  // Looked at again under the lock: another taking may have been faster.
  const looked: { worked?: TakenEntry } = {};
  const done = await commitChange(effects.disk, keeping, [farm], (now) => {
    const taken = readInbox(now.files, folder).marks.has(entry.id);
    const worked: TakenEntry = taken ? { outcome: 'already there' } : takeEntry(now, farm, entry);
    looked.worked = worked;
    return worked.outcome === 'already there' ? { outcome: 'cannot', message: '' } : worked;
  });
  for (const line of done.told) effects.warn(`${line}\n`);
  const there = looked.worked?.outcome === 'already there';
  if (!there && done.outcome !== 'written') return becameOf(farm, entry, done, 'already there');
  const became = there ? 'already there' : 'added';
  if (there) marked(became);
  if (done.outcome === 'written')
    for (const problem of done.change.remarks) effects.warn(`${formatProblem(problem)}\n`);
  return becameOf(farm, entry, done.outcome === 'written' ? { outcome: 'change', change: done.change } : { outcome: 'already there' }, became); // prettier-ignore
}

function becameOf(
  farm: string,
  { id, animal, visit }: InboxEntry,
  worked: TakenEntry,
  well: Became['became'],
): Became {
  const about = { farm, id, animal, date: String(visit['date']), files: [], problems: [] };
  if (worked.outcome === 'refused')
    return {
      ...about,
      became: 'refused',
      problems: worked.problems,
      ...(worked.asked ? { message: terminal('inbox.asked') } : {}),
    };
  if (worked.outcome === 'cannot') return { ...about, became: 'refused', message: worked.message };
  const files = worked.outcome === 'change' ? worked.change.files.map(({ file }) => file) : [];
  return { ...about, became: well, files };
}

/** One that cannot be marked waits on, and adds nothing when it is met again: the visit is on file. */
function mark(folder: string, one: InboxMark, effects: Effects): void {
  try {
    effects.disk.append(marksIn(folder), `${JSON.stringify(one)}\n`);
  } catch (error) {
    const { code } = refusalOf(error);
    effects.warn(`${terminal(`inbox.unmarked.${one.became}`, { path: marksIn(folder), code })}\n`);
  }
}

function tell({ farm, animal, date, became, id, files, problems, message }: Became, effects: Effects): void {
  effects.print(`${terminal(`inbox.became.${became}`, { farm, animal, day: date })}\n`);
  for (const file of files) effects.print(`  ${file}\n`);
  for (const problem of problems) effects.warn(`${formatProblem(problem)}\n`);
  if (message !== undefined) effects.warn(`${message}\n`);
  if (became === 'refused') effects.print(`  ${terminal('inbox.stays', { id })}\n`);
}
