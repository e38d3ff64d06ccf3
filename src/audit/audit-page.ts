import type { TableSection, TextList } from '../book/page-parts.js';
import type { CoveredPage } from '../book/printed-page.js';

/** A farm's pack as page data: every string worded, every number formatted. */
export interface AuditPage extends CoveredPage {
  readonly about: readonly string[];
  readonly contents: {
    readonly heading: string;
    readonly lines: readonly { readonly href: string; readonly text: string }[];
  };
  readonly sections: readonly TableSection[];
  readonly rules: TextList;
}
