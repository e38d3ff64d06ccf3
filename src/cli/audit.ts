import { join } from 'node:path';
import { auditFiles } from '../audit/audit-files.js';
import { mailedHeadsOf } from '../post/sending/post-run.js';
import { terminal } from '../problem/message.js';
import { nameOfPeriod, type Period, twelveMonthsTo } from '../record/period.js';
import { annexOf } from './make-book.js';
import { type CommonOptions, type ExitCode, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { farmRun } from '../run/farm-run.js';
import { counted, isPictureThere } from '../run/read-cases.js';

export type AuditOptions = CommonOptions & { out: string; period?: Period };

/**
 * Writes one audit pack a farm: a page, its tables as CSV and the farm's annex, in a folder of the farm and the period. A farm with an error gets none.
 * Read anew: what an auditor holds is made of the case files alone.
 */
export async function audit(options: AuditOptions, effects: Effects): Promise<ExitCode> {
  const run = farmRun({ ...options, cache: false }, effects, { refused: 'audit.refused' });
  const { today } = run;
  const period = options.period ?? twelveMonthsTo(today);
  if (period.from > today) throw new WrongUse(terminal('audit.period-to-come', { from: period.from, today }));
  // What the business charges is nothing an auditor asks for.
  const { prices: _, ...unpriced } = run.practice.business;
  const packs = await run.each((farm) => {
    const seals = run.sealsOf(farm.slug);
    const { files: tables, ...held } = auditFiles(farm, period, {
      ...run.known,
      isPictureThere: isPictureThere(effects, options.cases, farm.slug),
      witnesses: mailedHeadsOf(effects, options.cases, farm.slug),
      ...(seals ? { seals } : {}),
    });
    const files = { ...tables, 'annex.html': annexOf(run, farm, options, effects, unpriced) };
    const name = `${farm.slug}-${nameOfPeriod(period)}`;
    for (const [file, text] of Object.entries(files)) run.write(join(name, file), text);
    const folder = join(options.out, name);
    const { 'worth closing': worth, serious, minor } = held.gaps;
    const [page, more] = [join(folder, 'audit.html'), Object.keys(files).length - 1];
    const [runs, visits] = [counted(held.runs, 'run'), counted(held.visits, 'visit')];
    run.say(terminal('audit.written', { page, more, runs, visits, serious, worth, minor }));
    return { farm: farm.slug, folder, files: Object.keys(files), ...held };
  });
  return run.end({ period, packs, refused: run.farmsRefused });
}
