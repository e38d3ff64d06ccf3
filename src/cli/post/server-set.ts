import { X509Certificate } from 'node:crypto';
import { type MailKey, mailKeys, type MailValues } from './mail-keys.js';
import type { MailServer } from './mailer.js';

interface Around {
  /** The private file, for a message that says where to write. */
  readonly file: string;
  /** The text of a certificate's file; undefined where none can be read. */
  readonly readTrust: (path: string) => string | undefined;
}

/** The server out of what is set; what is wrong with it is added to the troubles. */
export function serverSet(
  values: MailValues,
  { file, readTrust }: Around,
  troubles: string[],
): MailServer | undefined {
  const { server, user, password } = values;
  const missing = (key: MailKey) =>
    `no \`${key}\`: write \`${key}: …\` into ${file}, or set ${mailKeys[key]}`;
  if (!server) troubles.push(missing('server'));
  else if (!/^[\p{L}\p{N}.:-]+$/u.test(server.value))
    troubles.push(`${server.place}: \`server\` is the name of a server alone, as in mail.example`);
  if (user && !password) troubles.push(missing('password'));
  if (password && !user) troubles.push(missing('user'));
  const tls = tlsOf(values, troubles);
  const port = portOf(values, tls, troubles);
  const trust = trustOf(values, readTrust, troubles);
  return (
    server && {
      host: server.value,
      port,
      tls,
      ...(user && password ? { login: { user: user.value, password: password.value } } : {}),
      ...(trust === undefined ? {} : { trust }),
    }
  );
}

function tlsOf({ tls, port }: MailValues, troubles: string[]): MailServer['tls'] {
  if (!tls) return port?.value === '465' ? 'implicit' : 'starttls';
  if (tls.value !== 'implicit' && tls.value !== 'starttls')
    troubles.push(`${tls.place}: \`tls\` is \`starttls\` or \`implicit\`; without TLS nothing is sent`);
  return tls.value === 'implicit' ? 'implicit' : 'starttls';
}

/** The ports of submission: RFC 6409, and RFC 8314 for TLS from the start. */
function portOf({ port }: MailValues, tls: MailServer['tls'], troubles: string[]): number {
  if (!port) return tls === 'implicit' ? 465 : 587;
  const number = Number(port.value);
  if (!/^\d{1,5}$/.test(port.value) || number < 1 || number > 65_535)
    troubles.push(`${port.place}: \`port\` is a whole number from 1 to 65535, mostly 587 or 465`);
  return number;
}

function trustOf(
  { trust }: MailValues,
  readTrust: Around['readTrust'],
  troubles: string[],
): string | undefined {
  if (!trust) return undefined;
  const pem = readTrust(trust.value);
  if (pem !== undefined && isCertificate(pem)) return pem;
  troubles.push(
    `${trust.place}: \`trust\` names no certificate that can be read: expected the path of a PEM file`,
  );
  return undefined;
}

function isCertificate(pem: string): boolean {
  try {
    void new X509Certificate(pem);
    return true;
  } catch {
    return false;
  }
}
