import { readableText } from '../../problem/readable-text.js';
import type { MailServer, MailTrouble, MailTroubleKind } from './mailer.js';

/** What the mail library throws: its own word, the machine's, the server's reply and the command it was a reply to. */
export interface ServerError extends Error {
  readonly code?: string;
  readonly originalCode?: string;
  readonly response?: string;
  readonly responseCode?: number;
  readonly command?: string;
  readonly recipient?: string;
}

/**
 * Which trouble an error tells of. It goes by the machine's and the server's codes (RFC 5321, RFC 3463), and by words only
 * where the library hands on nothing else.
 */
export function troubleOf(error: ServerError, server: MailServer): MailTrouble {
  return { kind: kindOf(error), said: saidWithout(error.response ?? error.message, server) };
}

function kindOf(error: ServerError): MailTroubleKind {
  const { code = '', originalCode = '', message } = error;
  if (code === 'EDNS') return 'unknown-host';
  if (code === 'ETLS') return /certificate/i.test(message) ? 'certificate' : 'no-tls';
  if (code === 'EAUTH') return isLater(error) ? 'later' : 'login';
  if (code === 'EENVELOPE' || code === 'EMESSAGE' || code === 'EPROTOCOL') return refusalOf(error);
  if (code === 'ESOCKET') return socketTrouble(originalCode, message);
  if (code === 'ETIMEDOUT')
    return 'timeoutType' in error && error.timeoutType === 'SOCKET_TIMEOUT' ? 'cut-off' : 'no-answer';
  return isLater(error) ? 'later' : 'cut-off';
}

function socketTrouble(originalCode: string, message: string): MailTroubleKind {
  if (originalCode === 'ECONNREFUSED') return 'nothing-listens';
  if (/^(?:ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|EHOSTDOWN)$/.test(originalCode)) return 'no-answer';
  if (/CERT|ERR_TLS_CERT/.test(originalCode) || /certificate/i.test(message)) return 'certificate';
  return /^(?:ERR_SSL|EPROTO)/.test(originalCode) ? 'no-tls' : 'cut-off';
}

function refusalOf(error: ServerError): MailTroubleKind {
  const { responseCode = 0, response = '', command = '', message } = error;
  if (isTooLarge(error) || /size larger than allowed/i.test(message)) return 'too-large';
  if (responseCode === 530 || /^\d{3}[ -]5\.7\.0\b/.test(response)) return 'login-wanted';
  if (isLater(error)) return 'later';
  if (command === 'RCPT TO') return 'address-refused';
  return command === 'MAIL FROM' ? 'sender-refused' : 'message-refused';
}

/** 552 tells of a full box too where it answers for a recipient (RFC 3463, x.2.2); x.3.4 and x.2.3 are of size alone. */
function isTooLarge({ responseCode, response = '', command = '' }: ServerError): boolean {
  if (/^\d{3}[ -][45]\.(?:3\.4|2\.3)\b/.test(response)) return true;
  return responseCode === 552 && command !== 'RCPT TO' && !/^\d{3}[ -]5\.2\.2\b/.test(response);
}

function isLater({ responseCode = 0 }: ServerError): boolean {
  return responseCode >= 400 && responseCode < 500;
}

/** What was said, on one line and not too long, and without a word of the login, in whatever form a server sends it back. */
export function saidWithout(said: string, { login }: MailServer): string {
  const secrets = login
    ? [login.password, base64(login.password), base64(`\0${login.user}\0${login.password}`)]
    : [];
  const line = secrets
    .filter((secret) => secret !== '')
    .reduce((text, secret) => text.replaceAll(secret, '***'), said);
  return readableText(line.replaceAll(/\s+/g, ' ').trim()).slice(0, 200);
}

function base64(text: string): string {
  return Buffer.from(text).toString('base64');
}
