import { mailNumbers } from '../../reference/mail-numbers.js';
import type { MailServer, MailTrouble, MailTroubleKind } from './mailer.js';

const seconds = mailNumbers.connectSeconds.value;

const told: Readonly<Record<MailTroubleKind, (at: string) => readonly [what: string, mend: string]>> = {
  'unknown-host': (at) => [
    `no mail server of the name in ${at} is found`,
    'see that this computer is on the network, and that the name is spelled as your provider gives it',
  ],
  'nothing-listens': (at) => [
    `no mail server takes calls at ${at}`,
    'see the name and the port: most servers take mail at 587 (starttls) or 465 (implicit)',
  ],
  'no-answer': (at) => [
    `${at} gave no answer within ${seconds} seconds`,
    'see that this computer is on the network, and the port: 465 wants `tls: implicit`, 587 wants `tls: starttls`; some networks let no mail out',
  ],
  'no-tls': (at) => [
    `${at} does not begin TLS, and without it anybody on the way could read the password and the message`,
    'take the port with TLS your provider names, mostly 587 (starttls) or 465 (implicit); no setting sends without it',
  ],
  certificate: (at) => [
    `the certificate of ${at} is not trusted: it may be another server that answers`,
    'see that the name is the one your provider gives; for a server of your own, name its certificate with `trust`',
  ],
  login: (at) => [
    `${at} refuses the user name or the password`,
    'see both; many providers want a password made for one program, not the one for their web pages',
  ],
  'login-wanted': (at) => [`${at} takes mail only after a login`, 'give `user` and `password`'],
  'too-large': (at) => [
    `${at} takes no message as large as this`,
    'make it smaller with `--max-mb`, with `--attach html` or with `--open-only`, or hand the book over another way',
  ],
  'sender-refused': (at) => [
    `${at} does not let this login send as the sender given`,
    "set `sender` to the address of the login; answers still go to the business's `reply-to`",
  ],
  'address-refused': (at) => [
    `${at} refuses the farm's address`,
    'see `contact: { email }` in its farm.md with the farm',
  ],
  'message-refused': (at) => [
    `${at} refuses the message itself`,
    'what it says tells why; with `--attach pdf` no HTML file goes along, which some servers refuse',
  ],
  later: (at) => [`${at} cannot take it now and asks to try later`, 'do it again in an hour'],
  'cut-off': (at) => [
    `the connection to ${at} ended before the server had taken the message`,
    'do it again; if it comes back, ask your provider',
  ],
};

/** A trouble with a mail server: what it is, what was said, and the way out. */
export function troubleInWords({ kind, said }: MailTrouble, { host, port }: MailServer): string {
  const [what, mend] = told[kind](`${host}:${port}`);
  return `${what}${said === '' ? '' : ` (it says: ${said})`}; ${mend}`;
}
