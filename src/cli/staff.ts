import { staffPages } from '../post/staff-page.js';
import { terminal } from '../problem/message.js';
import type { FarmRecord } from '../record/practice.js';
import { given } from '../record/given.js';
import { type CommonOptions, type ExitCode, readSlug } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { type FarmRun, farmRun } from '../run/farm-run.js';

export type StaffOptions = Omit<CommonOptions, 'farm'> & { readonly out: string };

/** Writes the lists for the staff of one farm, or of every farm whose farm.md names their languages. */
export async function staff(
  named: string | undefined,
  options: StaffOptions,
  effects: Effects,
): Promise<ExitCode> {
  const slug = named === undefined ? undefined : readSlug(named);
  const run = farmRun({ ...options, ...given({ farm: slug }) }, effects, { refused: 'staff.refused' });
  const written = await run.each((farm) => {
    const files = writeStaffPages(run, farm);
    if (files.length === 0 && slug !== undefined) run.say(terminal('staff.no-language', { farm: farm.slug }));
    return { farm: farm.slug, files };
  });
  if (slug === undefined && run.farms.length > 0 && written.every(({ files }) => files.length === 0))
    run.say(terminal('staff.no-languages'));
  return run.end({ staff: written.filter(({ files }) => files.length > 0) });
}

/** A farm's lists beside its book; the names of their files. */
export function writeStaffPages(run: FarmRun, farm: FarmRecord): string[] {
  return staffPages(run.practice, farm, run.today, run.pooled).map(({ name, html }) => {
    const file = run.write(`${name}.html`, html);
    run.say(terminal('staff.written', { file, farm: farm.farm.farm }));
    return file;
  });
}
