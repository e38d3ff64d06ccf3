import { readInbox } from '../../keep/inbox/read-inbox.js';
import { findFarm } from '../../keep/find-kept.js';
import type { Keeping } from '../../keep/change.js';
import type { Business } from '../../record/business.js';
import type { FarmRecord } from '../../record/practice.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { workOutFarm } from '../../schedule/work-out-farm.js';
import type { FormFor } from '../../form/visit-form.js';
import type { YardSetting } from './yard-setting.js';

/** A farm as it is now: its cases worked out, and of whom a visit waits in the inbox. */
export interface YardFarm {
  readonly record: FarmRecord;
  readonly business: Business;
  readonly folder: string;
  readonly work: readonly CaseWork[];
  readonly waiting: readonly string[];
}

/** Undefined where there is no such farm, or its files have an error. Only the animal named is worked out, where one is. */
export function yardFarm(
  { keeping, disk, reading }: YardSetting,
  slug: string,
  animal?: string,
): YardFarm | undefined {
  const now = keeping();
  const { practice, priors } = reading();
  const record = practice.farms.find((farm) => farm.slug === slug);
  const found = findFarm(now, slug);
  if (!record || found.outcome !== 'found') return undefined;
  const { business } = practice;
  const cases = record.cases.filter((one) => animal === undefined || one.slug === animal);
  const folder = found.farm.entry.path;
  return {
    record,
    business,
    folder,
    work: workOutFarm({ ...record, cases }, { business, today: now.today, priors }),
    waiting: [...new Set(readInbox(disk.files, folder).open.map((entry) => entry.animal))],
  };
}

/** What an animal's form is made for. */
export function formFor({ record }: YardFarm, { record: { animal } }: CaseWork, { today }: Keeping): FormFor {
  return { animal, gaitScale: gaitScaleOn(record.farm, today) };
}
