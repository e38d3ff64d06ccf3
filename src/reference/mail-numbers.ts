import { z } from 'zod';
import { readShared } from './read-shared.js';
import { sourcedNumber } from './sourced.js';

/** How large a message may be, how much of it a book may take, and how long a server is waited for. Source: shared/mail.json. */
export const mailNumbers = readShared(
  'mail.json',
  z.strictObject({
    /** The whole message as it travels, unless the user says otherwise. */
    messageMb: sourcedNumber,
    /** What the user can ask for at most. */
    mostMb: sourcedNumber,
    /** Of the message; half of it each where the book goes as HTML and as PDF. */
    bookShare: sourcedNumber,
    connectSeconds: sourcedNumber,
    silentSeconds: sourcedNumber,
  }),
);
