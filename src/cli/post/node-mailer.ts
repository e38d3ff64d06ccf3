import { rootCertificates } from 'node:tls';
import { mailNumbers } from '../../reference/mail-numbers.js';
import type { Delivery, Envelope, MailServer } from './mailer.js';
import { saidWithout, type ServerError, troubleOf } from './trouble-of.js';

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
 * Checked: tests/cli/post/node-mailer.test.ts, against a server on this machine
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
