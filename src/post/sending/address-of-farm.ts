import { type Mailbox, mailboxesOf } from '../mailbox.js';
import type { FarmRecord } from '../../record/practice.js';
import { NoLetter } from './post-run.js';

/** Where a farm's mail goes. Error: NoLetter where its record names nobody, or something that is no address. */
export function addressOfFarm({ farm, source }: FarmRecord): readonly [Mailbox, ...Mailbox[]] {
  const { email, name } = farm.contact ?? {};
  const { line, column } = source.placeOf(['contact', 'email']);
  if (email === undefined)
    throw new NoLetter(
      'no-address',
      `${source.file}: no address to write to, expected \`contact: { email: "…" }\`; write it there, or hand the book over another way`,
    );
  const to = mailboxesOf(email, name ?? farm.farm);
  if (to === undefined)
    throw new NoLetter(
      'bad-address',
      `${source.file}:${line}:${column}: contact.email is \`${email}\`, expected one bare address as in nan@quernholt.example, or several with commas between; put it right there`,
    );
  return to;
}
