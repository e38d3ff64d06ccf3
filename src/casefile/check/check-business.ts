import type { Business } from '../../record/business.js';
import { type BusinessCheckContext, checkIntervalsInOrder } from './check-context.js';
import type { Finding } from '../../problem/problem.js';

/** What is wrong inside the trimmer's own record. A training that has run out is a fact, not a slip. */
export function checkBusiness(business: Business, _context: BusinessCheckContext): Finding[] {
  return checkIntervalsInOrder(business.intervals);
}
