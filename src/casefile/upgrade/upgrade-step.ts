import type { Step } from '../../record/record-step.js';

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
