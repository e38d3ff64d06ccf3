import { rootCertificates } from 'node:tls';
import { mailNumbers } from '../../reference/numbers.js';
import type { Delivery, Envelope, MailServer, MailTrouble, MailTroubleKind } from '../../run/effects.js';
import { readableText } from '../../problem/format-problem.js';

/** How long a server is waited for: until it answers at all, and once it has. */
export interface Waits {
  readonly connectSeconds: number;
  readonly silentSeconds: number;
}

const usualWaits: Waits = {
  connectSeconds: mailNumbers.connectSeconds.value,
  silentSeconds: mailNumbers.silentSeconds.value,
};
const milliseconds = 1000;

/**
 * Hands a message to a mail server over TLS. Where the server offers none, or shows a certificate that is not trusted,
 * neither the login nor the message is sent; no setting turns that off.
 *
 * Checked: tests/post/sending/node-mailer.test.ts, against a server on this machine
 */
export async function nodeMailer(
  server: MailServer,
  { from, to, bytes }: Envelope,
  { connectSeconds, silentSeconds }: Waits = usualWaits,
): Promise<Delivery> {
  const { createTransport } = await import('nodemailer');
  let handedOver = false;
  const transport = createTransport({
    host: server.host,
    port: server.port,
    secure: server.tls === 'implicit',
    requireTLS: server.tls === 'starttls',
    ...(server.login
      ? { auth: { user: server.login.user, pass: server.login.password }, forceAuth: true }
      : {}),
    tls: {
      rejectUnauthorized: true,
      minVersion: 'TLSv1.2',
      ...(server.trust === undefined ? {} : { ca: [...rootCertificates, server.trust] }),
    },
    // A greeting that names neither this machine nor its place (RFC 5321, 4.1.3).
    name: '[127.0.0.1]',
    connectionTimeout: connectSeconds * milliseconds,
    greetingTimeout: connectSeconds * milliseconds,
    dnsTimeout: connectSeconds * milliseconds,
    socketTimeout: silentSeconds * milliseconds,
    // Nothing is logged: of all the library would tell, only that the last byte of the message has left.
    logger: {
      info: (told: { readonly tnx?: string } | undefined) => {
        if (told?.tnx === 'message') handedOver = true;
      },
    },
    disableFileAccess: true,
    disableUrlAccess: true,
  });
  try {
    const envelope = { from, to: [...to], size: bytes.length };
    const info = await transport.sendMail({ envelope, raw: bytes });
    const refused = (info.rejectedErrors ?? []) as readonly ServerError[];
    return {
      outcome: 'taken',
      to: info.accepted,
      refused: info.rejected.map((address) => ({
        address,
        said: saidWithout(refused.find((one) => one.recipient === address)?.response ?? '', server),
      })),
    };
  } catch (error) {
    const trouble = troubleOf(error as ServerError, server);
    return { outcome: trouble.kind === 'cut-off' && handedOver ? 'unknown' : 'failed', trouble };
  } finally {
    transport.close();
  }
}

/** What the mail library throws: its own word, the machine's, the server's reply and the command it was a reply to. */
interface ServerError extends Error {
  readonly code?: string;
  readonly originalCode?: string;
  readonly response?: string;
  readonly responseCode?: number;
  readonly command?: string;
  readonly recipient?: string;
}

/**
 * Which trouble an error describes. It goes by the machine's and the server's codes (RFC 5321, RFC 3463), and by words only
 * where the library hands on nothing else.
 */
function troubleOf(error: ServerError, server: MailServer): MailTrouble {
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

/** 552 means a full box too where it answers for a recipient (RFC 3463, x.2.2); x.3.4 and x.2.3 are of size alone. */
function isTooLarge({ responseCode, response = '', command = '' }: ServerError): boolean {
  if (/^\d{3}[ -][45]\.(?:3\.4|2\.3)\b/.test(response)) return true;
  return responseCode === 552 && command !== 'RCPT TO' && !/^\d{3}[ -]5\.2\.2\b/.test(response);
}

function isLater({ responseCode = 0 }: ServerError): boolean {
  return responseCode >= 400 && responseCode < 500;
}

/** What was said, on one line and not too long, and without a word of the login, in whatever form a server sends it back. */
function saidWithout(said: string, { login }: MailServer): string {
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
