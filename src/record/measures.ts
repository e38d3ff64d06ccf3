import { z } from 'zod';
import { calendarDay } from './calendar-day.js';

/** Text kept exactly as written; never empty. */
export const text = z.string().min(1);

/** Text that may run over several lines. */
export const longText = z.string().min(1);

/** A length on a foot, mm: 0 to 200. */
export const lengthMm = z.number().min(0).max(200);

/** A number that cannot be below zero. */
export const amount = z.number().min(0);

/** A whole number, zero or more. */
export const count = z.int().min(0);

/** Time of day, `HH:MM`. */
export const timeOfDay = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/);

/** The short name of a farm or an animal's file. */
export const slug = z.string().regex(/^[a-z0-9][a-z0-9-]{0,63}$/);

/** The short name of a lesion or a mark; the two share one namespace in an animal. */
export const shortName = z.string().regex(/^[a-z][a-z0-9-]{0,15}$/);

/** A correction made in the open: when, by whom, why. */
export const amendment = z.strictObject({ date: calendarDay, by: text, why: longText });
export type Amendment = z.infer<typeof amendment>;

/** The corrections of one record, oldest first. */
export const amended = z.array(amendment).optional();

/** Names Windows keeps for devices, whatever is after a dot: nothing of that name can be made there. */
const deviceNames = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i;

/**
 * Whether a name cannot be a file's or a folder's on Windows because a device has it.
 *
 * @example isDeviceName('nul.txt') // → true
 */
export function isDeviceName(name: string): boolean {
  return deviceNames.test(name.split('.')[0]!.trimEnd());
}
