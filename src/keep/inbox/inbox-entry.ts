import { z } from 'zod';
import { calendarDay } from '../../record/calendar-day.js';
import { longText, slug } from '../../record/measures.js';
import { photo } from '../../record/visit.js';

/** The id of an entry: a random one out of the form, and a number behind it where the same form was sent again with changes. */
export const entryId = z.string().regex(/^[0-9a-f-]{36}(\.\d{1,3})?$/);

/** The name of a picture in the inbox: the form's id and the beginning of the picture's hash. */
export const heldPicture = z.string().regex(/^[0-9a-f-]{36}-[0-9a-f]{16}$/);

const record = z.record(z.string(), z.unknown());

/**
 * A visit sent from the yard, one line of JSON in `.growdown/inbox/visits.jsonl` of its farm. The visit is as it was
 * answered; whether the record takes it is asked when it is taken.
 */
export const inboxEntry = z.strictObject({
  format: z.literal(1),
  id: entryId,
  /** The entry this one stands in the place of: the same form sent again with changes. */
  'instead-of': entryId.optional(),
  /** The day it was sent. */
  on: calendarDay,
  animal: slug,
  visit: record,
  declares: record.optional(),
  /** Whoever sent it was asked about what looks like a slip, and it is right as it stands. */
  'even-so': z.literal(true).optional(),
  pictures: z.array(
    z.strictObject({
      held: heldPicture,
      sha256: z.string().regex(/^[0-9a-f]{64}$/),
      shows: photo.omit({ file: true }),
    }),
  ),
});
export type InboxEntry = z.infer<typeof inboxEntry>;

/** What became of an entry, one line of JSON in `taken.jsonl` beside it. */
export const inboxMark = z.strictObject({
  id: entryId,
  on: calendarDay,
  became: z.enum(['added', 'already there', 'set aside']),
  why: longText.optional(),
});
export type InboxMark = z.infer<typeof inboxMark>;
