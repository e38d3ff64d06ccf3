import { z } from 'zod';
import { calendarDay } from './calendar-day.js';
import { intervals } from './farm.js';
import { group, may } from './key.js';
import { amount, count, longText, text } from './measures.js';
import { languages } from './words.js';

/** The front matter of `business.md`: the trimmer's own details and defaults. */
export const business = group({
  business: text.optional(),
  trimmer: text.optional(),
  people: z
    .array(z.strictObject({ name: text, training: text.optional(), 'valid-to': calendarDay.optional() }))
    .optional(),
  email: text.optional(),
  phone: text.optional(),
  address: longText.optional(),
  'reply-to': text.optional(),
  language: z.enum(languages).optional(),
  /** Which figure of `3/4/2026` is the day. */
  dates: z.enum(['day-first', 'month-first']).optional(),
  intervals: may(intervals, { unit: 'd' }),
  'keep-years': may(count, { unit: 'a' }),
  prices: z
    .strictObject({
      currency: text,
      visit: amount.optional(),
      block: amount.optional(),
      wrap: amount.optional(),
      'milk-litre': amount.optional(),
    })
    .optional(),
});
/** The trimmer’s own business as `business.md` declares it; empty without one. */
export type Business = z.infer<typeof business>;
