import { composeOverview, renderOverview } from '../overview/compose-overview.js';
import { terminal } from '../problem/message.js';
import { workOfFarms } from '../round/round-of.js';
import { type CommonOptions, exitCode, type ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { farmRun } from '../run/farm-run.js';

/** Writes the business on one page, for the trimmer alone. A farm with an error is left out and named on it. */
export function overview(options: CommonOptions & { readonly out: string }, effects: Effects): ExitCode {
  const run = farmRun(options, effects, { refused: 'overview.refused' });
  const { practice, problems, farmsRefused: refused } = run;
  run.tell();
  if (run.code() === exitCode.wrongUse) return run.code();
  const page = composeOverview(practice, workOfFarms(run.farms, run.known), run.pooled, run.today, refused);
  const html = renderOverview(page);
  const file = run.write('overview.html', html);
  const [open] = page.sections;
  run.say(terminal('overview.written', { file, open: open?.lead.join(' ') ?? '' }));
  return run.end({ file, bytes: Buffer.byteLength(html), refused, problems });
}
