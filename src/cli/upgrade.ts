import type { Worked } from '../keep/change.js';
import { type Upgrades, upgradeCases } from '../keep/upgrade-cases.js';
import { workedOut } from '../keep/work-out.js';
import { caseFormat } from '../record/animal.js';
import type { Effects } from '../run/effects.js';
import { type ExitCode, exitCode } from '../run/exit-code.js';
import { type KeepingOptions, keepingOf, writeChange } from '../run/write-change.js';
import { terminal } from '../problem/message.js';
import { jsonText } from '../record/signs.js';

export type UpgradeOptions = KeepingOptions & { readonly farm?: string };

/** Brings case files of an older format to the newest. They are read without it as well: nobody has to. */
export async function upgrade(options: UpgradeOptions, effects: Effects): Promise<ExitCode> {
  const found = upgradeCases(keepingOf(options, effects), options.farm);
  if (found.outcome !== 'upgrades')
    return await writeChange({ ...options, dryRun: true }, effects, [], () => found);
  const { files, changes, farms, says } = found;
  if (changes.length === 0) {
    effects.print(
      options.json
        ? jsonText({ format: caseFormat, files, older: 0, written: false })
        : `${terminal('upgrade.nothing', { count: files, format: caseFormat })}\n`,
    );
    return exitCode.well;
  }
  if (!options.json) for (const one of says) effects.print(`${one}\n`);
  return await writeChange(options, effects, farms, (keeping) => {
    const now = upgradeCases(keeping, options.farm);
    return now.outcome === 'upgrades' ? changeOf(now, keeping) : now;
  });
}

function changeOf(
  { changes, farms }: Extract<Upgrades, { outcome: 'upgrades' }>,
  keeping: Parameters<typeof workedOut>[1],
): Worked {
  return workedOut(
    { what: terminal('upgrade.what', { format: caseFormat }), farms, files: changes },
    keeping,
  );
}
