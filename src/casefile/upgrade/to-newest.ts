import { type Step, stepsInRecord } from '../../record/record-step.js';
import type { Wanted } from '../wanted.js';

/** How a case file of one version of the format becomes one of the next. */
export interface UpgradeStep {
  /** The version it starts from; it leads to the one after. */
  readonly from: number;
  /** What becomes different, in a sentence for whoever keeps the files. */
  readonly says: string;
  /**
   * The changes to the record besides `casefile` itself. A step puts keys and values and takes none away: keys are
   * never renamed and never change their meaning.
   *
   * Shape: the record as the file gives it, of the old version and not checked by its schema
   */
  readonly steps: (record: Readonly<Record<string, unknown>>) => readonly Step[];
}

/** How a record stands to the newest version: nothing to do, a way there, or a version from after this program. */
type ToNewest =
  | { readonly outcome: 'newest' }
  | {
      readonly outcome: 'older';
      readonly from: number;
      /** What each version on the way changes. */
      readonly says: readonly string[];
      /** All changes, `casefile` with them, to be taken in this order. */
      readonly steps: readonly Step[];
      readonly record: unknown;
    }
  | { readonly outcome: 'newer'; readonly version: number };

/**
 * The way of a record, as its file gives it, to the version its kind of file is of today.
 *
 * One that names no version, or something that is none, is left for the schema to refuse.
 *
 * Error:   RangeError where a version between has no step: a slip of ours
 * Checked: tests/casefile/upgrade.test.ts
 */
export function toNewest(wanted: Wanted, record: unknown, known: readonly UpgradeStep[]): ToNewest {
  const version = wanted.kind === 'group' ? wanted.keys.get('casefile')?.wanted : undefined;
  const written = (record as { readonly casefile?: unknown }).casefile;
  if (version?.kind !== 'version' || typeof written !== 'number' || !Number.isInteger(written) || written < 1)
    return { outcome: 'newest' };
  if (written > version.version) return { outcome: 'newer', version: written };
  if (written === version.version) return { outcome: 'newest' };
  const says: string[] = [];
  const steps: Step[] = [];
  let now = record as Readonly<Record<string, unknown>>;
  for (let from = written; from < version.version; from += 1) {
    const step = known.find((one) => one.from === from);
    if (!step) throw new RangeError(`no step from version ${from} of the case format`);
    const taken: Step[] = [...step.steps(now), { put: 'value', path: ['casefile'], value: from + 1 }];
    now = stepsInRecord(now, taken);
    for (const each of taken) steps.push(each);
    says.push(step.says);
  }
  return { outcome: 'older', from: written, says, steps, record: now };
}

/**
 * The way from each version of the case format to the next, oldest first. There has been one version so far, so there
 * is no way to go yet; DEVELOPERS.md says how one is added.
 */
export const upgradeSteps: readonly UpgradeStep[] = [];
