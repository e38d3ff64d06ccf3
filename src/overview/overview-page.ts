import type { FarmSection } from '../book/book-page.js';
import type { CoveredPage } from '../book/printed-page.js';

/** The overview as finished page data: every string worded, every number formatted. */
export interface OverviewPage extends CoveredPage {
  /** Farms left out, and why. */
  readonly rest: readonly string[];
  readonly sections: readonly FarmSection[];
}
