import { z } from 'zod';
import { calendarDay } from './calendar-day.js';
import { longText, text } from './measures.js';

/** A correction made in the open: when, by whom, why. */
export const amendment = z.strictObject({ date: calendarDay, by: text, why: longText });
export type Amendment = z.infer<typeof amendment>;

/** The corrections of one record, oldest first. */
export const amended = z.array(amendment).optional();
