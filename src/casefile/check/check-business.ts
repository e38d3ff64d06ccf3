import type { Business } from '../../record/business.js';
import type { BusinessCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';

/** What is wrong inside the trimmer's own record. */
export function checkBusiness(_business: Business, _context: BusinessCheckContext): Finding[] {
  return [];
}
