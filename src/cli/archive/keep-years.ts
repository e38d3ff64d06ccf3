import type { Business } from '../../record/business.js';
import { archiveText } from '../../reference/archive-text.js';

/** How many years a case is kept after its last entry. */
export function keepYears(business: Business): number {
  return business['keep-years'] ?? archiveText['keep-years'].value;
}
